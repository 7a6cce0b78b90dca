#include "rows/vocabulary.h"

#include <algorithm>

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"

namespace casebound::actuators {
namespace {

std::string word_of(Function function) { return std::string(function_words[static_cast<std::size_t>(function)]); }
std::string word_of(Side side) { return std::string(side_words[static_cast<std::size_t>(side)]); }

template <class Name> Place found_by(std::string_view name, Name name_of) {
    const auto at = std::find_if(places.begin(), places.end(), [&](Place place) { return name_of(place) == name; });
    return at == places.end() ? Place{} : *at;
}

// What a measure can be: common practice, no source.
std::vector<Attribute> of_place(Place place) {
    const auto name = [&](const char* what) { return at_place(place, what); };
    const auto title = [&](const char* what) { return std::string(what) + ", " + place_said(place); };
    return {
        when_taken_off(counted(0, 16,
                               number_of("", 0, name("cavities"), title("cavities of the plug"),
                                         "Unplug the actuator and count the holes of the plug, empty ones too; 0 for a "
                                         "vacuum hose.",
                                         10))),
        when_taken_off(choice_of({"d_shaft", "double_d", "spline", "square", "slot", "lever", "crank_pin"},
                                 name("shaft"), title("shape of the shaft"),
                                 "Take the actuator off and look at what turns the door, from its end.", 15)),
        when_taken_off(choice_of({}, name("plug_code"), title("coding of the plug"),
                                 "Read the letter or the colour of the plug, and where its rib sits.", 10)),
        when_taken_off(within(1, 720,
                              number_of("deg", 5, name("travel"), title("travel of the shaft from stop to stop"),
                                        "With the actuator off its door, mark the shaft, run it from stop to stop, and "
                                        "measure with a protractor.",
                                        20))),
        when_taken_off(choice_of({"dc", "stepper", "bus", "vacuum"}, name("drive"), title("what drives it"),
                                 "Read the label and count the wires: two for a brushed motor and three for its track, "
                                 "four or more for a stepper, three with its own electronics, or a hose.",
                                 10)),
        when_taken_off(choice_of({"potentiometer", "pulses", "end_switches", "bus", "none"}, name("feedback"),
                                 title("how it says where it is"),
                                 "Look for three wires with a steady reference across two of them: a track; else read "
                                 "the wiring diagram.",
                                 15)),
    };
}

std::vector<std::string> none_or_places() {
    std::vector<std::string> all{"none"};
    for (const auto place : places) all.push_back(key_of_place(place));
    return all;
}

std::vector<std::string> place_keys() {
    auto all = none_or_places();
    all.erase(all.begin());
    return all;
}

std::vector<Attribute> heard_and_felt() {
    return {
        several("none", choice_of({"none", "one_side_wrong", "never_warm", "never_cold", "wrong_outlet",
                                   "never_recirculates", "always_recirculates"},
                                  "air_wrong", "what is wrong with the air",
                                  "Engine warm, fan low: go through each setting, hold a hand before each outlet, left "
                                  "and right.",
                                  6)),
        several("none", choice_of(none_or_places(), "actuator_noise_at", "clicking or humming at",
                                  "Fan off, ignition on: change one setting at a time, and listen low beside the "
                                  "housing, left, right and middle.",
                                  5)),
        choice_of(place_keys(), "actuator_suspected", "the actuator that was looked at",
                  "Name the door whose setting does nothing, or where it clicks.", 2),
        choice_of({"silent", "clicks", "hums", "moves"}, "actuator_sound", "what it does when its setting is changed",
                  "Lay a finger on the actuator while a helper changes the setting.", 5),
        yes_or_no("actuator_after_battery", "began when the battery was off, or an actuator was changed",
                  "Ask the owner; look whether clock or radio were reset.", 2),
        choice_of({}, "actuator_code", "code of an actuator",
                  "Read the codes of the climate control before anything is cleared, with the two digits behind the "
                  "hyphen: B1081-71.",
                  10),
    };
}

std::vector<Attribute> measured_there() {
    return {
        choice_of(
            {"both_hot", "outlet_cool", "both_cool"}, "heater_pipes", "the two pipes of the heater",
            "Engine warm, heat full up, fan low: measure both heater pipes at the bulkhead; they and the fan burn "
            "and cut.",
            8),
        when_taken_off(choice_of({"moves_freely", "stiff", "stuck", "hangs_loose"}, "door_by_hand",
                                 "the door by hand, with its actuator off",
                                 "Battery off and the airbag's waiting time kept: take the actuator off, and turn the "
                                 "door's shaft with two fingers from stop to stop.",
                                 25)),
        when_taken_off(choice_of({"turns", "slips", "still"}, "actuator_on_bench",
                                 "the actuator off its door, supplied",
                                 "With the actuator off its door and plugged in, change the setting; hold the shaft "
                                 "lightly with two fingers.",
                                 10)),
        when_taken_off(within(0, 32,
                              number_of("V", 0.3, "actuator_supply", "volts at the plug while it is told to move",
                                        "Plug on, probe from behind, across the two motor wires or plus and earth, "
                                        "while a helper changes the setting.",
                                        10))),
        when_taken_off(or_word("open", within(0, 5000,
                                              number_of("ohm", 5, "actuator_winding", "resistance of the winding",
                                                        "Unplugged, across the motor pins; turn the shaft a little "
                                                        "between five readings and take the least.",
                                                        10)))),
        when_taken_off(yes_or_no("actuator_feedback_follows", "the feedback changes while the shaft turns",
                                 "Plug on, meter between the wiper and minus, or the tester's value, while it moves.",
                                 10)),
        when_taken_off(yes_or_no("actuator_held", "it draws its stall current",
                                 "Meter in one motor wire while it is told to move; compare with volts divided by "
                                 "ohms.",
                                 12)),
    };
}

// The travel within the tolerance of its attribute.
DecidedBy motor_decided() {
    return {"actuators_door_motors",
            {{"function", "what it moves"},
             {"side", "side"},
             {"cavities", "cavities of the plug"},
             {"drive", "what drives it"},
             {"feedback", "how it says where it is"},
             {"shaft", "shape of the shaft"},
             {"plug_code", "coding of the plug", 0, true},
             {"turns", "way it turns", 0, true},
             {"travel_deg", "travel, degrees", 5}}};
}

std::vector<std::pair<std::string, std::string>> actuator_places() {
    std::vector<std::pair<std::string, std::string>> all;
    for (const auto place : places) all.emplace_back(role_of_place(place), place_said(place));
    return all;
}

}  // namespace

std::string key_of_place(Place place) {
    if (place.function == Function::unknown) return {};
    return place.side == Side::only ? word_of(place.function) : word_of(place.function) + "_" + word_of(place.side);
}

std::string role_of_place(Place place) {
    auto role = word_of(place.function) + "-actuator";
    if (place.side != Side::only) role += "-" + word_of(place.side);
    std::replace(role.begin(), role.end(), '_', '-');
    return role;
}

std::string place_said(Place place) {
    auto text = word_of(place.function) + " actuator";
    std::replace(text.begin(), text.end(), '_', ' ');
    return place.side == Side::only ? text : text + ", " + word_of(place.side);
}

Place place_of_role(std::string_view role) { return found_by(role, role_of_place); }
Place place_of_key(std::string_view key) { return found_by(key, key_of_place); }

std::string at_place(Place place, std::string_view what) { return key_of_place(place).append("_").append(what); }

std::vector<std::string> every_actuator() {
    std::vector<std::string> all;
    for (const auto place : places) all.push_back(role_of_place(place));
    return all;
}

Vocabulary vocabulary() {
    std::vector<Attribute> identity;
    for (const auto place : places)
        for (auto& one : of_place(place)) identity.push_back(std::move(one));
    return vocabulary_of(
        together({identity, as_findings(heard_and_felt()), as_findings(measured_there())}),
        {{"door-actuator", "actuator", StandIns::may_be_offered, actuator_places(), "each", motor_decided()},
         {"door-lever", "lever of an air door", StandIns::may_be_offered, {{"door-lever", "lever of the air door"}}},
         {"actuator-screw",
          "screw of an actuator",
          StandIns::may_be_offered,
          {{"actuator-screws", "screws of the actuator"}}}});
}

}  // namespace casebound::actuators
