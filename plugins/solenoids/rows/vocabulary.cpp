#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"

namespace casebound::solenoids {
namespace {

using Kind = ValueKind;

// The three yes-or-no columns of an attribute, by name.
constexpr bool raised = true, on_wheels = false;
constexpr bool opened = true, closed = false;
constexpr bool finding = true, identity = false;

// What a measure can be, here and below: common practice, no source. telling.h says what codes and gears can be.

std::vector<Attribute> identities() {
    return {
        counted(1, 150,
                {"case_connector_pins",
                 "pins of the case connector",
                 Kind::number,
                 "",
                 0,
                 "Unplug the case connector and count its pins; look for water and oil while there.",
                 6,
                 raised,
                 closed,
                 identity,
                 {}}),
        {"block_code",
         "calibration code of the solenoid block",
         Kind::choice,
         "",
         0,
         "Read it on the tag on the case; it must agree with the one stamped on the block.",
         6,
         raised,
         closed,
         identity,
         {}},
        {"code_loading",
         "how a calibration code gets into the controller",
         Kind::choice,
         "",
         0,
         "Before ordering, find the tool that loads this code, or who does it and for how much.",
         15,
         on_wheels,
         closed,
         identity,
         {"own_tool", "hired", "nobody"}},
    };
}

std::vector<Attribute> codes_and_gears() {
    return {
        {"codes",
         "codes stored, joined by +",
         Kind::choice,
         "",
         0,
         "Read every code, pending ones too, before anything is cleared.",
         5,
         on_wheels,
         closed,
         finding,
         {}},
        {"codes_before_clearing",
         "codes read before clearing",
         Kind::yes_no,
         "",
         0,
         "Ask; read the distance since clearing.",
         2,
         on_wheels,
         closed,
         finding,
         {}},
        {"gears_obtained",
         "gears obtained for 1, 2, 3 ... commanded, joined by -",
         Kind::choice,
         "",
         0,
         "Drive with a code reader: note the ratio for each gear commanded.",
         15,
         on_wheels,
         closed,
         finding,
         {}},
        {"gears_phase",
         "gears noted before or after fail-safe",
         Kind::choice,
         "",
         0,
         "Cycle the ignition, drive, and note when the gears go.",
         15,
         on_wheels,
         closed,
         finding,
         {"before_fail_safe", "in_fail_safe"}},
        {"lever_position",
         "lever position during the drive",
         Kind::choice,
         "",
         0,
         "Note it: a low lever position may override the solenoids.",
         1,
         on_wheels,
         closed,
         finding,
         {}},
        {"gears_back",
         "gears come back after an ignition cycle",
         Kind::yes_no,
         "",
         0,
         "Switch off, wait a minute, drive again.",
         5,
         on_wheels,
         closed,
         finding,
         {}},
        several("none", {"gearbox_noise",
                         "noise of the gearbox",
                         Kind::choice,
                         "",
                         0,
                         "Listen with the windows open: does it follow the engine or the road, and in which gears?",
                         10,
                         on_wheels,
                         closed,
                         finding,
                         {"none", "whine_with_engine", "whine_with_speed", "rumble", "grind", "buzz"}}),
        {"slips_in",
         "gears that slip, joined by -",
         Kind::choice,
         "",
         0,
         "Accelerate gently in each gear and watch engine speed.",
         15,
         on_wheels,
         closed,
         finding,
         {}},
    };
}

std::vector<Attribute> circuit() {
    return {
        {"connector_state",
         "state of the case connector",
         Kind::choice,
         "",
         0,
         "Unplug it and look at both halves: dry, wet, oily, corroded, pins spread.",
         6,
         raised,
         closed,
         finding,
         {"clean", "wet", "oily", "corroded", "pins_spread"}},
        {"feed_fuse",
         "fuse of the gearbox controller",
         Kind::choice,
         "",
         0,
         "Pull the fuse named in the handbook, look through it, and load it with a 5 W bulb.",
         2,
         on_wheels,
         closed,
         finding,
         {"sound", "blown"}},
        usually(0, 16,
                within(0, 60,
                       {"feed_under_load",
                        "feed voltage under load",
                        Kind::number,
                        "V",
                        0.2,
                        "Load the feed with a 5 W bulb and measure at the case connector.",
                        10,
                        raised,
                        closed,
                        finding,
                        {}})),
        usually(8, 16,
                within(0, 60,
                       {"battery_voltage",
                        "battery voltage while measuring",
                        Kind::number,
                        "V",
                        0.2,
                        "Measure at the battery posts; a low one sets codes of its own.",
                        2,
                        on_wheels,
                        closed,
                        finding,
                        {}})),
        {"swap_result",
         "swap of two like solenoids",
         Kind::choice,
         "",
         0,
         "Where two functions share a part, change them over and drive again.",
         60,
         raised,
         opened,
         finding,
         {"moves_with_part", "stays"}},
        usually(-40, 150,
                within(-60, 200,
                       {"coil_temp",
                        "temperature of the coils when measured",
                        Kind::number,
                        "degC",
                        3,
                        "Take the fluid's temperature, not the air's.",
                        2,
                        on_wheels,
                        closed,
                        finding,
                        {}})),
    };
}

// What is more than a megohm is no coil any more: the circuit is open. Coils of a few ohm to some tens, from memory.
Attribute open_or(Attribute attribute) {
    return or_word("open", usually(0.5, 1000, within(0, 1e6, std::move(attribute))));
}

Attribute coil(const char* name, const char* title) {
    return open_or({name,
                    title,
                    Kind::number,
                    "ohm",
                    0.5,
                    "Measure at the case connector, leads subtracted; note the temperature.",
                    10,
                    raised,
                    closed,
                    finding,
                    {}});
}

std::vector<Attribute> coils() {
    return {
        coil("coil_a", "coil of shift solenoid A"),
        coil("coil_b", "coil of shift solenoid B"),
        coil("coil_c", "coil of shift solenoid C"),
        coil("coil_clutch_a", "coil of clutch solenoid A"),
        coil("coil_clutch_b", "coil of clutch solenoid B"),
        coil("coil_clutch_c", "coil of clutch solenoid C"),
        coil("coil_clutch_d", "coil of clutch solenoid D"),
        coil("coil_clutch_e", "coil of clutch solenoid E"),
        coil("coil_primary", "coil of the primary pulley pressure solenoid"),
        coil("coil_secondary", "coil of the secondary pulley pressure solenoid"),
        coil("coil_lockup", "coil of the lock-up solenoid"),
        coil("coil_pressure", "coil of the pressure solenoid"),
        open_or({"coil_a_at_part",
                 "coil of shift solenoid A, at the part",
                 Kind::number,
                 "ohm",
                 0.5,
                 "Pan off: measure at the solenoid's own pins and compare with the case connector.",
                 40,
                 raised,
                 opened,
                 finding,
                 {}}),
        open_or({"coil_b_at_part",
                 "coil of shift solenoid B, at the part",
                 Kind::number,
                 "ohm",
                 0.5,
                 "Pan off: measure at the solenoid's own pins and compare with the case connector.",
                 40,
                 raised,
                 opened,
                 finding,
                 {}}),
    };
}

std::vector<ItemKind> item_kinds() {
    return {
        {"solenoid", "solenoid", "each"},
        {"solenoid-block", "solenoid block", "each"},
        {"calibration", "loading of a calibration code", "each"},
        {"internal-harness", "internal harness", "each"},
        {"solenoid-seal", "solenoid O-ring", "each"},
        {"speed-sensor", "speed sensor", "each"},
    };
}

std::vector<Role> roles() {
    return {
        {"shift-solenoid-a", "shift solenoid A", "solenoid", StandIns::may_be_offered},
        {"shift-solenoid-b", "shift solenoid B", "solenoid", StandIns::may_be_offered},
        {"shift-solenoid-c", "shift solenoid C", "solenoid", StandIns::may_be_offered},
        {"lockup-solenoid", "lock-up solenoid", "solenoid", StandIns::may_be_offered},
        {"pressure-solenoid", "line-pressure solenoid", "solenoid", StandIns::may_be_offered},
        {"clutch-solenoid-a", "clutch solenoid A", "solenoid", StandIns::may_be_offered},
        {"clutch-solenoid-b", "clutch solenoid B", "solenoid", StandIns::may_be_offered},
        {"clutch-solenoid-c", "clutch solenoid C", "solenoid", StandIns::may_be_offered},
        {"clutch-solenoid-d", "clutch solenoid D", "solenoid", StandIns::may_be_offered},
        {"clutch-solenoid-e", "clutch solenoid E", "solenoid", StandIns::may_be_offered},
        {"primary-pressure-solenoid", "primary pulley pressure solenoid", "solenoid", StandIns::may_be_offered},
        {"secondary-pressure-solenoid", "secondary pulley pressure solenoid", "solenoid", StandIns::may_be_offered},
        {"solenoid-block", "solenoid block", "solenoid-block", StandIns::may_be_offered},
        {"block-calibration", "block calibration code", "calibration", StandIns::may_be_offered},
        {"internal-harness", "internal harness", "internal-harness", StandIns::may_be_offered},
        {"solenoid-o-rings", "solenoid O-rings", "solenoid-seal", StandIns::may_be_offered},
        {"input-speed-sensor", "input speed sensor", "speed-sensor", StandIns::may_be_offered},
        {"output-speed-sensor", "output speed sensor", "speed-sensor", StandIns::may_be_offered},
    };
}

}  // namespace

Vocabulary vocabulary() {
    Vocabulary words{{}, item_kinds(), roles()};
    for (const auto& part : {identities(), codes_and_gears(), circuit(), coils()})
        words.attributes.insert(words.attributes.end(), part.begin(), part.end());
    return words;
}

}  // namespace casebound::solenoids
