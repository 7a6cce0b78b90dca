// A brushed motor by volts, ohms and amperes; a stepper by what it counts.
#include "science/motor.h"

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::actuators {
namespace {

struct DrawsSaid {
    Verdict verdict;
    const char *headline, *next;
};
DrawsSaid draws_said(Draws draws) {
    switch (draws) {
        case Draws::nothing:
            return {Verdict::check_first, "Nothing flows although it is supplied: open winding, brush or wire.",
                    "Turn the shaft a little and measure again, at the motor's own pins."};
        case Draws::turning:
            return {Verdict::fits, "It turns: it generates against the supply.",
                    "If the shaft stands still all the same, its gear slips."};
        case Draws::held:
            return {Verdict::check_first, "It is held still: it draws what the winding alone lets through.",
                    "Take it off: if it still draws this, the gear is jammed; if not, the door is stuck."};
        case Draws::too_much: break;
    }
    return {Verdict::check_first,
            "It draws more than its winding lets through: a short, or an ohm reading that is off.",
            "Measure the ohms again, shaft turned between readings; compare with the recorded range."};
}

// Against the range on record, by several readings.
void against_record(Answer& answer, const Given& given, double ohm) {
    if (!given.has("low") || !given.has("high")) return;
    const double low = given.number("low"), high = given.number("high");
    const auto source = fed_by(computed("between the recorded readings"), given, {"ohm", "low", "high"});
    const bool inside = ohm >= low && ohm <= high;
    answer.lines.push_back(text_line("recorded", fixed(low, 1) + " to " + fixed(high, 1) + " ohm",
                                     weaker(given.source("low"), given.source("high"))));
    answer.lines.push_back(
        text_line("the winding", inside ? "within what is recorded" : "outside what is recorded", source));
    if (!inside) answer.lower(Verdict::check_first);
}

Answer answer_motor(const Given& given, const Services&) {
    const double volts = given.number("volts"), ohm = given.number("ohm");
    const auto source = fed_by(computed("I = U / R, at rest"), given, {"volts", "ohm"});
    auto answer = Answer::computing();
    answer.lines = {measure_line("held still it draws", stall_a(volts, ohm), "A", 2, source),
                    measure_line("and turns into heat", volts * stall_a(volts, ohm), "W", 1, source)};
    answer.headline = "Held still it draws " + fixed(stall_a(volts, ohm), 2) + " A.";
    if (const auto amps = given.maybe_number("amps")) {
        const auto says = draws_said(draws(volts, *amps, ohm));
        answer.lower(says.verdict);
        answer.headline = says.headline;
        answer.next = {says.next};
        const auto turning = fed_by(computed("E = U - I R"), given, {"volts", "ohm", "amps"});
        answer.lines.push_back(measure_line("of that it draws", 100 * *amps / stall_a(volts, ohm), "%", 0,
                                            weaker(turning, from_memory("limits 2, 80 and 130 %, from memory"))));
        answer.lines.push_back(
            measure_line("it generates against the supply", back_emf_v(volts, *amps, ohm), "V", 1, turning));
    } else answer.next = {"Measure the amperes in one motor wire while it is told to move: amps=0.15."};
    against_record(answer, given, ohm);
    answer.assumptions = {"the volts are measured at the plug, under load; the ohms are the least of several readings",
                          "copper reads 4 % more for each 10 degC: cold and hot readings differ"};
    answer.cautions = {"a fine-range meter, its fuse whole; no test lamp on a control unit",
                       "do not hold it still for more than a few seconds: all of it turns into heat"};
    return answer;
}

Answer answer_steps(const Given& given, const Services&) {
    const double steps = steps_for(given.number("travel"), given.number("step-angle"), given.number("reduction"));
    const auto source = fed_by(computed("travel x reduction / step angle"), given,
                               {"travel", "step-angle", "reduction"});
    auto answer = Answer::computing();
    answer.headline = fixed(steps, 0) + " steps from stop to stop.";
    answer.lines = {measure_line("steps", steps, "", 0, source)};
    if (given.has("rate"))
        answer.lines.push_back(measure_line("from stop to stop", seconds_for(steps, given.number("rate")), "s", 1,
                                            fed_by(source, given, {"rate"})));
    if (const auto counted = given.maybe_number("counted")) {
        const double missing = steps - *counted;
        answer.lines.push_back(measure_line("missing", missing, "", 0, fed_by(source, given, {"counted"})));
        answer.lines.push_back(
            measure_line("of the travel", 100 * missing / steps, "%", 1, fed_by(source, given, {"counted"})));
        answer.next = {missing > 0
                           ? "Fewer steps than its travel: the door stops early, or the stops were taught wrong."
                           : "More steps than its travel: it slips past its stop, or steps are lost."};
    }
    answer.assumptions = {"a stepper without feedback knows where it is only by counting from a stop"};
    return answer;
}

}  // namespace

Inquiry motor_inquiry() {
    return {
        "motor",
        "A brushed motor by volts, ohms and amperes: turning, held still, open or shorted",
        {key_of(text_input("actuator", "interchange group or item of the actuator"), "actuators_windings"),
         required(told(found_by(number_input("volts", "at the plug while it is told to move", "V", 1, 32),
                                "Plug on, probe from behind, across the two motor wires."),
                       "actuator_supply")),
         required(found_by(number_input("ohm", "resistance of the winding", "ohm", 0.5, 5000),
                           "Unplugged, across the motor pins; least of five readings, shaft turned between them.")),
         found_by(number_input("amps", "current while it is told to move", "A", 0, 20),
                  "Meter in one of the two motor wires."),
         recorded(number_input("low", "least reading on record", "ohm", 0.5, 5000), "actuators_windings", "low_ohm"),
         recorded(number_input("high", "greatest reading on record", "ohm", 0.5, 5000), "actuators_windings",
                  "high_ohm")},
        answer_motor,
        "volts=6V ohm=0.5ohm amps=3A"};
}

Inquiry steps_inquiry() {
    return {"steps",
            "Steps of a stepper from stop to stop, how long they take, and what a count that differs means",
            {required(number_input("travel", "travel of the shaft", "deg", 1, 720)),
             required(number_input("step-angle", "turn of the motor at one step", "deg", 0.1, 90)),
             required(number_input("reduction", "turns of the motor for one of the shaft", "", 1, 5000)),
             number_input("rate", "steps a second", "", 1, 5000),
             whole(number_input("counted", "steps that the tester counted from stop to stop", "", 0, 100000))},
            answer_steps,
            "travel=360deg step-angle=1.8deg reduction=1"};
}

}  // namespace casebound::actuators
