#include "inquiries/pair_rules.h"

#include <algorithm>

#include "core/contract/answer_lines.h"
#include "rows/mount_record.h"

namespace casebound::mounts {
namespace {

PairRule rule_from(std::string_view text) {
    return text == "required"      ? PairRule::required
           : text == "recommended" ? PairRule::recommended
           : text == "no"          ? PairRule::no
                                   : PairRule::not_recorded;
}

// Rows on this pair, those written from the broken mount's side first; from the other side only where there are none.
std::vector<HeldRow> rows_on_pair(const Services& services, Position broken, Position other) {
    std::vector<HeldRow> forward, backward;
    for (const auto& row : rows_here(services, "mounts_pairs")) {
        if (row->text("position") == position_key(broken) && row->text("with_position") == position_key(other))
            forward.push_back(row);
        if (row->text("with_position") == position_key(broken) && row->text("position") == position_key(other))
            backward.push_back(row);
    }
    return forward.empty() ? backward : forward;
}

}  // namespace

std::string_view word(PairAction action) {
    return action == PairAction::replace ? "replace" : action == PairAction::consider ? "consider" : "inspect";
}

RecordedRule recorded_rule(const Services& services, Position broken, Position other, Answer& answer) {
    RecordedRule strictest;
    for (const auto& row : rows_on_pair(services, broken, other)) {
        const std::string words = row->stated("words") ? ": " + std::string(row->text("words")) : "";
        answer.lines.push_back(text_line("on record for " + position_key(broken) + " and " + position_key(other),
                                         std::string(row->text("rule")) + words + row.where(), row_source(*row)));
        auto rule = rule_from(row->text("rule"));
        if (row.holds == Holds::open && rule == PairRule::required) {
            rule = PairRule::recommended;
            answer.next.push_back("Find out whether the pair is required: " + std::string(row->text("condition")) +
                                  ".");
        }
        if (strictest.rule == PairRule::not_recorded || rule < strictest.rule) strictest = {rule, row_source(*row)};
    }
    return strictest;
}

bool may_have(const Services& services, Position position) {
    bool none = false, some = false;
    for (const auto& row : rows_here(services, "applications")) {
        if (row->text("role") != role_of_position(position)) continue;
        none |= row->text("says") == "none_needed" && row.holds == Holds::yes;
        some |= row->text("says") == "fits";
    }
    return some || !none;
}

}  // namespace casebound::mounts
