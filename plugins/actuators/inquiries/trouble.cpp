// What clicks, stays silent or blows warm on one side: the door, the gear, the motor, its feedback, a wire, or stops
// that nobody taught; and what to try before anything is ordered.
#include "science/trouble.h"

#include <utility>

#include "core/contract/advice.h"
#include "core/contract/false_leads.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/findings.h"
#include "rows/records.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

Advice advice_on(Suspect suspect) {
    switch (suspect) {
        case Suspect::door_stuck:
            return {
                Verdict::check_first, "The door first: it is stiff or stuck by hand, and wears out every actuator.",
                "Look for what lies in the duct, a swollen seal or a bent shaft; free it, then run the old actuator "
                "on it."};
        case Suspect::door_broken:
            return {Verdict::check_first,
                    "The lever or pin of the door: it hangs loose, and a new actuator turns nothing.",
                    "Look for the broken end in the housing, and whether the lever is sold by itself."};
        case Suspect::teach_first:
            return {
                Verdict::check_first, "Teach the stops first: it began when the battery was off or one was changed.",
                "Teach them as the maker says; if it clicks again, take the actuator off and turn the door by hand."};
        case Suspect::wiring:
            return {Verdict::check_first, "The wiring: too few volts arrive at the plug while it is told to move.",
                    "Look at the fuse and the plug; measure again under load, at the plug and at the control unit."};
        case Suspect::stripped_gear:
            return {Verdict::fits, "Replace the actuator: its gear slips, and the door is free.",
                    "Turn the door from stop to stop once more before the new one goes on."};
        case Suspect::dead_motor:
            return {Verdict::fits, "Replace the actuator: it is supplied and stands still, and the door is free.",
                    "Turn its shaft a little and try once more: a brush that hangs comes back for a while."};
        case Suspect::motor_by_meter:
            return {Verdict::check_first, "The motor, by the meter: volts arrive, no continuity, and the door is free.",
                    "Run it off its door on 12 V: still there, it is dead, whatever the plug carries."};
        case Suspect::feedback_lost:
            return {Verdict::fits,
                    "Replace the actuator: it turns, and its feedback does not follow; the door is free.",
                    "Measure the reference at its plug first: without it no track reads anything."};
        case Suspect::feedback_next:
            return {Verdict::check_first,
                    "Cannot tell yet: it turns off its door, which is free; look whether its feedback follows.",
                    "Watch the tester's value, or measure between wiper and minus, while it moves; then teach the "
                    "stops, and see whether it comes back."};
        case Suspect::not_the_actuator:
            return {Verdict::check_first, "Not the actuator: it turns, and its feedback follows.",
                    "Look at the lever of the door, the control unit, and the sensors of inside and outside air."};
        case Suspect::bench_it:
            return {Verdict::check_first, "Cannot tell yet: run the actuator off its door; the door itself is free.",
                    "Plug it in off its door, change the setting, and hold the shaft lightly with two fingers."};
        case Suspect::try_the_door: break;
    }
    return {Verdict::check_first, "Cannot tell yet: turn the door by hand before anything is ordered.",
            "Take the actuator off, and turn the door's shaft with two fingers from stop to stop."};
}

// By hand first, told of the vehicle where nothing is given: core fills both into the inputs.
Seen seen_of(const Given& given) {
    Seen seen;
    seen.door = door_from(given.text_or("door"));
    seen.bench = bench_from(given.text_or("bench"));
    seen.sound = sound_from(given.text_or("sound"));
    seen.after_battery = given.maybe_yes("after-battery");
    seen.feedback_follows = given.maybe_yes("follows");
    seen.winding_open = given.maybe_yes("winding-open");
    if (const auto volts = given.maybe_number("volts")) seen.supplied = *volts >= supplied_from_v;
    return seen;
}

// What clicks says by itself, and that it decides nothing.
constexpr std::pair<Sound, const char*> sounds[]{
    {Sound::clicks, "clicks: teeth jump, or it runs against its stop; gear, door or stops not taught"},
    {Sound::hums, "hums: the motor runs or is held; gear, or a stuck door"},
    {Sound::silent, "silent: no supply, an open winding, or a brush that hangs"},
    {Sound::moves, "moves: then look at lever and feedback"}};

Answer answer_trouble(const Given& given, const Services& services) {
    const auto seen = seen_of(given);
    const auto suspect = suspect_of(seen);
    Advised advised(advice_on(suspect), given,
                    {"door", "bench", "sound", "after-battery", "volts", "winding-open", "follows"});
    auto& answer = advised.answer;
    if (!speaks_for_the_actuator(suspect)) {
        auto first = texts_of(lead_cautions(false_leads(services, known_words<vocabulary>())));
        answer.next.insert(answer.next.begin(), first.begin(), first.end());
    }
    for (const auto& [sound, says] : sounds)
        if (sound == seen.sound) answer.lines.push_back(text_line("the sound", says, practice()));
    if (suspect == Suspect::wiring || suspect == Suspect::motor_by_meter)
        advised.rests_on(from_memory("supplied from 9 V on, from memory"));
    advised.say_what_it_points_at();
    answer.assumptions = {"a 12 V system; a sound alone decides nothing: common practice"};
    answer.cautions = {"never force a door: a housing of plastic breaks, and no lever is sold for it",
                       "fingers out of the housing while anything is plugged in"};
    if (const auto place = place_given(given); place.function != Function::unknown)
        if (const auto wait = airbag_wait(services, place)) answer.cautions.push_back(wait->text);
    return std::move(answer);
}

}  // namespace

Input place_input() {
    std::vector<std::string> keys;
    for (const auto place : places) keys.push_back(key_of_place(place));
    return told(choice_input("place", "which actuator", std::move(keys)), "actuator_suspected");
}

Place place_given(const Given& given) { return place_of_key(given.text_or("place")); }

Inquiry trouble_inquiry() {
    return {
        "trouble",
        "An actuator that clicks, stays silent or leaves one side wrong: door, gear, motor, feedback, wire or "
        "stops not taught",
        {place_input(),
         told(choice_input("door", "the door by hand, its actuator off",
                           {"moves_freely", "stiff", "stuck", "hangs_loose"}),
              "door_by_hand"),
         told(choice_input("bench", "the actuator off its door, supplied", {"turns", "slips", "still"}),
              "actuator_on_bench"),
         told(choice_input("sound", "what it does when its setting is changed", {"silent", "clicks", "hums", "moves"}),
              "actuator_sound"),
         told(yes_no_input("after-battery", "began when the battery was off, or one was changed?"),
              "actuator_after_battery"),
         told(number_input("volts", "at the plug while it is told to move", "V", 0, 32), "actuator_supply"),
         yes_no_input("winding-open", "no continuity through the motor, whichever way the shaft stands?"),
         told(yes_no_input("follows", "does the feedback change while it turns?"), "actuator_feedback_follows")},
        answer_trouble,
        "door=stuck bench=still sound=clicks"};
}

}  // namespace casebound::actuators
