// One place of a vehicle, and one part in the stead of another, as text.
#include <algorithm>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/say/report.h"

namespace casebound {

namespace {

// What is not said of the place itself: the part fits because it stands in for another.
std::vector<Leaf> stand_in_leaves(const GroupAnswer& group) {
    auto leaves = group.leaves;
    std::erase_if(leaves, [](const Leaf& leaf) { return leaf.row() != nullptr; });
    return leaves;
}

// One group of a place: what it is, whether and where it fits, and by what.
std::string group_text(const GroupAnswer& group, const RoleAnswer& answer, const Situation& situation, bool full) {
    const auto& left = situation.narrowing().left;
    const auto where = group.on.any() && group.on != left
                           ? " where " + where_words(situation.model().set, group.on, left, answer.speaks_of())
                           : std::string();
    const auto item = group_in_short(situation, answer, group);
    const auto what = named(group.title, group.key);
    std::string out = wrapped(
        fmt::format("{}{}: {}{}", item == group.title ? "" : item + ", ", item == group.key ? group.title : what,
                    in_colour(group.verdict, verdict_words(group.verdict)), where.empty() ? "" : "; fits" + where),
        2, 2);
    const auto reasons = leaves_text(group.leaves, full, &situation, 4) +
                         leaves_text(group.against, full, &situation, 4);
    if (!group.goes_with.empty())
        out += wrapped(fmt::format("only{}", with_words(situation, group.goes_with).substr(1)), 4, 2);
    if (full || group.verdict != Verdict::fits) out += reasons;
    else out += leaves_text(stand_in_leaves(group), full, &situation, 4);
    for (const auto& caution : group.cautions)
        out += wrapped(fmt::format("caution: {}", in_titles(situation.judge().catalog(), caution.text)), 4, 2);
    return out;
}

}  // namespace

std::string doubts_text(const std::vector<Doubt>& doubts, std::size_t indent) {
    std::string out;
    for (const auto& doubt : doubts)
        out += wrapped(fmt::format("IN DOUBT: {}: {}.", doubt.reason, doubt.until), indent, 2);
    return out;
}

std::string role_text(const RoleAnswer& answer, const Situation& situation, bool full) {
    const auto word = in_colour(answer.verdict, capitalised(verdict_words(answer.verdict)));
    std::string out = wrapped(fmt::format("{}: {}", named(answer.title, answer.role), word), 0, 2);
    if (answer.verdict == Verdict::not_answered)
        return out + wrapped(fmt::format("not answered: {}", answer.failure), 2);
    out += doubts_text(situation.places().doubts(answer), 2);
    if (answer.verdict == Verdict::not_recorded)
        out += wrapped(fmt::format("searched {}: nobody has said what goes there", situation.model().title), 2);
    if (!answer.deciding.empty()) out += wrapped("It hangs on: " + attribute_titles(situation, answer.deciding), 2, 2);
    for (const auto& group : answer.groups)
        if (group.on.any() || group.verdict == Verdict::sources_disagree || full ||
            answer.verdict == Verdict::does_not_fit)
            out += group_text(group, answer, situation, full);
    for (const auto& part : answer.parts) out += group_text(part, answer, situation, full);
    if (!answer.plain())
        for (const auto& part : answer.with_others) out += group_text(part, answer, situation, full);
    out += leaves_text(answer.none_leaves, full, &situation, 2) + leaves_text(answer.told, full, &situation, 2);
    if (full && !answer.withdrawn.empty())
        out += wrapped("no longer counts:", 2) + leaves_text(answer.withdrawn, full, &situation, 4);
    return out + wrapped(fmt::format("weakest evidence: {}", evidence_words(answer.weakest)), 2);
}

std::string swap_text(const SwapAnswer& made, bool full, const Catalog& catalog) {
    const auto answer = in_words(made, catalog);
    std::string out = spread(fmt::format("{}: {} for {}", swap_words(answer.verdict), answer.offered, answer.wanted),
                             invented_label(answer.invented));
    const auto list = [&](std::string_view label, const std::vector<std::string>& texts) {
        for (const auto& text : texts) out += wrapped(fmt::format("{}{}", label, text), 2, 2);
    };
    // A reason that stands below with its source is not said twice.
    const bool all_shown = full || answer.leaves.size() <= 5;
    for (const auto& reason : answer.reasons)
        if (!all_shown || std::none_of(answer.leaves.begin(), answer.leaves.end(),
                                       [&](const Leaf& leaf) { return leaf.text() == reason; }))
            list("", {reason});
    list("only where ", answer.conditions);
    list("on condition: ", answer.requirements);
    list("also fit: ", answer.also_requires);
    list("differs: ", answer.differences);
    list("caution: ", texts_of(answer.cautions));
    out += leaves_text(answer.leaves, full, nullptr);
    if (!answer.withdrawn.empty())
        out += wrapped("no longer counts:", 2) + leaves_text(answer.withdrawn, full, nullptr, 4);
    return answer.leaves.empty()
               ? out
               : out + wrapped(fmt::format("weakest evidence: {}", evidence_words(answer.weakest)), 2);
}

}  // namespace casebound
