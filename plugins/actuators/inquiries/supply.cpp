// What of the supply arrives: the wire, the fuse, the battery at rest; and a sensor of temperature by its resistance.
#include "science/supply.h"

#include <cmath>

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"

namespace casebound::actuators {
namespace {

// The wire of that section, else copper by its section.
struct Wire {
    double mohm_per_m;
    SourceNote source;
};
Wire wire_of(const Facts& facts, double area_mm2) {
    for (const auto& row : facts.rows("actuators_wires"))
        if (std::abs(row.need_number("area_mm2") - area_mm2) < 0.001)
            return {row.need_number("mohm_per_m"), row_source(row)};
    return {copper_mohm_per_m(area_mm2), standard("IEC 60028, annealed copper, 1/58 ohm mm2 a metre")};
}

Answer answer_wire(const Given& given, const Services& services) {
    const double amps = given.number("amps"), metres = given.number("length");
    const auto wire = wire_of(services.facts, given.number("section"));
    const double lost = lost_v(amps, metres, wire.mohm_per_m);
    const auto source = weaker(fed_by(computed("2 x I x length x resistance"), given, {"amps", "length", "section"}),
                               wire.source);
    auto answer = Answer::computing();
    answer.headline = "The wire takes " + fixed(lost, 2) + " V there and back.";
    answer.lines = {measure_line("resistance of the wire", wire.mohm_per_m, "mohm/m", 2, wire.source),
                    measure_line("volts lost there and back", lost, "V", 2, source),
                    measure_line("watts in the wire", lost * amps, "W", 1, source)};
    if (const auto supply = given.maybe_number("supply")) {
        answer.lines.push_back(
            measure_line("arrives at the plug", *supply - lost, "V", 2, fed_by(source, given, {"supply"})));
        answer.lines.push_back(
            measure_line("lost, of the supply", 100 * lost / *supply, "%", 1, fed_by(source, given, {"supply"})));
    }
    answer.assumptions = {"the body is not the way back; at 20 degC: copper has 4 % more for each 10 degC",
                          "plugs, fuse and switch add to it: measure across each under load"};
    return answer;
}

Answer answer_fuse(const Given& given, const Services& services) {
    const auto form = given.text("kind");
    auto answer = Answer::computing();
    for (const auto& row : services.facts.rows("actuators_fuses", "form", form)) {
        const bool by_colour = given.has("colour") && row.text("colour") == given.text("colour");
        const bool by_rating = given.has("rating") && row.number("rating_a") == given.number("rating");
        if (!by_colour && !by_rating) continue;
        answer.lines.push_back(measure_line(cell(row, "colour"), row.need_number("rating_a"), "A", 1, row_source(row)));
    }
    if (answer.lines.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No such fuse is on record: read the number on its back.";
        answer.next = {"Give colour=blue or rating=15A, and kind=blade or kind=large blade."};
        return answer;
    }
    answer.headline = "A " + form + " fuse that is " + answer.lines[0].label + ": " +
                      quantity_text(std::get<Measure>(answer.lines[0].value).value, "A") + ".";
    answer.cautions = {"never a larger fuse than the lid of the box says: the wire burns in its place",
                       "read the number on it too: colours fade"};
    return answer;
}

std::vector<Point> curve_of(const std::vector<Row>& rows, const char* x, const char* y, SourceNote& source) {
    std::vector<Point> curve;
    for (const auto& row : rows) {
        curve.push_back({row.need_number(x), row.need_number(y)});
        source = weaker(source, row_source(row));
    }
    return curve;
}

Answer answer_battery(const Given& given, const Services& services) {
    SourceNote source = computed("between two rows of the table");
    const auto& rows = services.facts.rows("actuators_battery_charge", "battery", given.text("battery"));
    const auto curve = curve_of(rows, "rest_v", "charge_pct", source);
    auto answer = Answer::computing();
    if (curve.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No rest voltages are on record: load the reference pack of actuators.";
        return answer;
    }
    const auto [low, high] = std::minmax_element(curve.begin(), curve.end(),
                                                 [](Point a, Point b) { return a.x < b.x; });
    const double volts = given.number("volts");
    const auto charge = volts < low->x ? low->y : volts > high->x ? high->y : between(curve, volts, false);
    answer.headline = volts < low->x
                          ? "Empty: less than any rest voltage on record; charge it before anything is judged."
                      : volts > high->x ? "Full, or not at rest: wait some hours, lights off, and measure again."
                                        : "About " + fixed(charge, 0) + " % charged.";
    answer.lines = {measure_line("charge", charge, "%", 0, fed_by(source, given, {"volts"}))};
    answer.assumptions = {"at rest for hours, near 25 degC; from memory, and makers differ by a tenth of a volt"};
    answer.next = {"Below three quarters charge it first: a low supply looks like a dead actuator."};
    return answer;
}

Answer answer_sensor(const Given& given, const Services& services) {
    SourceNote source = computed("between two rows of the curve, by equal ratios");
    const auto& sensor = given.text("sensor");
    std::vector<Row> rows;
    for (const auto& row : services.facts.rows("actuators_sensor_curves"))
        if (row.text("sensor").substr(0, sensor.size()) == sensor) rows.push_back(row);
    const auto curve = curve_of(rows, "resistance_ohm", "temp_c", source);
    auto answer = Answer::computing();
    if (curve.size() < 2) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No curve of that sensor is on record: write its rows down, or read the maker's.";
        return answer;
    }
    const double degrees = between(curve, given.number("ohm"), true);
    answer.headline = fixed(given.number("ohm"), 0) + " ohm is " + fixed(degrees, 1) + " degC on that curve.";
    answer.lines = {measure_line("temperature by the curve", degrees, "degC", 1, fed_by(source, given, {"ohm"}))};
    if (const auto real = given.maybe_number("real")) {
        answer.lines.push_back(
            measure_line("apart", degrees - *real, "degC", 1, fed_by(source, given, {"ohm", "real"})));
        answer.next = {std::abs(degrees - *real) > 5
                           ? "More than 5 degC apart, from memory: another curve, or a sensor that is off."
                           : "Within 5 degC, from memory: the sensor is not what ails."};
    }
    return answer;
}

}  // namespace

Inquiry wire_inquiry() {
    return {"wire",
            "Volts lost in a wire there and back, by section, length and current",
            {required(number_input("amps", "current", "A", 0, 300)),
             required(number_input("length", "of the wire, one way", "m", 0.01, 30)),
             required(number_input("section", "of its copper", "mm2", 0.05, 120)),
             number_input("supply", "at the other end", "V", 1, 32)},
            answer_wire,
            "amps=10A length=5m section=1.5 supply=12.6V"};
}

Inquiry fuse_inquiry() {
    return {"fuse",
            "A blade fuse by its colour or its rating",
            {assumed(choice_input("kind", "of the fuse", {"blade", "large blade"}), "blade"),
             text_input("colour", "of its body"), number_input("rating", "printed on it", "A", 0.5, 200)},
            answer_fuse,
            "colour=blue"};
}

Inquiry battery_inquiry() {
    return {"battery",
            "Charge of a 12 V battery by its rest voltage",
            {required(found_by(number_input("volts", "at rest, across the posts", "V", 5, 16),
                               "Hours after driving or charging, doors shut, nothing on: meter across the posts.")),
             assumed(choice_input("battery", "its kind", {"flooded", "mat"}), "flooded")},
            answer_battery,
            "volts=12.55V"};
}

Inquiry sensor_inquiry() {
    return {"sensor",
            "Temperature of a sensor by its resistance, against the temperature that it has",
            {required(number_input("ohm", "measured, unplugged", "ohm", 1, 1000000)),
             assumed(text_input("sensor", "which curve, the beginning of its name"), "common coolant sensor"),
             number_input("real", "temperature that it has, by another thermometer", "degC", -60, 250)},
            answer_sensor,
            "ohm=2500ohm real=21degC"};
}

}  // namespace casebound::actuators
