// Which single fault explains what is seen, where it may sit, what to test next, and what not to order yet.
#include <algorithm>

#include "rows/findings.h"
#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "science/diagnosis.h"
#include "inquiries/fault_grid.h"
#include "inquiries/inquiries.h"
#include "rows/look_first.h"

namespace casebound::solenoids {
namespace {

std::string minutes_text(double minutes) { return fixed(minutes, 0) + " min"; }

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

struct FaultInquest {
    const Given& given;
    const Services& services;
    GearboxFamily family;
    bool family_known;
    Seen seen{};
    Diagnosis diagnosis{};
    Answer answer{};

    void line(std::string label, std::string text, SourceNote source = {}) {
        answer.lines.push_back(text_line(std::move(label), std::move(text), std::move(source)));
    }

    bool shared_suspected() const { return seen.supply_reported() || seen.failed_circuits().size() > 1; }
    bool gears_only() const { return !electrical() && !seen.observations().empty(); }
    bool electrical() const { return shared_suspected() || !seen.failed_circuits().empty(); }

    // ------------------------------------------------------------ what was seen

    void show_codes() {
        for (const auto& code : seen.codes) {
            const bool about_element = !code.element.empty() && code.words.find(code.element) == std::string::npos;
            line(code_text(code.code), code.words + (about_element ? ", here " + code.element : ""), code.source);
        }
        if (seen.no_codes) line("codes", "none stored", {Evidence::measured, "given or told"});
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
             {Evidence::measured, "given or told"});
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

    void show_coils() {
        for (const auto& coil : seen.coils) {
            if (coil.open()) {
                line("coil of " + coil.element,
                     std::string("open circuit: outside every limit, at any temperature") +
                         (seen.connector_bad() && !seen.fails_at_part(coil.element)
                              ? "; read through a bad connector: not yet the coil"
                              : ""),
                     coil.source);
                continue;
            }
            const auto judged = coil.answer();
            if (!judged) {
                line("coil of " + coil.element,
                     ohm_text(coil.ohm) +
                         (coil.temp_c ? ": no limits recorded" : ": no temperature told, it says nothing yet"),
                     coil.source);
                continue;
            }
            line("coil of " + coil.element,
                 ohm_text(coil.ohm) + " at " + number_text(*coil.temp_c) + " degC = " + fixed(judged->ohm_20, 1) +
                     " ohm at 20 degC" + ": " + coil_words(judged->verdict) + ", " + number_text(coil.ohm_20->low) +
                     " to " + number_text(coil.ohm_20->high) + " ohm" +
                     (judged->indicative ? "; indicative, repeat at 20 degC to condemn" : ""),
                 coil.limits_source);
        }
        if (std::any_of(seen.coils.begin(), seen.coils.end(), [](const SeenCoil& coil) { return coil.open(); }))
            answer.cautions.emplace_back(open_circuit_caution);
        if (!seen.coils.empty())
            answer.cautions.emplace_back("good resistance never clears a circuit: only a test under load does");
    }

    void show_readings() {
        if (seen.feed_v) {
            const double battery = seen.battery_v.value_or(12.6);
            line("feed under load",
                 number_text(*seen.feed_v) + " V, battery " + number_text(battery) +
                     " V: " + (*seen.feed_v >= battery - feed_drop_allowed_v ? "holds" : "falls"),
                 {Evidence::measured, "given or told"});
        }
        if (seen.fuse) line("fuse", *seen.fuse, {Evidence::measured, "given or told"});
        if (seen.connector) line("case connector", *seen.connector, {Evidence::measured, "given or told"});
        if (seen.fluid_level) line("fluid level", *seen.fluid_level, {Evidence::measured, "given or told"});
        if (seen.swap)
            line("swap test", *seen.swap == "moves_with_part" ? "moves with the part" : "stays",
                 {Evidence::measured, "given or told"});
        if (seen.gears_back)
            line("after an ignition cycle",
                 *seen.gears_back ? "the gears come back: the controller had given up" : "the gears stay away",
                 {Evidence::measured, "given or told"});
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

    // ------------------------------------------------------------ what it means

    std::string where(Cause cause) const {
        std::vector<std::string> labels;
        for (const auto& place : diagnosis.places)
            if (place.cause == cause && place.share >= 0.05 && labels.size() < 3) labels.push_back(place.label);
        return listed(labels, "; ");
    }

    std::string change_text(Cause cause) const {
        const auto found = diagnosis.changes.find(cause);
        if (found == diagnosis.changes.end() || found->second.empty()) return "";
        const auto& change = found->second.front();
        return "; becomes " + std::string(word(change.word)) + " if " + change.test + ": " + change.outcome;
    }

    void rank_causes() {
        std::vector<std::pair<double, Cause>> order;
        for (const auto& [cause, share] : diagnosis.by_cause) order.emplace_back(std::min(1.0, share), cause);
        std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        for (const auto& [share, cause] : order) {
            const auto said = diagnosis.said(cause);
            const auto places = where(cause);
            const bool first = said == Word::unlikely && cause == Cause::fluid && gears_only() && !seen.fluid_level;
            line(std::string(word(cause)),
                 std::string(word(said)) + (said == Word::unlikely || places.empty() ? "" : ": " + places) +
                     change_text(cause) + (first ? ", but looked at first: it costs minutes" : ""),
                 {Evidence::memory, "assumed shares"});
        }
    }

    static std::optional<std::string> likely_in(const std::map<std::string, double>& shares) {
        for (const auto& [name, share] : shares)
            if (word_for(std::min(1.0, share)) == Word::likely) return name;
        return std::nullopt;
    }

    // The elements of the single faults that give these gears, where the element named otherwise is none of them.
    std::vector<std::string> gears_say_otherwise() const {
        const auto named = likely_in(diagnosis.by_element);
        if (!named || seen.obtained.empty() || family.table.gears.empty()) return {};
        std::vector<std::string> elements;
        for (const auto& fault : agreeing_faults(family, seen.observations()))
            for (const auto& element : family.element_names())
                if (fault.rfind(element + " held", 0) == 0 &&
                    std::find(elements.begin(), elements.end(), element) == elements.end())
                    elements.push_back(element);
        return std::find(elements.begin(), elements.end(), *named) == elements.end() ? elements
                                                                                     : std::vector<std::string>{};
    }

    bool coil_fails(const std::string& element) const {
        const auto* coil = seen.coil(element);
        const auto judged = coil ? coil->answer() : std::nullopt;
        return judged && judged->verdict != CoilVerdict::pass;
    }

    // Whether all that speaks of the element went through a connector that is bad, or that nobody has looked into.
    bool connector_first(const std::string& element) const {
        if (seen.swap == "moves_with_part" || seen.fails_at_part(element)) return false;
        return seen.connector_bad() || (!seen.connector && (electrical() || coil_fails(element)));
    }

    std::string connector_text() const {
        return seen.connector_bad() ? "the case connector is " + connector_words()
                                    : "nobody has looked into the case connector";
    }

    std::string connector_words() const {
        return *seen.connector == "pins_spread" ? "bad: its pins are spread" : *seen.connector;
    }

    // The part is decided on only where something seen speaks for the coil or the valve, and the gears do not
    // speak of another.
    std::optional<std::string> part_at_fault() const {
        if (!gears_say_otherwise().empty()) return std::nullopt;
        const bool spoken = diagnosis.spoken_for.count(Cause::coil) +
                                diagnosis.spoken_for.count(Cause::valve_or_debris) !=
                            0;
        const auto likely = shared_suspected() || !spoken ? std::nullopt : likely_in(diagnosis.at_solenoid);
        return likely && connector_first(*likely) ? std::nullopt : likely;
    }

    void say_no_order_yet() {
        const std::string solenoids = family_known ? "solenoids " : "";
        if (const auto otherwise = gears_say_otherwise(); !otherwise.empty())
            return line("do not order yet",
                        solenoids + listed(family.element_names()) + ": gears and readings speak of different ones");
        const auto named = shared_suspected() ? std::nullopt : likely_in(diagnosis.by_element);
        if (named)
            line("do not order yet",
                 "solenoid " + *named + ": " +
                     (connector_first(*named) ? connector_text() : "what causes it is not decided"));
        const auto rest = named ? other_elements(*named) : family.element_names();
        if (!rest.empty())
            line(named ? "do not order" : "do not order yet",
                 solenoids + listed(rest) +
                     (shared_suspected() ? ": several circuits fail together, they share something"
                      : named            ? ": nothing points at them"
                                         : ": nothing points at one of them firmly enough"));
    }

    std::vector<std::string> other_elements(const std::string& likely) const {
        auto names = family.element_names();
        std::erase(names, likely);
        return names;
    }

    void say_what_to_order() {
        if (electrical())
            line("have ready", "seal of the case connector: likely, it is disturbed when the connector is unplugged");
        const auto likely = part_at_fault();
        if (!likely) return say_no_order_yet();
        const auto part = diagnosis.in_part.find(*likely);
        const double in_part = part == diagnosis.in_part.end() ? 0 : part->second;
        line("have ready",
             "solenoid " + *likely + " with its O-rings: likely needed; " +
                 (word_for(std::min(1.0, in_part)) == Word::likely && diagnosis.spoken_for.count(Cause::coil) != 0
                      ? "the solenoid itself is likely"
                      : "decide between it and its valve first"));
        if (const auto others = other_elements(*likely); !others.empty())
            line("do not order", "solenoids " + listed(others) + ": nothing points at them");
        show_service(*likely);
    }

    void show_service(const std::string& name) {
        for (const auto& service : family.services_of(name)) {
            line(name + " is serviced as",
                 service.serviced_as + (service.order_role.empty() ? "" : ": order the " + service.order_role) +
                     ", access " + service.access,
                 row_source(service.origin));
            if (service.calibration == "block_code")
                answer.next.push_back(
                    "Before ordering, read the calibration code of the block: " +
                    (service.calibration_words.empty() ? "on the tag and on the block" : service.calibration_words) +
                    ".");
            if (service.calibration == "graded")
                answer.next.push_back("Before ordering, read the grade: " +
                                      (service.calibration_words.empty() ? "on the part" : service.calibration_words) +
                                      ".");
        }
        if (const auto twins = twins_of(family, name); !twins.empty() && !seen.swap)
            answer.next.push_back("Swap test possible: " + name + " and " + listed(twins) +
                                  " are the same part (inquiry `swap-test`).");
    }

    // ------------------------------------------------------------ what to do

    // Causes in the order the codes point to, then by share.
    std::vector<Cause> causes_in_order() const {
        std::vector<Cause> order;
        const auto add = [&](Cause cause) {
            if (std::find(order.begin(), order.end(), cause) == order.end()) order.push_back(cause);
        };
        if (gears_only())
            for (const auto cause : {Cause::fluid, Cause::shared_feed}) add(cause);
        for (const auto& code : seen.codes)
            if (code.kind)
                for (const auto cause : where_to_look(*code.kind)) add(cause);
        std::vector<std::pair<double, Cause>> shares;
        for (const auto& [cause, share] : diagnosis.by_cause) shares.emplace_back(share, cause);
        std::stable_sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        for (const auto& [share, cause] : shares) add(cause);
        return order;
    }

    // Where a code points, or where the shares leave weight; fluid and circuit whenever only gears are known.
    bool worth_a_look(Cause cause) const {
        if (gears_only() &&
            ((cause == Cause::fluid && !seen.fluid_level) || (cause == Cause::shared_feed && !seen.connector)))
            return true;
        for (const auto& code : seen.codes)
            if (code.kind)
                if (const auto causes = where_to_look(*code.kind);
                    std::find(causes.begin(), causes.end(), cause) != causes.end())
                    return true;
        return diagnosis.said(cause) != Word::unlikely;
    }

    void look_first_lines() {
        constexpr std::size_t most = 5;
        const auto order = causes_in_order();
        auto list = look_first(services.facts);
        std::erase_if(list, [&](const LookFirst& one) { return !worth_a_look(one.cause); });
        const auto rank = [&](Cause cause) { return std::find(order.begin(), order.end(), cause) - order.begin(); };
        std::stable_sort(list.begin(), list.end(), [&](const LookFirst& a, const LookFirst& b) {
            return rank(a.cause) != rank(b.cause) ? rank(a.cause) < rank(b.cause) : a.minutes < b.minutes;
        });
        for (std::size_t i = 0; i < std::min(most, list.size()); ++i)
            line("look first", list[i].what + ", " + minutes_text(list[i].minutes) + ": " + list[i].how,
                 list[i].source);
    }

    void next_tests() {
        constexpr std::size_t most = 4;
        for (std::size_t i = 0; i < std::min(most, diagnosis.questions.size()); ++i) {
            const auto& question = diagnosis.questions[i];
            answer.next.push_back("Test " + std::to_string(i + 1) + ": " + question.how + " " +
                                  minutes_text(question.minutes) + " in all, worth " + fixed(question.gain_bits, 2) +
                                  " bit.");
        }
    }

    // What would make the evidence itself worth more.
    void ask_about_evidence() {
        if ((!seen.codes.empty() || seen.no_codes) && !seen.read_before_clearing)
            answer.next.emplace_back("Ask whether codes were read before clearing.");
        if (may_be_fail_safe(seen))
            answer.next.emplace_back(
                "Say whether the gears were noted before or in fail-safe: in it they are all alike.");
    }

    std::string headline_shared() const {
        const auto failed = seen.failed_circuits();
        std::vector<std::string> places;
        for (const auto cause :
             {Cause::shared_feed, Cause::internal_plate})  // what is reached without the pan off first
            for (const auto& place : diagnosis.places)
                if (place.cause == cause && place.share >= 0.05 && places.size() < 3) places.push_back(place.label);
        if (places.empty()) places.emplace_back("feed, fuse, ground, case connector");
        const std::string who = failed.size() > 1 ? std::to_string(failed.size()) + " circuits report at once (" +
                                                        listed(failed) + ")"
                                                  : "the common supply is reported open";
        return "Do not order solenoids: " + who + ". Look first at what they share: " + listed(places, "; ") + ".";
    }

    // Gears and codes name an element or its circuit: that much is known, and no more.
    std::string what_names(const std::string& element) const {
        if (!seen.failed_circuits().empty()) return "The code names the circuit of " + element + ", not a part.";
        const auto observations = seen.observations();
        const auto agreeing = observations.empty() ? std::vector<std::string>{} : agreeing_faults(family, observations);
        if (agreeing.size() == 1 && open_faults(family, observations).empty())
            return seen.slipping.empty() ? "The gears name " + element + ": " + agreeing.front() + "."
                                         : "It slips in exactly the gears of " + element + ".";
        return "Most points at " + element + ".";
    }

    bool coil_passes(const std::string& element) const {
        return std::any_of(seen.coils.begin(), seen.coils.end(), [&](const SeenCoil& coil) {
            const auto judged = coil.element == element ? coil.answer() : std::nullopt;
            return judged && judged->verdict == CoilVerdict::pass;
        });
    }

    std::string undecided(const std::string& element) const {
        if (!seen.slipping.empty() && !electrical() && coil_passes(element))
            return " Its coil is in limits and no circuit is reported: the clutch, its seal or its valve is possible; "
                   "the load test of its circuit and the fluid come before the pan.";
        std::vector<std::string> open;
        if (electrical())
            open = {"coil", "wire or track", "connector", "driver in the controller"};  // all that a circuit code sees
        else
            for (const auto cause : all_causes)
                if (diagnosis.said(cause) != Word::unlikely) open.emplace_back(word(cause));
        const std::string first = !seen.slipping.empty() ? "fluid level first, then its circuit"
                                  : electrical()         ? "measure its coil, at the case connector and at the part"
                                                         : "read the codes, then measure its coil";
        return " The cause is undecided" + (open.empty() ? "" : " (" + listed(open, "; ") + ")") + ": " + first + ".";
    }

    // What the gears told alone come to, where they name no element; "" where they do.
    std::string gears_say_little() const {
        if (seen.obtained.empty() || electrical() || !seen.slipping.empty()) return "";
        const auto observations = seen.observations();
        const auto all = [&](auto holds) {
            return !observations.empty() && std::all_of(observations.begin(), observations.end(), holds);
        };
        if (all([](const Observation& one) { return one.gear == one.commanded; }))
            return "Every gear driven was obtained as commanded: nothing here names a solenoid. Note gears and codes "
                   "when the fault is there.";
        if (may_be_fail_safe(seen) &&
            all([&](const Observation& one) { return one.gear == family.fail_safe.default_gear; }))
            return "Cannot tell yet: gear " + family.fail_safe.default_gear +
                   " throughout is the default gear: no current, or fail-safe, and the gears cannot tell which. Read "
                   "the codes, then feed and case connector.";
        return "";
    }

    std::string headline() const {
        if (shared_suspected()) return headline_shared();
        if (!seen.anything())
            return "Nothing is observed yet: read the codes, note the gears and the lever, measure the coils with "
                   "their temperature.";
        const auto top = std::max_element(diagnosis.by_cause.begin(), diagnosis.by_cause.end(),
                                          [](const auto& a, const auto& b) { return a.second < b.second; });
        const auto likely = likely_in(diagnosis.by_element);
        if (seen.connector_bad() && !(likely && !connector_first(*likely)))
            return "The connector first: it is " + connector_words() +
                   ". Dry and clean it, set its pins and seal right, clear the codes, drive, and read and measure "
                   "again. Until then no code and no reading taken through it speaks of a part.";
        if (const auto otherwise = gears_say_otherwise(); !otherwise.empty())
            return "Cannot tell yet: the gears speak of " + listed(otherwise) + ", the rest of " + *likely +
                   ". Measure again at the part, and note the gears after an ignition cycle, before fail-safe.";
        const std::string at = likely ? " The fault is likely at " + *likely + ", not at the others." : "";
        const std::string look = top->first == Cause::coil && likely && connector_first(*likely)
                                     ? " Look into the case connector before ordering it."
                                     : "";
        if (diagnosis.said(top->first) == Word::likely)
            return "Likely: " + std::string(word(top->first)) +
                   (where(top->first).empty() ? "" : " (" + where(top->first) + ")") + "." + at + look;
        if (const auto little = gears_say_little(); !little.empty()) return little;
        return likely ? what_names(*likely) + undecided(*likely)
                      : "Cannot tell yet: " + std::string(word(top->first)) +
                            " before the rest, but nothing seen decides it.";
    }

    void conclude() {
        answer.verdict = Verdict::check_first;
        if (!diagnosis.contradiction.empty()) answer.headline = diagnosis.contradiction + ".";
        else answer.headline = headline();
        answer.assumptions.emplace_back(
            "the words likely, possible and unlikely rest on shares assumed from memory; the shop's own cases should "
            "replace them");
        answer.assumptions.emplace_back("one fault at a time");
        if (family_known && !family.table.gears.empty())
            answer.grids.push_back(fault_grid(family, shown_situation(), seen.observations()));
    }

    // The grid in the phase that was told; before fail-safe when nobody said, for that is where faults differ.
    Situation shown_situation() const {
        auto situation = seen.situation();
        if (situation.phase == Phase::not_told) situation.phase = Phase::before_fail_safe;
        return situation;
    }

    void run(bool common_feed_assumed) {
        seen = read_seen(given, services, family);
        diagnosis = diagnose(family, seen, services.reasoner);
        line("gearbox family", family.title, family.source);
        show_codes();
        show_gears();
        show_fail_safe();
        show_coils();
        show_readings();
        if (diagnosis.contradiction.empty()) rank_causes();
        say_what_to_order();
        look_first_lines();
        next_tests();
        ask_about_evidence();
        conclude();
        if (common_feed_assumed) answer.assumptions.emplace_back("no shared feed is recorded: one for all is assumed");
    }
};

// Codes alone say something even where the family is not known.
std::optional<GearboxFamily> from_codes(const Given& given, const Services& services) {
    const auto text = given_or_told(given, services, "codes", "codes");
    if (!text || *text == "none") return std::nullopt;
    auto family = family_of_codes(codes_from(*text));
    family.source = practice();
    return family.elements.empty() ? std::nullopt : std::optional(std::move(family));
}

Answer answer_fault(const Given& given, const Services& services) {
    auto found = family_for(given, services);
    const bool known = found.family.has_value();
    if (!known) {
        auto family = from_codes(given, services);
        if (!family) return family_missing(found);
        found.family = std::move(family);
    }
    FaultInquest inquest{given, services, std::move(*found.family), known};
    const bool assumed = known && add_common_feed(inquest.family);
    inquest.run(assumed);
    if (!known) {
        const auto missing = family_missing(found);
        inquest.answer.next.insert(inquest.answer.next.begin(), missing.next.begin(), missing.next.end());
        inquest.answer.assumptions.push_back(missing.headline);
    }
    return std::move(inquest.answer);
}

std::vector<Input> fault_inputs() {
    auto inputs = family_inputs();
    const auto text = [](const char* name, const char* title, const char* attribute, const char* help) {
        return helped(told(word_input(Input::Kind::text, name, title), attribute), help);
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
          number_input("ohm-low", "least resistance at 20 degC, where none is recorded", "ohm", 0.1, 1e6),
          number_input("ohm-high", "most resistance at 20 degC, where none is recorded", "ohm", 0.1, 1e6),
          told(number_input("feed", "feed voltage under load", "V", 0, 60), "feed_under_load"),
          assumed(told(number_input("battery", "battery voltage at the same time", "V", 0, 60), "battery_voltage"),
                  "12.6"),
          choice("fuse", "fuse of the gearbox controller", "feed_fuse", {"sound", "blown"}),
          choice("connector", "state of the case connector", "connector_state",
                 {"clean", "wet", "oily", "corroded", "pins_spread"}),
          choice("fluid-level", "fluid level", "fluid_level", {"low", "right", "high"}),
          choice("swap", "swap of two like solenoids", "swap_result", {"moves_with_part", "stays"}),
          told(yes_no_input("gears-back", "do the gears come back after an ignition cycle?"), "gears_back")})
        inputs.push_back(input);
    return inputs;
}

}  // namespace

std::vector<Inquiry> fault_inquiries() {
    return {{"fault",
             "Which single fault explains gears, codes and readings; where it may sit; the next test; what not to "
             "order yet",
             fault_inputs(), answer_fault}};
}

}  // namespace casebound::solenoids
