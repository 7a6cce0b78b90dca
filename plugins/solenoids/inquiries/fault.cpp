// Which single fault explains what is seen, where it may sit, what to test next, and what not to order yet.
#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/false_leads.h"
#include "inquiries/fault_grid.h"
#include "inquiries/fault_shown.h"
#include "inquiries/inquiries.h"
#include "rows/findings.h"
#include "rows/look_first.h"
#include "rows/seen.h"
#include "rows/vocabulary.h"
#include "science/conclusion.h"

namespace casebound::solenoids {
namespace {

std::string minutes_text(double minutes) { return fixed(minutes, 0) + " min"; }

struct FaultInquest {
    const Given& given;
    const Services& services;
    const GearboxFamily& family;
    bool family_known;
    const Vocabulary& words = known_words<vocabulary>();
    Seen seen = read_seen(given, services, family);
    Seen firm_seen = seen.firm();
    Diagnosis diagnosis = diagnose(family, seen, services.reasoner, words);
    Diagnosis firm_diagnosis = seen.any_hearsay() ? diagnose_places(family, firm_seen, services.reasoner, words)
                                                  : diagnosis;
    Conclusion concluded{family, seen, diagnosis};
    Conclusion firm{family, firm_seen, firm_diagnosis};
    Answer answer = Answer::judging(Verdict::check_first);

    void line(std::string label, std::string text, SourceNote source = {}) {
        answer.lines.push_back(text_line(std::move(label), std::move(text), std::move(source)));
    }

    bool gears_only() const { return !seen.electrical() && !seen.observations().empty(); }

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

    // ------------------------------------------------------------ what to order

    std::string solenoids() const { return family_known ? "solenoids " : ""; }

    // Of the other elements, those that something points at wait as well; the rest is not ordered at all.
    void say_others(const std::string& named) {
        std::vector<std::string> pointed, rest;
        for (const auto& name : family.element_names())
            if (name != named) (concluded.named().at(name) ? pointed : rest).push_back(name);
        if (!pointed.empty())
            line("do not order yet",
                 solenoids() + listed(pointed) + ": something speaks of them, nothing decides for them");
        if (!rest.empty()) line("do not order", solenoids() + listed(rest) + ": nothing points at them");
    }

    // No element is likely: what comes before every one of them, where something does.
    void say_nothing_named(const std::string& all) {
        if (all.empty()) return;
        const auto stands = concluded.standing("");
        const bool before = stands == Standing::feed || stands == Standing::connector_bad || stands == Standing::fluid;
        line("do not order yet",
             solenoids() + all + ": " +
                 (before ? concluded.judgement("").reason : "nothing points at one of them firmly enough"));
    }

    void say_no_order_yet() {
        const auto all = listed(family.element_names());
        if (const auto stop = stop_finding(seen))
            return line("do not order yet", solenoids() + all + ": " + stop->words);
        if (concluded.standing("") == Standing::shared)
            return line("do not order yet",
                        solenoids() + all + ": several circuits fail together, they share something");
        if (concluded.named().disagree())
            return line("do not order yet", solenoids() + all + ": gears and readings speak of different ones");
        const auto named = concluded.element();
        if (!named) return say_nothing_named(all);
        line("do not order yet", "solenoid " + *named + ": " + judge_order(*named, concluded, firm).reason);
        say_others(*named);
    }

    // What is released, or waits for the fluid level alone.
    std::optional<std::string> to_have_ready() const {
        const auto part = concluded.part();
        if (!part) return std::nullopt;
        const auto judged = judge_order(*part, concluded, firm);
        return judged.hearsay ? std::nullopt : part;
    }

    void say_what_to_order() {
        if (seen.electrical())
            line("have ready", "seal of the case connector: likely, it is disturbed when the connector is unplugged");
        const auto part = to_have_ready();
        if (!part) return say_no_order_yet();
        const auto share = diagnosis.in_part.find(*part);
        const double in_part = share == diagnosis.in_part.end() ? 0 : share->second;
        line("have ready",
             "solenoid " + *part + " with its O-rings: likely needed; " +
                 (word_for(std::min(1.0, in_part)) == Word::likely && diagnosis.spoken_for.count(Cause::coil) != 0
                      ? "the solenoid itself is likely"
                      : "decide between it and its valve first") +
                 (concluded.standing(*part) == Standing::fluid_unseen ? ", the fluid level before both" : ""));
        say_others(*part);
        show_service(*part);
    }

    // What sets a code of a sound solenoid, as told of the vehicle; no coil out of limits and no swap is set by it.
    void say_what_imitates() {
        const auto part = to_have_ready();
        if (part && (firm_seen.coil_out(*part) || firm_seen.swap_moved())) return;
        for (auto& caution : lead_cautions(false_leads(services, known_words<vocabulary>())))
            line("before any is ordered", std::move(caution.text), std::move(caution.source));
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
            for (const auto cause : where_to_look(code)) add(cause);
        std::vector<std::pair<double, Cause>> shares;
        for (const auto& [cause, share] : diagnosis.by_cause) shares.emplace_back(share, cause);
        std::stable_sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        for (const auto& [share, cause] : shares) add(cause);
        return order;
    }

    // Where a code points, or where the shares leave weight; fluid and circuit whenever only gears are known.
    bool worth_a_look(Cause cause) const {
        if (cause == Cause::shared_feed && seen.connector_bad() && !seen.feed_fails()) return false;  // it is found
        if (gears_only() &&
            ((cause == Cause::fluid && !seen.fluid_level) || (cause == Cause::shared_feed && !seen.connector)))
            return true;
        for (const auto& code : seen.codes)
            if (const auto causes = where_to_look(code); std::find(causes.begin(), causes.end(), cause) != causes.end())
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

    // One bit halves what is possible.
    static std::string tells(double gain_bits) {
        return gain_bits >= 0.5 ? "it tells much" : gain_bits >= 0.1 ? "it tells something" : "it tells little";
    }

    void next_tests() {
        constexpr std::size_t most = 4;
        for (std::size_t i = 0; i < std::min(most, diagnosis.questions.size()); ++i) {
            const auto& question = diagnosis.questions[i];
            answer.next.push_back("Test " + std::to_string(i + 1) + ": " + question.how + " " +
                                  minutes_text(question.minutes) + " in all; " + tells(question.gain_bits) + ".");
        }
    }

    // What would make the evidence itself worth more.
    void ask_about_evidence() {
        if ((!seen.codes.empty() || seen.no_codes) && !seen.read_before_clearing)
            answer.next.emplace_back("Ask whether codes were read before clearing.");
        if (seen.phase == Phase::not_told && may_be_fail_safe(seen))
            answer.next.emplace_back(
                "Say whether the gears were noted before or in fail-safe: in it they are all alike.");
    }

    // ------------------------------------------------------------ the headline

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

    std::string undecided(const std::string& element) const {
        if (!seen.slipping.empty() && !seen.electrical() && seen.coil_passes(element))
            return " Its coil is in limits and no circuit is reported: the clutch, its seal or its valve is possible; "
                   "the load test of its circuit and the fluid come before the pan.";
        std::vector<std::string> open;
        if (seen.electrical())
            open = {"coil", "wire or track", "connector", "driver in the controller"};  // all that a circuit code sees
        else
            for (const auto cause : all_causes)
                if (diagnosis.said(cause) != Word::unlikely) open.emplace_back(word(cause));
        const std::string first = !seen.slipping.empty() ? "fluid level first, then its circuit"
                                  : seen.electrical()    ? "measure its coil, at the case connector and at the part"
                                                         : "read the codes, then measure its coil";
        return " The cause is undecided" + (open.empty() ? "" : " (" + listed(open, "; ") + ")") + ": " + first + ".";
    }

    // What the gears told alone come to, where they name no element; "" where they do.
    std::string gears_say_little() const {
        if (seen.obtained.empty() || seen.electrical() || !seen.slipping.empty()) return "";
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

    // What comes before every cause: the gearbox itself, what several share, connector and feed. "" where nothing does.
    std::string headline_before() const {
        if (auto stop = stop_headline(seen); !stop.empty()) return stop;
        if (!seen.anything())
            return "Nothing is observed yet: read the codes, note the gears and the lever, measure the coils with "
                   "their temperature.";
        const auto likely = concluded.element();
        const auto stands = likely ? concluded.standing(*likely) : concluded.standing("");
        if (stands == Standing::connector_bad) return connector_headline(seen);
        if (stands == Standing::feed) return feed_headline(seen);
        if (seen.shared_suspected()) return shared_headline(family, seen, diagnosis);
        if (stands == Standing::fluid && !likely)
            return "The fluid first: its level is " + *seen.fluid_level +
                   ". Put it right, drive, and see whether anything is left of the trouble.";
        if (concluded.named().disagree())
            return "Cannot tell yet: the gears speak of " + listed(concluded.named().by_gears) + ", the rest of " +
                   listed(concluded.named().by_readings) +
                   ". Measure again at the part, and note the gears after an ignition cycle, before fail-safe.";
        return "";
    }

    static bool at_the_part(Cause cause) { return cause == Cause::coil || cause == Cause::valve_or_debris; }

    // Before the likely solenoid is ordered; "" where nothing stands in the way.
    std::string before_ordering(const std::string& element) const {
        const auto judged = judge_order(element, concluded, firm);
        if (judged.standing == Standing::connector_unseen && !judged.hearsay)
            return " Look into the case connector before ordering it.";
        const bool told = judged.released() || judged.standing == Standing::undecided;
        return told ? "" : " Before ordering it: " + judged.until + ".";
    }

    std::string headline() const {
        if (auto before = headline_before(); !before.empty()) return before;
        const auto top = std::max_element(diagnosis.by_cause.begin(), diagnosis.by_cause.end(),
                                          [](const auto& a, const auto& b) { return a.second < b.second; });
        const auto likely = concluded.element();
        if (diagnosis.said(top->first) == Word::likely)
            return "Likely: " + std::string(word(top->first)) +
                   (where(top->first).empty() ? "" : " (" + where(top->first) + ")") + "." +
                   (likely ? " The fault is likely at " + *likely + ", not at the others." : "") +
                   (likely && at_the_part(top->first) ? before_ordering(*likely) : "");
        if (const auto little = gears_say_little(); !little.empty()) return little;
        if (likely) return what_names(*likely) + undecided(*likely);
        return diagnosis.spoken_for.count(top->first) != 0 ? "Cannot tell yet: " + std::string(word(top->first)) +
                                                                 " before the rest, but nothing seen decides it."
                                                           : "Cannot tell yet: nothing seen speaks for one cause.";
    }

    void conclude() {
        if (!diagnosis.contradiction.empty()) answer.headline = diagnosis.contradiction + ".";
        else answer.headline = headline();
        answer.assumptions.emplace_back(
            "the words likely, possible and unlikely rest on shares assumed from memory; the shop's own cases should "
            "replace them");
        answer.assumptions.emplace_back("one fault at a time");
        if (family_known && !family.table.gears.empty())
            answer.grids.push_back(fault_grid(family, shown_state(), seen.observations()));
    }

    // The grid in the phase that was told; before fail-safe when nobody said, for that is where faults differ.
    GearboxState shown_state() const {
        auto gearbox = seen.gearbox_state();
        if (gearbox.phase == Phase::not_told) gearbox.phase = Phase::before_fail_safe;
        return gearbox;
    }

    void run() {
        show_seen(answer, family, seen);
        if (diagnosis.contradiction.empty()) rank_causes();
        say_what_to_order();
        say_what_imitates();
        look_first_lines();
        next_tests();
        ask_about_evidence();
        conclude();
    }
};

Answer answer_fault(const Given& given, const Services& services) {
    auto found = family_for(given, services);
    const bool known = found.family.has_value();
    if (!known) {
        auto family = family_from_codes(given);
        if (!family) return family_missing(found);
        found.family = std::move(family);
    }
    const bool feed_assumed = known && add_common_feed(*found.family);
    FaultInquest inquest{given, services, *found.family, known};
    inquest.run();
    if (feed_assumed) inquest.answer.assumptions.emplace_back("no shared feed is recorded: one for all is assumed");
    if (!known) {
        const auto missing = family_missing(found);
        inquest.answer.next.insert(inquest.answer.next.begin(), missing.next.begin(), missing.next.end());
        inquest.answer.assumptions.push_back(missing.headline);
    }
    return std::move(inquest.answer);
}

}  // namespace

std::vector<Inquiry> fault_inquiries() {
    return {{"fault",
             "Which single fault explains gears, codes and readings; where it may sit; the next test; what not to "
             "order yet",
             fault_inputs(), answer_fault, "gearbox=tarn-4 codes=P0753"}};
}

}  // namespace casebound::solenoids
