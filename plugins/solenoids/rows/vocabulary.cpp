#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"

namespace casebound::solenoids {
namespace {

// What a measure can be, here and below: common practice, no source. telling.h says what codes and gears can be.

std::vector<Attribute> identities() {
    return {
        counted(1, 150,
                when_raised(
                    number_of("", 0, "case_connector_pins", "pins of the case connector",
                              "Unplug the case connector and count its pins; look for water and oil while there.", 6))),
        when_raised(choice_of({}, "block_code", "calibration code of the solenoid block",
                              "Read it on the tag on the case; it must agree with the one stamped on the block.", 6)),
        choice_of({"own_tool", "hired", "nobody"}, "code_loading", "how a calibration code gets into the controller",
                  "Before ordering, find the tool that loads this code, or who does it and for how much.", 15),
    };
}

std::vector<Attribute> codes_and_gears() {
    return {
        choice_of({}, "codes", "codes stored, joined by +",
                  "Read every code, pending ones too, before anything is cleared.", 5),
        yes_or_no("codes_before_clearing", "codes read before clearing", "Ask; read the distance since clearing.", 2),
        choice_of({}, "gears_obtained", "gears obtained for 1, 2, 3 ... commanded, joined by -",
                  "Drive with a code reader: note the ratio for each gear commanded.", 15),
        choice_of({"before_fail_safe", "in_fail_safe"}, "gears_phase", "gears noted before or after fail-safe",
                  "Cycle the ignition, drive, and note when the gears go.", 15),
        choice_of({}, "lever_position", "lever position during the drive",
                  "Note it: a low lever position may override the solenoids.", 1),
        yes_or_no("gears_back", "gears come back after an ignition cycle", "Switch off, wait a minute, drive again.",
                  5),
        several(
            "none",
            choice_of({"none", "whine_with_engine", "whine_with_speed", "rumble", "grind", "buzz"}, "gearbox_noise",
                      "noise of the gearbox",
                      "Listen with the windows open: does it follow the engine or the road, and in which gears?", 10)),
        choice_of({}, "slips_in", "gears that slip, joined by -",
                  "Accelerate gently in each gear and watch engine speed.", 15),
    };
}

std::vector<Attribute> circuit() {
    return {
        when_raised(choice_of({"clean", "wet", "oily", "corroded", "pins_spread"}, "connector_state",
                              "state of the case connector",
                              "Unplug it and look at both halves: dry, wet, oily, corroded, pins spread.", 6)),
        choice_of({"sound", "blown"}, "feed_fuse", "fuse of the gearbox controller",
                  "Pull the fuse named in the handbook, look through it, and load it with a 5 W bulb.", 2),
        usually(0, 16,
                within(0, 60,
                       when_raised(number_of("V", 0.2, "feed_under_load", "feed voltage under load",
                                             "Load the feed with a 5 W bulb and measure at the case connector.", 10)))),
        usually(8, 16,
                within(0, 60,
                       number_of("V", 0.2, "battery_voltage", "battery voltage while measuring",
                                 "Measure at the battery posts; a low one sets codes of its own.", 2))),
        usually(8, 16,
                within(0, 60,
                       number_of("V", 0.1, "charging_voltage", "battery voltage, engine idling, lights on",
                                 "Engine idling, lights and fan on: measure across the battery posts.", 4))),
        yes_or_no("fluid_foam", "bubbles in the fluid",
                  "Engine warm and idling: draw the dipstick, or look at the level plug, and hold a drop against the "
                  "light.",
                  8),
        when_opened(choice_of({"moves_with_part", "stays"}, "swap_result", "swap of two like solenoids",
                              "Where two functions share a part, change them over and drive again.", 60)),
        usually(-40, 150,
                within(-60, 200,
                       number_of("degC", 3, "coil_temp", "temperature of the coils when measured",
                                 "Take the fluid's temperature, not the air's.", 2))),
    };
}

// What is more than a megohm is no coil any more: the circuit is open. Coils of a few ohm to some tens, from memory.
Attribute coil_of(const char* name, const std::string& title, const char* how, double minutes) {
    return or_word("open", usually(0.5, 1000, within(0, 1e6, number_of("ohm", 0.5, name, title, how, minutes))));
}

Attribute coil(const char* name, const char* title) {
    return when_raised(
        coil_of(name, title, "Measure at the case connector, leads subtracted; note the temperature.", 10));
}

Attribute coil_at_part(const char* name, const std::string& title) {
    return when_opened(coil_of(name, title + ", at the part",
                               "Pan off: measure at the solenoid's own pins and compare with the case connector.", 40));
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
        coil_at_part("coil_a_at_part", "coil of shift solenoid A"),
        coil_at_part("coil_b_at_part", "coil of shift solenoid B"),
    };
}

// A grade is marked only where solenoids are graded.
DecidedBy solenoid_decided() {
    return {"solenoids_parts",
            {{"kind", "how it is driven"},
             {"ohm_20_low", "least resistance at 20 °C, ohm"},
             {"ohm_20_high", "most resistance at 20 °C, ohm"},
             {"o_rings", "O-rings"},
             {"screen", "screen"},
             {"nose_mm", "nose, mm", 0.5},
             {"connector_pins", "pins"},
             {"grade", "grade", 0, true}}};
}

DecidedBy assembly_decided() {
    return {"solenoids_parts", {{"kind", "what it is"}, {"connector_pins", "pins"}, {"grade", "grade", 0, true}}};
}

std::vector<KindInPlaces> kinds() {
    constexpr auto may = StandIns::may_be_offered;
    return {
        {"solenoid",
         "solenoid",
         may,
         {{"shift-solenoid-a", "shift solenoid A"},
          {"shift-solenoid-b", "shift solenoid B"},
          {"shift-solenoid-c", "shift solenoid C"},
          {"lockup-solenoid", "lock-up solenoid"},
          {"pressure-solenoid", "line-pressure solenoid"},
          {"clutch-solenoid-a", "clutch solenoid A"},
          {"clutch-solenoid-b", "clutch solenoid B"},
          {"clutch-solenoid-c", "clutch solenoid C"},
          {"clutch-solenoid-d", "clutch solenoid D"},
          {"clutch-solenoid-e", "clutch solenoid E"},
          {"primary-pressure-solenoid", "primary pulley pressure solenoid"},
          {"secondary-pressure-solenoid", "secondary pulley pressure solenoid"}},
         "each",
         solenoid_decided()},
        {"speed-sensor",
         "speed sensor",
         may,
         {{"input-speed-sensor", "input speed sensor"}, {"output-speed-sensor", "output speed sensor"}}},
        {"solenoid-block", "solenoid block", may, {{"solenoid-block", "solenoid block"}}, "each", assembly_decided()},
        {"calibration", "loading of a calibration code", may, {{"block-calibration", "block calibration code"}}},
        {"internal-harness",
         "internal harness",
         may,
         {{"internal-harness", "internal harness"}},
         "each",
         assembly_decided()},
        {"solenoid-seal", "solenoid O-ring", may, {{"solenoid-o-rings", "solenoid O-rings"}}},
    };
}

}  // namespace

Vocabulary vocabulary() {
    return vocabulary_of(together({identities(), as_findings(together({codes_and_gears(), circuit(), coils()}))}),
                         kinds());
}

}  // namespace casebound::solenoids
