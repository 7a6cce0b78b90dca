#include "inquiries/fault_shown.h"

#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/fault_grid.h"
#include "inquiries/inquiries.h"
#include "rows/findings.h"

namespace casebound::solenoids {
namespace {

std::string ohm_text(double ohm) { return ohm > 1e8 ? "open" : number_text(ohm) + " ohm"; }

const char* coil_words(CoilVerdict verdict) {
    switch (verdict) {
        case CoilVerdict::pass: return "in limits";
        case CoilVerdict::borderline: return "borderline, measure again";
        case CoilVerdict::low: return "too low";
        case CoilVerdict::high: return "too high";
        case CoilVerdict::shorted: return "shorted";
        case CoilVerdict::open: break;
    }
    return "open";
}

struct Shown {
    Answer& answer;
    const GearboxFamily& family;
    const Seen& seen;

    void line(std::string label, std::string text, SourceNote source = {}) {
        answer.lines.push_back(text_line(std::move(label), std::move(text), std::move(source)));
    }

    void show_codes() {
        for (const auto& code : seen.codes) {
            const auto known = meaning(code.code);
            const bool about_element = !code.element.empty() && !(known && known->which == code.element);
            line(code_text(code.code), code.words + (about_element ? ", here " + code.element : ""), code.source);
        }
        if (seen.no_codes) line("codes", "none stored", seen.source(SeenWhat::codes));
        for (auto& caution :
             code_cautions(!seen.codes.empty() || seen.no_codes, seen.no_codes, seen.read_before_clearing))
            answer.cautions.push_back(std::move(caution));
    }

    void show_gears() {
        const auto observations = seen.observations();
        if (observations.empty() || family.table.gears.empty()) return;
        const std::string told = seen.obtained.empty()
                                     ? "slip in " + listed(seen.slipping, " ")
                                     : listed(seen.obtained, " ") + " for commanded " + listed(seen.commanded, " ");
        line("gears obtained",
             told + ", " + phase_words(seen.phase) + (seen.lever.empty() ? "" : ", lever " + seen.lever),
             seen.source(seen.obtained.empty() ? SeenWhat::slips : SeenWhat::gears));
        const auto agreeing = agreeing_faults(family, observations), open = open_faults(family, observations);
        line("single faults that give them", agreeing.empty() ? "none of the apply table" : listed(agreeing),
             family.source);
        if (!open.empty()) line("cannot be told by them", listed(open), family.source);
        if (!seen.slipping.empty())
            if (const auto shared = shared_by_exactly(family.table, seen.slipping); !shared.empty())
                line("in exactly these gears and no other", listed(shared), family.source);
        if (agreeing.size() + open.size() > 1) line("so the gears", "cannot tell these apart");
        else if (agreeing.empty())
            line("so the gears", "point to a clutch, two faults at once, or a gear noted wrongly");
    }

    std::string coil_text(const SeenCoil& coil) const {
        const bool through_bad = seen.connector_bad() && !seen.fails_at_part(coil.element);
        if (coil.open())
            return std::string("open circuit: outside every limit, at any temperature") +
                   (through_bad ? "; read through a bad connector: not yet the coil" : "");
        const auto judged = coil.answer();
        if (!judged)
            return ohm_text(coil.ohm) +
                   (coil.temp_c ? ": no limits recorded" : ": no temperature told, it says nothing yet");
        return ohm_text(coil.ohm) + " at " + number_text(*coil.temp_c) + " °C = " + fixed(judged->ohm_20, 1) +
               " ohm at 20 °C: " + coil_words(judged->verdict) + ", " + number_text(coil.ohm_20->low) + " to " +
               number_text(coil.ohm_20->high) + " ohm" +
               (judged->indicative ? "; indicative, repeat at 20 °C to condemn" : "");
    }

    // No better known than the reading, and than the limits it is judged by.
    static SourceNote coil_source(const SeenCoil& coil) {
        return coil.open() || !coil.answer() ? coil.source : fed_with(coil.limits_source, coil.source);
    }

    void show_coils() {
        for (const auto& coil : seen.coils) line("coil of " + coil.element, coil_text(coil), coil_source(coil));
        if (std::any_of(seen.coils.begin(), seen.coils.end(), [](const SeenCoil& coil) { return coil.open(); }))
            answer.cautions.emplace_back(open_circuit_caution);
        if (!seen.coils.empty())
            answer.cautions.emplace_back("good resistance never clears a circuit: only a test under load does");
    }

    void show_readings() {
        if (seen.feed_v)
            line("feed under load",
                 number_text(*seen.feed_v) + " V, battery " + number_text(seen.battery()) +
                     " V: " + (seen.feed_falls() ? "falls" : "holds"),
                 seen.source(SeenWhat::feed));
        if (seen.fuse) line("fuse", *seen.fuse, seen.source(SeenWhat::fuse));
        if (seen.connector) line("case connector", *seen.connector, seen.source(SeenWhat::connector));
        if (seen.fluid_level) line("fluid level", *seen.fluid_level, seen.source(SeenWhat::fluid_level));
        if (!seen.debris.empty()) line("in the pan", listed(seen.debris), seen.source(SeenWhat::debris));
        if (!seen.fluid_colour.empty())
            line("colour of the fluid", seen.fluid_colour, seen.source(SeenWhat::fluid_colour));
        if (!seen.fluid_smell.empty()) line("smell of the fluid", seen.fluid_smell, seen.source(SeenWhat::fluid_smell));
        if (seen.swap)
            line("swap test", seen.swap_moved() ? "moves with the part" : "stays", seen.source(SeenWhat::swap));
        if (seen.gears_back)
            line("after an ignition cycle",
                 *seen.gears_back ? "the gears come back: the controller had given up" : "the gears stay away",
                 seen.source(SeenWhat::ignition));
    }

    void show_fail_safe() {
        const auto& record = family.fail_safe;
        if (record.default_gear.empty()) return;
        line("default gear",
             record.default_gear + (record.reason == DefaultReason::hydraulic_rest      ? ", at rest"
                                    : record.reason == DefaultReason::controller_choice ? ", the controller's choice"
                                                                                        : ""),
             family.source);
        if (record.pressure_at_maximum.value_or(false))
            answer.cautions.emplace_back(
                "in fail-safe the pressure is at its highest: harsh engagement is normal then");
    }
};

}  // namespace

std::vector<Input> fault_inputs() {
    auto inputs = family_inputs();
    const auto text = [](const char* name, const char* title, const char* attribute, const char* help) {
        return helped(told(text_input(name, title), attribute), help);
    };
    const auto choice = [](const char* name, const char* title, const char* attribute,
                           std::vector<std::string> choices) {
        return told(choice_input(name, title, std::move(choices)), attribute);
    };
    for (auto& input :
         {text("gears", "gears obtained for the commanded ones", "gears_obtained",
               "\"2 2 3 3\"; slip, bind or ? may stand for a gear"),
          text("commanded", "gears commanded, when not the forward gears in order", "", "\"1 2 3 4\""),
          choice("phase", "gears noted before or in fail-safe", "gears_phase", {"before_fail_safe", "in_fail_safe"}),
          text("lever", "lever position during the drive", "lever_position", "as in the family's lever table"),
          text("slips", "gears that slip", "slips_in", "\"2 6\""),
          text("codes", "codes stored", "codes", "\"P0753+P0758\", or none"),
          told(yes_no_input("codes-before-clearing", "were codes read before clearing?"), "codes_before_clearing"),
          text("coils", "coil resistances at the case connector", "", "\"A=18.4 B=open\", in ohm, leads subtracted"),
          text("coils-at-part", "the same at the solenoids' own pins", "", "\"A=13.5\", in ohm"),
          told(number_input("coil-temp", "temperature of the coils", "degC", -60, 250), "coil_temp"),
          number_input("ohm-low", "least resistance at 20 °C, where none is recorded", "ohm", 0.1, 1e6),
          number_input("ohm-high", "most resistance at 20 °C, where none is recorded", "ohm", 0.1, 1e6),
          told(number_input("feed", "feed voltage under load", "V", 0, 60), "feed_under_load"),
          assumed(told(number_input("battery", "battery voltage at the same time", "V", 0, 60), "battery_voltage"),
                  "12.6"),
          choice("fuse", "fuse of the gearbox controller", "feed_fuse", {"sound", "blown"}),
          choice("connector", "state of the case connector", "connector_state",
                 {"clean", "wet", "oily", "corroded", "pins_spread"}),
          choice("fluid-level", "fluid level", "fluid_level", {"low", "right", "high"}),
          text("debris", "what lies in the pan", "pan_debris", "\"steel_pieces\", several joined by +"),
          choice("fluid-colour", "colour of the fluid", "fluid_colour", {"red", "amber", "brown", "black", "milky"}),
          choice("fluid-smell", "smell of the fluid", "fluid_smell", {"none", "varnish", "burnt"}),
          choice("swap", "swap of two like solenoids", "swap_result", {"moves_with_part", "stays"}),
          told(yes_no_input("gears-back", "do the gears come back after an ignition cycle?"), "gears_back")})
        inputs.push_back(input);
    return inputs;
}

void show_seen(Answer& answer, const GearboxFamily& family, const Seen& seen) {
    Shown shown{answer, family, seen};
    shown.line("gearbox family", family.title, family.source);
    shown.show_codes();
    shown.show_gears();
    shown.show_fail_safe();
    shown.show_coils();
    shown.show_readings();
}

}  // namespace casebound::solenoids
