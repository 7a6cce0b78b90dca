// One actuator beside another: what is recorded of each, what the vehicle shows, what is in the hand.
#include "core/contract/comparison.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::actuators {
namespace {

std::vector<Input> inputs_of(const std::string& which, const std::string& whose) {
    return {key_of(text_input(which, "interchange group or item of " + whose), motors_table),
            choice_input(which + "-function", "what " + whose + " moves", choices_of(function_words)),
            choice_input(which + "-side", "side of " + whose, choices_of(side_words)),
            whole(number_input(which + "-cavities", "cavities of the plug, " + whose, "", 0, 16)),
            choice_input(which + "-drive", "what drives " + whose, {"dc", "stepper", "bus", "vacuum"}),
            choice_input(which + "-feedback", "how " + whose + " says where it is",
                         {"potentiometer", "pulses", "end_switches", "bus", "none"}),
            choice_input(which + "-shaft", "shape of the shaft, " + whose,
                         {"d_shaft", "double_d", "spline", "square", "slot", "lever", "crank_pin"}),
            text_input(which + "-plug-code", "coding of the plug, " + whose),
            choice_input(which + "-turns", "way the shaft turns, " + whose, {"left", "right"}),
            number_input(which + "-travel", "travel from stop to stop, " + whose, "deg", 1, 720)};
}

struct ActuatorInHand : PartInHand {
    Actuator part{};

    void take_by_hand() {
        value("-function", function_words, part.place.function);
        number("-cavities", part.cavities);
        number("-travel", part.travel_deg);
        value("-side", side_words, part.place.side);
        word("-shaft", part.shaft);
        word("-plug-code", part.plug_code);
        word("-drive", part.drive);
        word("-feedback", part.feedback);
        word("-turns", part.turns);
    }
};

void fill(Actuator& old, const Actuator& seen) {
    fill_gaps(old, seen, {&Actuator::cavities, &Actuator::travel_deg},
              {&Actuator::shaft, &Actuator::plug_code, &Actuator::drive, &Actuator::feedback});
}

Answer answer_compare(const Given& given, const Services& services) {
    auto answer = beside_the_old<ActuatorInHand>(
        given, services, motors_table, actuator_of_row, actuator_seen, fill,
        "function, side, plug, drive, feedback, shaft and travel",
        "alike: travel within 5 degrees, from memory; everything else the same");
    answer.cautions.emplace_back("never file a shaft or cut the coding of a plug to make one go in");
    return answer;
}

}  // namespace

Inquiry compare_inquiry() {
    return {"compare", "The new actuator beside the old one: function, side, plug, drive, feedback, shaft, travel",
            inputs_of_both(inputs_of, "one"), answer_compare, "old-cavities=5 new-cavities=7"};
}

}  // namespace casebound::actuators
