// Door seals: a whole domain in one file, to show what a domain is and that core needs no change for it.
// A hollow bulb is squeezed between door and frame; too little leaks, too much keeps the door from closing.
// The limits are common practice, no source. Never measures anything itself.
#include <string>

#include "core/contract/answer_lines.h"
#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"
#include "core/contract/inquiry_inputs.h"
#include "core/contract/plugin.h"
#include "core/contract/told_trouble.h"
#include "schema_sql.h"

namespace casebound::door_seals {
namespace {

// ---------------------------------------------------------------- science: numbers in, numbers out

constexpr double least_squeeze_percent = 20, most_squeeze_percent = 50;  // common practice, no source

double squeeze_percent(double bulb_mm, double gap_mm) {
    if (gap_mm > 2 * bulb_mm)
        refuse("gap", with_unit(gap_mm, "mm"), "0 to " + with_unit(2 * bulb_mm, "mm") + ", twice the bulb");
    return 100 * (bulb_mm - gap_mm) / bulb_mm;
}

// The gaps a bulb serves, as the right side of a condition: "8.0..12.8".
std::string gaps_served(double bulb_mm) {
    return fixed(bulb_mm * (1 - most_squeeze_percent / 100), 1) + ".." +
           fixed(bulb_mm * (1 - least_squeeze_percent / 100), 1);
}

// ---------------------------------------------------------------- rows: what packs hold, and what was told

// Core meets the condition of the objection; here nobody counts configurations. What is recorded of the door frame is
// a caution, with the row it comes from.
Examination examine(const Candidate& candidate, const Services& services) {
    Examination result;
    if (const auto* bulb = row_of_group(services.facts, "door_seals_bulbs", candidate.group)) {
        const double bulb_mm = bulb->need_number("bulb_mm");
        result.objections.push_back(
            {"not door_gap=" + gaps_served(bulb_mm), Verdict::does_not_fit,
             "a bulb of " + number_text(bulb_mm) + " mm serves gaps of " + gaps_served(bulb_mm) + " mm",
             row_source(*bulb)});
    }
    if (services.vehicle && services.vehicle->possible("door_gap").size() != 1)
        result.questions.emplace_back("door_gap");
    for (const auto& frame : rows_here(services, "door_seals_frames"))
        if (frame->stated("advice"))
            result.cautions.push_back({std::string(frame->text("advice")) + frame.where(), row_source(*frame)});
    return result;
}

Findings findings(const Services& services) {
    return {told_trouble(services, {{"door_sags", {"yes"}, "door that sags"}}), {}};
}

// A door that drops on its hinges closes on no seal: common practice, no source.
std::vector<Hold> holds(const Services& services) {
    const auto sags = told_of(services.vehicle, "door_sags");
    if (!sags || sags->text != "yes") return {};
    Hold hold;
    hold.roles = {"door-seal-front"};
    hold.reason = "the door sags: the gap that was measured is not the gap that will be";
    hold.source = sags->source();
    hold.until = "set the hinges, then measure the gap again";
    hold.attributes = {"door_sags", "door_gap"};
    return {hold};
}

// ---------------------------------------------------------------- the inquiry

// Core has filled the inputs, by hand, from what was told or from the pack, and shows where each comes from.
Answer answer_squeeze(const Given& given, const Services&) {
    auto answer = Answer::judging(Verdict::fits);
    answer.next = {"Close the door on a strip of paper all round; it must be held everywhere."};
    if (!given.has("bulb") || !given.has("gap")) {
        answer.lower(Verdict::check_first);
        answer.headline = "Cannot tell yet: it takes the height of the bulb and the gap.";
        return answer;
    }
    const double squeeze = squeeze_percent(given.number("bulb"), given.number("gap"));
    const bool low = squeeze<least_squeeze_percent, high = squeeze> most_squeeze_percent;
    if (low || high) answer.lower(Verdict::does_not_fit);
    answer.headline = low    ? "Take a higher bulb: this one is hardly squeezed."
                      : high ? "Take a lower bulb: this one keeps the door from closing."
                             : "This bulb seals the gap.";
    answer.lines = {measure_line("squeeze", squeeze, "%", 0, weaker(given.source("bulb"), given.source("gap"))),
                    text_line("limits", "a hollow bulb seals when squeezed by 20 to 50 % of its height")};
    return answer;
}

Inquiry squeeze() {
    return {
        "squeeze",
        "How much a door seal is squeezed",
        {key_of(text_input("seal", "the seal, or its part number"), "door_seals_bulbs"),
         found_by(recorded(number_input("bulb", "height of the free bulb", "mm", 1, 60), "door_seals_bulbs", "bulb_mm"),
                  "measure the bulb where nothing presses on it"),
         found_by(recorded(told(number_input("gap", "gap at the door frame", "mm", 0, 60), "door_gap"),
                           "door_seals_frames", "gap_mm"),
                  "press putty on the frame and measure it")},
        answer_squeeze};
}

// ---------------------------------------------------------------- the domain

std::vector<Inquiry> inquiries() { return {squeeze()}; }

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    std::vector<RowFault> faults;
    for (const auto& row : facts.rows("door_seals_bulbs"))
        if (row.origin.pack == pack && row.need_number("bulb_mm") > 40)
            faults.push_back({row.origin, "bulb_mm", "no door seal is that high: is it the length of the strip?"});
    return faults;
}

Vocabulary vocabulary() {
    return vocabulary_of({within(0, 60,
                                 number_of("mm", 0.5, "door_gap", "gap at the door frame",
                                           "Press putty on the frame, close the door gently, measure the putty.", 4)),
                          as_finding(yes_or_no("door_sags", "door sags on its hinges",
                                               "Open the door half way and lift it at its edge.", 1))},
                         {{"door-seal",
                           "door seal",
                           StandIns::may_be_offered,
                           {{"door-seal-front", "door seal, front"}},
                           "each",
                           {"door_seals_bulbs", {{"bulb_mm", "bulb, mm"}}}}});
}

}  // namespace
}  // namespace casebound::door_seals

CASEBOUND_DOMAIN(door_seals, "door seals", check, examine, findings, holds, inquiries)
