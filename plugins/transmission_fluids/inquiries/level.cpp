// level-rise, overfill, tilt-error: what heat and slope do to a level reading, and what an off reading means in
// litres. What the right level is, is the maker's to say.
#include <cmath>

#include "answer_parts.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "known.h"
#include "on_vehicle.h"
#include "rows/spec_record.h"
#include "science/level.h"

namespace casebound::transmission_fluids {

namespace {

constexpr const char* fills = "transmission_fluids_fills";
constexpr const char* levels = "transmission_fluids_levels";

SourceNote d1250() { return standard("API MPMS 11.1 / ASTM D1250, lubricating oils"); }

struct Density {
    double kg_m3;
    SourceNote source;
};

Density density_of(const Given& given, const Services& services, Answer& answer) {
    const auto figures = given.has("fluid") ? fluid_figures(services.facts, given.text("fluid")) : std::nullopt;
    const auto& by_hand = given.values.at("density");
    if (by_hand.origin == "assumed" && figures && figures->density_15c_kg_m3) {
        answer.lines.push_back(
            line(figures->name + ": density at 15 °C", *figures->density_15c_kg_m3, "kg/m3", 0, figures->source));
        return {*figures->density_15c_kg_m3, figures->source};
    }
    if (by_hand.origin == "assumed")
        answer.assumptions.push_back(
            "Density 850 kg/m3 at 15 °C: transmission fluids have 830 to 870 (from memory); the rise hardly depends on "
            "it.");
    return {given.number("density"),
            by_hand.origin == "assumed" ? from_memory("density of 850 kg/m3") : given_by_hand()};
}

std::optional<double> volume_l(const Given& given, const Services& services, Answer& answer) {
    return known_number({"volume", fills, "total_l", "all the fluid in unit, converter and cooler", "L", 2,
                         "all the fluid in unit, converter and cooler, from the handbook."},
                        given, services, answer);
}

Wanted free_area() {
    return {"area",
            levels,
            "free_area_m2",
            "free fluid surface at the level",
            "m2",
            4,
            "length by width of the pan, less what the valve body takes."};
}

Wanted window_end(bool high) {
    return {"check_temp",
            levels,
            high ? "high_temp_c" : "low_temp_c",
            high ? "level is checked up to" : "level is checked from",
            "degC",
            0,
            "the fluid temperature at which the maker reads the level."};
}

// By hand, or the middle of the maker's window.
std::optional<double> check_temp_c(const Given& given, const Services& services, Answer& answer) {
    if (given.has("check_temp")) return given.number("check_temp");
    const auto low = known_number(window_end(false), given, services, answer);
    if (!low) return std::nullopt;
    const auto high = known_number(window_end(true), given, services, answer);
    if (!high) return std::nullopt;
    answer.assumptions.push_back("The level belongs where it is at " + quantity_text((*low + *high) / 2, "°C") +
                                 ", the middle of the maker's window.");
    return (*low + *high) / 2;
}

std::vector<Input> fluid_inputs() {
    return {number_input("volume", "all the fluid in unit, converter and cooler", "L", 0.1, 200),
            number_input("area", "free fluid surface at the level", "m2", 0.005, 1),
            text_input("fluid", "product on record: its density is taken"),
            assumed(number_input("density", "density at 15 °C", "kg/m3", 801, 1164), "850")};
}

std::vector<Input> joined(std::vector<Input> first, std::vector<Input> rest) {
    first.insert(first.end(), rest.begin(), rest.end());
    return first;
}

// ---------------------------------------------------------------- level rise

Series rise_series(double volume, double density, std::optional<double> area, double from_c, double to_c) {
    Series series{"Rise from cold to hot",
                  "fluid temperature",
                  "degC",
                  area ? "rise of the level" : "rise in volume",
                  area ? "mm" : "L",
                  false,
                  {{"rise", {}}},
                  {}};
    constexpr int steps = 20;
    for (int i = 0; i <= steps; ++i) {
        const double temp = from_c + (to_c - from_c) * i / steps;
        const double change = volume * (volume_ratio(density, from_c, temp) - 1);
        series.curves[0].points.emplace_back(temp, area ? level_rise_mm(change, *area) : change);
    }
    return series;
}

Answer answer_level_rise(const Given& given, const Services& services) {
    Answer answer;
    const auto volume = volume_l(given, services, answer);
    const auto hot = check_temp_c(given, services, answer);
    if (!volume || !hot) {
        answer.headline = "Cannot tell yet: the volume or the temperature of the check is not known.";
        return answer;
    }
    const Density density = density_of(given, services, answer);
    const auto source = resting_on(resting_on(d1250(), density.source), answer);
    const double from_c = given.number("from");
    const double ratio = volume_ratio(density.kg_m3, from_c, *hot), change = *volume * (ratio - 1);
    answer.lines.push_back(line("growth from " + quantity_text(from_c, "°C") + " to " + quantity_text(*hot, "°C"),
                                100 * (ratio - 1), "%", 2, source));
    answer.lines.push_back(line("rise in volume", change, "L", 2, source));
    answer.headline = "The fluid grows by " + quantity_text(change, "L") + " from " + quantity_text(from_c, "°C") +
                      " to " + quantity_text(*hot, "°C");
    const auto area = known_number_if_any(free_area(), given, services, answer);
    if (area) {
        const double rise = level_rise_mm(change, *area);
        answer.lines.push_back(
            line("rise of the level", rise, "mm", 1, resting_on(computed("volume over free surface"), answer)));
        answer.headline += ": " + quantity_text(rise, "mm", 1) + " on the stick";
    } else {
        answer.next.push_back(
            "Give area, the free fluid surface, for the rise in mm: length by width of the pan, less what the valve "
            "body takes.");
    }
    answer.headline += ".";
    answer.series.push_back(rise_series(*volume, density.kg_m3, area, from_c, *hot));
    answer.cautions.push_back(
        "Filled cold to the hot mark it is overfull when hot; read it at the maker's temperature.");
    return answer;
}

Inquiry level_rise_inquiry() {
    return {"level-rise", "Rise of the level from cold to hot (API MPMS 11.1 / ASTM D1250)",
            joined({assumed(number_input("from", "fluid temperature now", "degC", -50, 150), "20"),
                    number_input("check_temp", "fluid temperature at which the level is read", "degC", -50, 150)},
                   fluid_inputs()),
            answer_level_rise};
}

// ---------------------------------------------------------------- overfill

// Not known to be read standing, a reading with the engine off says nothing: converter and cooler have drained back.
bool read_as_the_maker_does(const Given& given, const Services& services) {
    if (!given.has("engine_running")) return true;
    return given.text("engine_running") == recorded_text(services, levels, "engine_running").value_or("yes");
}

// A reading counts only under the maker's own terms: what nobody has said of them stands in the headline.
void weigh_stance(const Given& given, Answer& answer, std::string& unsaid) {
    if (given.values.at("vehicle_level").origin == "assumed") {
        lower(answer, Verdict::check_first);
        unsaid = "the vehicle stood level";
        answer.next.push_back("Say whether the vehicle stood level at the reading.");
    } else if (given.text("vehicle_level") == "no") {
        lower(answer, Verdict::check_first);
        answer.headline += " But the vehicle did not stand level: read it again.";
        answer.next.push_back(
            "Stand the vehicle level, all four wheels raised equally or none, and read again; `tilt-error` says how "
            "far off a slope reads.");
    }
}

void weigh_terms(const Given& given, const Services& services, Answer& answer) {
    std::string unsaid;
    weigh_stance(given, answer, unsaid);
    const auto wanted = recorded_text(services, levels, "engine_running");
    if (!given.has("engine_running")) {
        lower(answer, Verdict::check_first);
        unsaid += std::string(unsaid.empty() ? "" : " and ") + "the engine ran or stood as the maker says";
        answer.next.push_back(
            std::string("Say whether the engine ran: converter and cooler drain back into the pan when it stands") +
            (wanted ? "; here the maker reads it with the engine " +
                          std::string(*wanted == "yes" ? "running." : "standing.")
                    : "."));
    } else if (!read_as_the_maker_does(given, services)) {
        lower(answer, Verdict::not_recorded);
        answer.next.push_back(
            wanted ? std::string("Read again with the engine ") + (*wanted == "yes" ? "running" : "standing") +
                         ", as the maker says: this reading means nothing."
                   : "Find out whether the maker reads it with the engine standing; most automatic gearboxes are read "
                     "running, and then this reading means nothing.");
    }
    if (!unsaid.empty()) answer.headline += " Only if " + unsaid + ": nobody has said.";
}

std::string overfill_headline(double excess_l) {
    if (std::abs(excess_l) < 0.005) return "The level is right.";
    return "About " + quantity_text(std::abs(excess_l), "L") + (excess_l > 0 ? " too much." : " too little.");
}

Answer answer_overfill(const Given& given, const Services& services) {
    Answer answer;
    const auto volume = volume_l(given, services, answer);
    const auto area = known_number(free_area(), given, services, answer);
    const auto check = check_temp_c(given, services, answer);
    const auto temp = given.maybe_number("temp");
    if (!temp) missing(answer, "temp", "read the fluid temperature with a code reader, or a thermometer at the pan.");
    if (!volume || !area || !check || !temp) {
        answer.headline = "Cannot tell yet: a level without its temperature, its surface and its volume means nothing.";
        return answer;
    }
    const Density density = density_of(given, services, answer);
    const LevelTarget target{0, *check, *volume, density.kg_m3, *area};
    const double belongs = level_target_at_mm(target, *temp),
                 excess = overfill_l(target, given.number("reading"), *temp);
    const auto source = resting_on(resting_on(d1250(), density.source), answer);
    answer.lines.push_back(
        line("where the level belongs at " + quantity_text(*temp, "°C") + ", from the mark", belongs, "mm", 1, source));
    if (read_as_the_maker_does(given, services))
        answer.lines.push_back(line(excess < 0 ? "too little" : "too much", std::abs(excess), "L", 2, source));
    answer.headline = overfill_headline(excess);
    weigh_terms(given, services, answer);
    if (answer.verdict == Verdict::not_recorded)
        answer.headline =
            recorded_text(services, levels, "engine_running")
                ? "Cannot tell: this reading was not taken under the maker's terms."
                : "Cannot tell: read with the engine standing, and nobody has said that the maker reads it "
                  "so.";
    answer.cautions.push_back(
        "Overfull fluid foams and is thrown out of the vent; too little starves the pump. Both can cost the unit.");
    return answer;
}

Inquiry overfill_inquiry() {
    return {"overfill", "What an off level reading means in litres",
            joined({required(number_input("reading", "reading above the mark; below is negative", "mm", -500, 500)),
                    told(number_input("temp", "fluid temperature at the reading", "degC", -50, 150), "fluid_temp"),
                    number_input("check_temp", "fluid temperature the mark is meant for", "degC", -50, 150),
                    yes_no_input("engine_running", "did the engine run at the reading?"),
                    assumed(yes_no_input("vehicle_level", "did the vehicle stand level?"), "yes")},
                   fluid_inputs()),
            answer_overfill};
}

// ---------------------------------------------------------------- tilt

// Pan from the side, 400 mm long; the fluid stays level while the pan leans.
Picture tilt_picture(double off_centre_mm, double angle_deg, double error_mm) {
    constexpr double length = 400, depth = 80, middle = 40;
    const double fall = tilt_error_mm(length / 2, angle_deg);
    const double stick = length / 2 + std::min(off_centre_mm, length / 2);
    Picture picture{"The pan from the side, leaning " + quantity_text(angle_deg, "degrees", 1),
                    "The fluid stays level while the pan leans: " + quantity_text(off_centre_mm, "mm") +
                        " off the middle it stands " + quantity_text(error_mm, "mm", 1) +
                        " too high on one side, as much too low on the other.",
                    {}};
    picture.shapes = {{Shape::Kind::box, 0, 0, length, depth, "pan", false},
                      {Shape::Kind::line, 0, middle + fall, length, -2 * fall, "fluid", true},
                      {Shape::Kind::line, stick, -40, 0, depth + 40, "stick or plug", false},
                      {Shape::Kind::line, length / 2, 0, 0, depth, "middle", false}};
    return picture;
}

Answer answer_tilt_error(const Given& given, const Services& services) {
    Answer answer;
    const auto off_centre = known_number(
        {"off_centre", levels, "off_centre_mm", "stick or plug off the middle of the pan", "mm", 0,
         "measure along the vehicle from the middle of the pan to the stick or plug."},
        given, services, answer);
    const double angle = tilt_deg(given.number("ramp"), given.number("wheelbase"));
    answer.lines.push_back(line("angle of the vehicle", angle, "degrees", 1, computed("asin(ramp / wheelbase)")));
    if (!off_centre) {
        answer.headline = "Cannot tell yet how far off it reads: where the stick or plug stands is not known.";
        return answer;
    }
    const double error = tilt_error_mm(*off_centre, angle);
    answer.lines.push_back(
        line("the level reads off by", error, "mm", 1, resting_on(computed("distance x tan(angle)"), answer)));
    answer.headline = "The level reads off by " + quantity_text(error, "mm", 0) +
                      ": check it with all four wheels raised equally or none.";
    if (const auto area = known_number_if_any(free_area(), given, services, answer))
        answer.lines.push_back(line("filled by it, that would be off by", error * *area, "L", 2,
                                    resting_on(computed("error times free surface"), answer)));
    answer.pictures.push_back(tilt_picture(*off_centre, angle, error));
    answer.assumptions.push_back(
        "The level itself is read about the middle of the pan; the error changes sign with the end that is raised.");
    return answer;
}

Inquiry tilt_error_inquiry() {
    return {"tilt-error",
            "How far off the level reads with one axle on ramps",
            {required(number_input("ramp", "height of the ramps", "mm", 0, 1000)),
             required(number_input("wheelbase", "wheelbase", "mm", 500, 10000)),
             number_input("off_centre", "stick or plug from the middle of the pan, along the vehicle", "mm", 0, 2000),
             number_input("area", "free fluid surface at the level", "m2", 0.005, 1)},
            answer_tilt_error};
}

}  // namespace

std::vector<Inquiry> level_inquiries() { return {level_rise_inquiry(), overfill_inquiry(), tilt_error_inquiry()}; }

}  // namespace casebound::transmission_fluids
