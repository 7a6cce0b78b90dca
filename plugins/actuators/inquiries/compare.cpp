// One actuator beside another: what is recorded of each, what the vehicle shows, what is in the hand.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::actuators {
namespace {

template <std::size_t N> std::vector<std::string> choices_of(const std::array<std::string_view, N>& words) {
    return {words.begin() + 1, words.end()};
}

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

struct Hand {
    const Given& given;
    std::string which;
    Actuator actuator{};
    std::optional<SourceNote> source{};

    void rests_on(const SourceNote& on) { source = source ? weaker(*source, on) : on; }
    void word(const char* part, std::string& field) {
        if (!given.has(which + part)) return;
        field = given.text(which + part);
        rests_on(given.source(which + part));
    }
    template <class Value, std::size_t N>
    void value(const char* part, const std::array<std::string_view, N>& words, Value& field) {
        std::string text;
        word(part, text);
        if (!text.empty()) field = value_of<Value>(text, words);
    }
    void number(const char* part, std::optional<double>& field) {
        if (!given.has(which + part)) return;
        field = given.number(which + part);
        rests_on(given.source(which + part));
    }
    void take_by_hand() {
        value("-function", function_words, actuator.place.function);
        value("-side", side_words, actuator.place.side);
        number("-cavities", actuator.cavities);
        number("-travel", actuator.travel_deg);
        word("-shaft", actuator.shaft);
        word("-plug-code", actuator.plug_code);
        word("-drive", actuator.drive);
        word("-feedback", actuator.feedback);
        word("-turns", actuator.turns);
    }
};

// As recorded, then what is given by hand over it.
Hand hand_of(const Given& given, const Services& services, const std::string& which) {
    Hand hand{given, which};
    if (const auto* row = given.has(which) ? row_of_group(services.facts, motors_table, given.text(which)) : nullptr) {
        hand.actuator = actuator_of_row(*row);
        hand.rests_on(row_source(*row));
    }
    hand.take_by_hand();
    return hand;
}

// What was told of the place fills what neither the hand nor a record says of the old one.
void fill_from_vehicle(Hand& old, const VehicleView* vehicle) {
    const auto seen = actuator_seen(vehicle, old.actuator.place);
    if (!seen.source) return;
    for (auto field : {&Actuator::cavities, &Actuator::travel_deg})
        if (!(old.actuator.*field)) old.actuator.*field = seen.actuator.*field;
    for (auto field : {&Actuator::shaft, &Actuator::plug_code, &Actuator::drive, &Actuator::feedback})
        if ((old.actuator.*field).empty()) old.actuator.*field = seen.actuator.*field;
    old.rests_on(*seen.source);
}

std::string headline_of(const std::vector<Difference>& all, std::optional<Weight> most) {
    if (!most) return "Alike in function, side, plug, drive, feedback, shaft and travel.";
    std::string text;
    for (const auto& one : all)
        if (one.weight == *most) text.append(text.empty() ? "" : "; ").append(one.what);
    if (*most == Weight::no) return "Not this one: it differs in " + text + ".";
    return *most == Weight::needs_something ? "It goes only with care: " + text + "."
                                            : "Cannot tell yet: not known of both: " + text + ".";
}

Answer answer_compare(const Given& given, const Services& services) {
    auto old = hand_of(given, services, "old");
    const auto offered = hand_of(given, services, "new");
    fill_from_vehicle(old, services.vehicle);
    const auto all = differences(old.actuator, offered.actuator);
    const auto most = heaviest(all);
    auto answer = Answer::judging(!most                 ? Verdict::fits
                                  : *most == Weight::no ? Verdict::does_not_fit
                                                        : Verdict::check_first);
    answer.headline = headline_of(all, most);
    const auto source = weaker(old.source.value_or(practice()), offered.source.value_or(practice()));
    for (const auto& one : all) {
        answer.lines.push_back(text_line(one.what, one.says, source));
        if (one.weight == Weight::not_known) answer.next.push_back("Find out of both: " + one.what + ".");
    }
    if (all.empty()) answer.lines.push_back(text_line("differences", "none", source));
    answer.assumptions = {"alike: travel within 5 degrees, from memory; everything else the same"};
    answer.cautions = {"alike in the hand is no application: a parts list decides what the vehicle takes",
                       "never file a shaft or cut the coding of a plug to make one go in"};
    return answer;
}

}  // namespace

Inquiry compare_inquiry() {
    auto inputs = inputs_of("old", "the old one");
    for (auto& input : inputs_of("new", "the new one")) inputs.push_back(std::move(input));
    return {"compare", "The new actuator beside the old one: function, side, plug, drive, feedback, shaft, travel",
            std::move(inputs), answer_compare};
}

}  // namespace casebound::actuators
