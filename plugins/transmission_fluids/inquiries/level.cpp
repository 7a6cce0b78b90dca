// level-rise, overfill, tilt-error: what heat and slope do to a level reading, and what an off reading means in
// litres. What the right level is, is the maker's to say.
#include <cmath>
#include <utility>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/spec_record.h"
#include "science/level.h"

namespace casebound::transmission_fluids {

namespace {

SourceNote d1250() { return standard("API MPMS 11.1 / ASTM D1250, lubricating oils"); }

// ---------------------------------------------------------------- what it is asked with

Input volume() { return total_input("volume"); }
Input area() {
    return recorded(found_by(number_input("area", "free fluid surface at the level", "m2", 0.005, 1),
                             "length by width of the pan, less what the valve body takes."),
                    levels, "free_area_m2");
}
Input check_temp() {
    return found_by(number_input("check_temp", "fluid temperature at which the level is read", "degC", -50, 150),
                    "the fluid temperature at which the maker reads the level.");
}
Input window_end(std::string name, std::string title, std::string column) {
    return recorded(found_by(number_input(std::move(name), std::move(title), "degC", -50, 150), check_temp().how),
                    levels, std::move(column));
}

std::vector<Input> with_fluid(std::vector<Input> inputs) {
    for (auto& input :
         std::vector<Input>{check_temp(), window_end("check_from", "level is checked from", "low_temp_c"),
                            window_end("check_to", "level is checked up to", "high_temp_c"), volume(), area(),
                            text_input("fluid", "product on record: its density is taken"),
                            assumed(number_input("density", "density at 15 °C", "kg/m3", 801, 1164), "850")})
        inputs.push_back(std::move(input));
    return inputs;
}

struct Density {
    double kg_m3;
    SourceNote source;
};

Density density_of(const Given& given, const Services& services, Answer& answer) {
    if (given.value("density").from != From::assumed) return {given.number("density"), given.source("density")};
    const auto figures = given.has("fluid") ? fluid_figures(services.facts, given.text("fluid")) : std::nullopt;
    if (figures && figures->density_15c_kg_m3) {
        answer.lines.push_back(measure_line(figures->name + ": density at 15 °C", *figures->density_15c_kg_m3, "kg/m3",
                                            0, figures->source));
        return {*figures->density_15c_kg_m3, figures->source};
    }
    answer.assumptions.push_back(
        "Density 850 kg/m3 at 15 °C: transmission fluids have 830 to 870 (from memory); the rise hardly depends on "
        "it.");
    return {given.number("density"), from_memory("density of 850 kg/m3")};
}

// By hand, or the middle of the maker's window.
std::optional<double> check_temp_c(const Given& given, Answer& answer) {
    if (given.has("check_temp")) return given.number("check_temp");
    const auto low = given.maybe_number("check_from"), high = given.maybe_number("check_to");
    if (!low || !high) {
        if (given.undecided.count("check_from") + given.undecided.count("check_to") == 0)
            return needed(check_temp(), given, answer);
        return std::nullopt;
    }
    answer.assumptions.push_back("The level belongs where it is at " + quantity_text((*low + *high) / 2, "°C") +
                                 ", the middle of the maker's window.");
    return (*low + *high) / 2;
}

SourceNote fed_by_all(SourceNote formula, const Density& density, const Given& given) {
    const bool window = !given.has("check_temp");
    formula = fed_by(fed_with(std::move(formula), density.source), given, {"volume"});
    return window ? fed_by(std::move(formula), given, {"check_from", "check_to"}) : formula;
}

// ---------------------------------------------------------------- level rise

Series rise_series(double volume, double density, std::optional<double> area, double from_c, double to_c) {
    auto series = series_of("Rise from cold to hot", {"fluid temperature", "degC"},
                            {area ? "rise of the level" : "rise in volume", area ? "mm" : "L"}, {"rise"});
    constexpr int steps = 20;
    for (int i = 0; i <= steps; ++i) {
        const double temp = from_c + (to_c - from_c) * i / steps;
        const double change = volume * (volume_ratio(density, from_c, temp) - 1);
        series.curves[0].points.emplace_back(temp, area ? level_rise_mm(change, *area) : change);
    }
    return series;
}

void say_rise_on_stick(double change_l, std::optional<double> area_m2, const Given& given, Answer& answer) {
    if (!area_m2) {
        answer.headline += ".";
        answer.next.push_back("Give area, the free fluid surface, for the rise in mm: " + area().how);
        return;
    }
    const double rise = level_rise_mm(change_l, *area_m2);
    answer.lines.push_back(measure_line("rise of the level", rise, "mm", 1,
                                        fed_by(computed("volume over free surface"), given, {"volume", "area"})));
    answer.headline += ": " + quantity_text(rise, "mm", 1) + " on the stick.";
}

Answer answer_level_rise(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto all_l = needed(volume(), given, answer);
    const auto hot = check_temp_c(given, answer);
    if (!all_l || !hot) {
        answer.headline = "Cannot tell yet: the volume or the temperature of the check is not known.";
        return answer;
    }
    const Density density = density_of(given, services, answer);
    const auto source = fed_by_all(d1250(), density, given);
    const double from_c = given.number("from");
    const double ratio = volume_ratio(density.kg_m3, from_c, *hot), change = *all_l * (ratio - 1);
    answer.lines.push_back(
        measure_line("growth from " + quantity_text(from_c, "°C") + " to " + quantity_text(*hot, "°C"),
                     100 * (ratio - 1), "%", 2, source));
    answer.lines.push_back(measure_line("rise in volume", change, "L", 2, source));
    answer.headline = "The fluid grows by " + quantity_text(change, "L") + " from " + quantity_text(from_c, "°C") +
                      " to " + quantity_text(*hot, "°C");
    const auto surface = given.maybe_number("area");
    say_rise_on_stick(change, surface, given, answer);
    answer.series.push_back(rise_series(*all_l, density.kg_m3, surface, from_c, *hot));
    answer.cautions.push_back(
        "Filled cold to the hot mark it is overfull when hot; read it at the maker's temperature.");
    return answer;
}

Inquiry level_rise_inquiry() {
    return {"level-rise", "Rise of the level from cold to hot (API MPMS 11.1 / ASTM D1250)",
            with_fluid({assumed(number_input("from", "fluid temperature now", "degC", -50, 150), "20")}),
            answer_level_rise, "volume=8.5L from=20degC check-temp=80degC density=850"};
}

// ---------------------------------------------------------------- density and volume

// "9.0 L at 20 °C are 9.42 L at 80 °C."
void say_volume(double volume_l, double from_c, double at_c, const Density& density, const Given& given,
                Answer& answer) {
    const double then_l = volume_l * volume_ratio(density.kg_m3, from_c, at_c);
    answer.lines.push_back(measure_line("volume at " + quantity_text(at_c, "°C"), then_l, "L", 3,
                                        fed_by(fed_with(d1250(), density.source), given, {"volume", "from"})));
    answer.headline += " " + quantity_text(volume_l, "L") + " measured at " + quantity_text(from_c, "°C") + " are " +
                       quantity_text(then_l, "L", 3) + " then.";
}

Input wanted_temp() {
    return found_by(number_input("at", "temperature wanted", "degC", -50, 150), "the temperature that is asked about.");
}

Answer answer_density(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto wanted_c = needed(wanted_temp(), given, answer);
    if (!wanted_c) {
        answer.headline = "Cannot tell yet: no temperature is given.";
        return answer;
    }
    const Density density = density_of(given, services, answer);
    const double at_c = *wanted_c, factor = volume_correction_15c(density.kg_m3, at_c);
    const double then = density_at_kg_m3(density.kg_m3, at_c);
    const auto source = fed_by(fed_with(d1250(), density.source), given, {"at"});
    const std::string at = " at " + quantity_text(at_c, "°C");
    answer.lines.push_back(measure_line("expansion at 15 °C", expansion_per_c(density.kg_m3), "per °C", 6,
                                        fed_with(d1250(), density.source)));
    answer.lines.push_back(measure_line("volume factor" + at + ", to 15 °C", factor, "", 4, source));
    answer.lines.push_back(measure_line("density" + at, then, "kg/m3", 1, source));
    answer.headline = "The density" + at + " is " + quantity_text(then, "kg/m3", 1) + ", the volume factor to 15 °C " +
                      fixed(factor, 4) + ".";
    if (const auto volume_l = given.maybe_number("volume"))
        say_volume(*volume_l, given.number("from"), at_c, density, given, answer);
    return answer;
}

Inquiry density_inquiry() {
    return {"density",
            "Density and volume factor of a fluid at a temperature (API MPMS 11.1 / ASTM D1250)",
            {wanted_temp(), text_input("fluid", "product on record: its density is taken"),
             assumed(number_input("density", "density at 15 °C", "kg/m3", 801, 1164), "850"),
             number_input("volume", "volume to be turned into that at the temperature wanted", "L", 0.001, 200),
             assumed(number_input("from", "temperature at which that volume is measured", "degC", -50, 150), "20")},
            answer_density,
            "at=80degC density=870"};
}

// ---------------------------------------------------------------- overfill

// Not known to be read standing, a reading with the engine off says nothing: converter and cooler have drained back.
bool read_as_the_maker_does(const Given& given) {
    return !given.has("engine_running") || given.text("engine_running") == given.text_or("read_running", "yes");
}

// A reading counts only under the maker's own terms: what nobody has said of them stands in the headline.
void weigh_stance(const Given& given, Answer& answer, std::string& unsaid) {
    if (given.value("vehicle_level").from == From::assumed) {
        answer.lower(Verdict::check_first);
        unsaid = "the vehicle stood level";
        answer.next.push_back("Say whether the vehicle stood level at the reading.");
    } else if (given.text("vehicle_level") == "no") {
        answer.lower(Verdict::check_first);
        answer.headline += " But the vehicle did not stand level: read it again.";
        answer.next.push_back(
            "Stand the vehicle level, all four wheels raised equally or none, and read again; `tilt-error` says how "
            "far off a slope reads.");
    }
}

void weigh_engine(const Given& given, Answer& answer, std::string& unsaid) {
    const bool known = given.has("read_running");
    const std::string how = given.yes("read_running") ? "running" : "standing";
    if (!given.has("engine_running")) {
        answer.lower(Verdict::check_first);
        unsaid += std::string(unsaid.empty() ? "" : " and ") + "the engine ran or stood as the maker says";
        answer.next.push_back(
            "Say whether the engine ran: converter and cooler drain back into the pan when it stands" +
            (known ? "; here the maker reads it with the engine " + how + "." : "."));
    } else if (!read_as_the_maker_does(given)) {
        answer.lower(Verdict::not_recorded);
        answer.headline =
            known ? "Cannot tell: this reading was not taken under the maker's terms."
                  : "Cannot tell: read with the engine standing, and nobody has said that the maker reads it so.";
        answer.next.push_back(
            known ? "Read again with the engine " + how + ", as the maker says: this reading means nothing."
                  : "Find out whether the maker reads it with the engine standing; most automatic gearboxes are read "
                    "running, and then this reading means nothing.");
    }
}

std::string overfill_headline(double excess_l) {
    if (std::abs(excess_l) < 0.005) return "The level is right.";
    return "About " + quantity_text(std::abs(excess_l), "L") + (excess_l > 0 ? " too much." : " too little.");
}

void say_overfill(const LevelTarget& target, const SourceNote& source, const Given& given, Answer& answer) {
    const double temp_c = given.number("temp");
    const double excess = overfill_l(target, given.number("reading"), temp_c);
    answer.lines.push_back(measure_line("where the level belongs at " + quantity_text(temp_c, "°C") + ", from the mark",
                                        level_target_at_mm(target, temp_c), "mm", 1, source));
    if (read_as_the_maker_does(given))
        answer.lines.push_back(measure_line(excess < 0 ? "too little" : "too much", std::abs(excess), "L", 2, source));
    answer.headline = overfill_headline(excess);
    std::string unsaid;
    weigh_stance(given, answer, unsaid);
    weigh_engine(given, answer, unsaid);
    if (!unsaid.empty() && answer.verdict != Verdict::not_recorded)
        answer.headline += " Only if " + unsaid + ": nobody has said.";
}

Input temp_at_reading() {
    return found_by(told(number_input("temp", "fluid temperature at the reading", "degC", -50, 150), "fluid_temp"),
                    "read the fluid temperature with a code reader, or a thermometer at the pan.");
}

Answer answer_overfill(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto all_l = needed(volume(), given, answer), surface = needed(area(), given, answer);
    const auto check = check_temp_c(given, answer), temp = needed(temp_at_reading(), given, answer);
    if (!all_l || !surface || !check || !temp) {
        answer.headline = "Cannot tell yet: a level without its temperature, its surface and its volume means nothing.";
        return answer;
    }
    const Density density = density_of(given, services, answer);
    const auto source = fed_by(fed_by_all(d1250(), density, given), given, {"area", "temp"});
    say_overfill({0, *check, *all_l, density.kg_m3, *surface}, source, given, answer);
    answer.cautions.push_back(
        "Overfull fluid foams and is thrown out of the vent; too little starves the pump. Both can cost the unit.");
    return answer;
}

Inquiry overfill_inquiry() {
    return {"overfill", "What an off level reading means in litres",
            with_fluid({required(number_input("reading", "reading above the mark; below is negative", "mm", -500, 500)),
                        temp_at_reading(), yes_no_input("engine_running", "did the engine run at the reading?"),
                        recorded(found_by(yes_no_input("read_running", "the maker reads it with the engine running"),
                                          "whether the maker reads it with the engine running."),
                                 levels, "engine_running"),
                        assumed(yes_no_input("vehicle_level", "did the vehicle stand level?"), "yes")}),
            answer_overfill, "reading=10mm temp=70degC --for bookvan"};
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

Input off_centre() {
    return recorded(found_by(number_input("off_centre", "stick or plug off the middle of the pan, along the vehicle",
                                          "mm", 0, 2000),
                             "measure along the vehicle from the middle of the pan to the stick or plug."),
                    levels, "off_centre_mm");
}

Answer answer_tilt_error(const Given& given, const Services&) {
    auto answer = Answer::computing();
    const auto distance = needed(off_centre(), given, answer);
    const double angle = tilt_deg(given.number("ramp"), given.number("wheelbase"));
    answer.lines.push_back(measure_line("angle of the vehicle", angle, "degrees", 1,
                                        fed_by(computed("asin(ramp / wheelbase)"), given, {"ramp", "wheelbase"})));
    if (!distance) {
        answer.headline = "Cannot tell yet how far off it reads: where the stick or plug stands is not known.";
        return answer;
    }
    const double error = tilt_error_mm(*distance, angle);
    answer.lines.push_back(measure_line("the level reads off by", error, "mm", 1,
                                        fed_by(computed("distance x tan(angle)"), given, {"off_centre"})));
    answer.headline = "The level reads off by " + quantity_text(error, "mm", 0) +
                      ": check it with all four wheels raised equally or none.";
    if (const auto surface = given.maybe_number("area"))
        answer.lines.push_back(
            measure_line("filled by it, that would be off by", error * *surface, "L", 2,
                         fed_by(computed("error times free surface"), given, {"off_centre", "area"})));
    answer.pictures.push_back(tilt_picture(*distance, angle, error));
    answer.assumptions.push_back(
        "The level itself is read about the middle of the pan; the error changes sign with the end that is raised.");
    return answer;
}

Inquiry tilt_error_inquiry() {
    return {"tilt-error",
            "How far off the level reads with one axle on ramps",
            {required(number_input("ramp", "height of the ramps", "mm", 0, 1000)),
             required(number_input("wheelbase", "wheelbase", "mm", 500, 10000)), off_centre(), area()},
            answer_tilt_error,
            "ramp=165mm wheelbase=2700mm off-centre=200mm"};
}

}  // namespace

std::vector<Inquiry> level_inquiries() {
    return {level_rise_inquiry(), density_inquiry(), overfill_inquiry(), tilt_error_inquiry()};
}

}  // namespace casebound::transmission_fluids
