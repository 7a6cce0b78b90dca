#include <algorithm>

#include "core/verdict/places.h"

namespace casebound {

// What is ordered on `left` is right on all of `more`, too.
static bool stays(const RoleAnswer& answer, const Bits& left, const Bits& more) {
    if (answer.verdict != answer.verdict_on(more)) return false;
    if (answer.verdict == Verdict::none_needed) return answer.none_line.contains(more);
    const auto stay = [&](const std::vector<GroupAnswer>& parts) {
        return std::all_of(parts.begin(), parts.end(),
                           [&](const GroupAnswer& part) { return part.on_line.contains(more); });
    };
    return stay(answer.parts) && stay(answer.with_others) &&
           std::all_of(answer.groups.begin(), answer.groups.end(), [&](const GroupAnswer& group) {
               const bool ordered = group.verdict == Verdict::fits && group.on_line.contains(left);
               return !ordered || !group.stands_in_for.empty() ||
                      (group.on_line.contains(more) && !group.doubted_line.meets(more));
           });
}

// The told facts that nobody here has measured or read and that the answer would not stand without, those too that
// only rule out what else might be ordered.
void Places::add_hearsay(RoleAnswer& answer) const {
    if (answer.verdict != Verdict::fits && answer.verdict != Verdict::none_needed) return;
    const auto& narrowing = judge_.narrowing();
    std::vector<const ToldFact*> firm, kept;
    for (const auto& fact : narrowing.facts)
        if (fact.applies) (is_hearsay(fact.evidence) ? kept : firm).push_back(&fact);
    if (kept.empty()) return;
    const auto without = [&](std::size_t at) {
        auto some = firm;
        for (std::size_t i = 0; i < kept.size(); ++i)
            if (i != at) some.push_back(kept[i]);
        return narrowing.left_by(some);
    };
    for (std::size_t i = 0; i < kept.size();) {
        if (stays(answer, narrowing.left, without(i))) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
        else ++i;
    }
    for (const auto* fact : kept) {
        const bool said = std::any_of(answer.told.begin(), answer.told.end(),
                                      [&](const Leaf& leaf) { return leaf.text() == fact->said(); });
        if (said) continue;
        Leaf told(fact->said(),
                  SourceNote{evidence_of(fact->evidence), std::string(tell_evidence_words(fact->evidence)), {}});
        told.told = true;
        told.photos = fact->photos;
        answer.told.push_back(std::move(told));
        answer.weakest = weaker(answer.weakest, evidence_of(fact->evidence));
    }
}

std::vector<const ToldFact*> Places::hearsay_against(const Bits& on) const {
    const auto& narrowing = judge_.narrowing();
    std::vector<const ToldFact*> firm, kept;
    for (const auto& fact : narrowing.facts)
        if (fact.applies) (is_hearsay(fact.evidence) ? kept : firm).push_back(&fact);
    if (!on.meets(narrowing.left_by(firm))) return {};
    for (std::size_t i = 0; i < kept.size();) {
        auto some = firm;
        for (std::size_t j = 0; j < kept.size(); ++j)
            if (j != i) some.push_back(kept[j]);
        if (!on.meets(narrowing.left_by(some))) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
        else ++i;
    }
    return kept;
}

// A condition on the way names what the line does not have and somebody told.
static bool depends_on(const SwapAnswer& swap, const std::string& attribute) {
    return std::any_of(swap.path.begin(), swap.path.end(), [&](const Edge& edge) {
        const auto condition = parse_condition(edge.condition);
        return std::any_of(condition.terms.begin(), condition.terms.end(),
                           [&](const Term& term) { return term.attribute == attribute; });
    });
}

std::vector<const ToldFact*> Places::hearsay_behind(const RoleAnswer& place, const GroupAnswer& wanted,
                                                    const SwapAnswer& swap) const {
    const Bits on = reach_there(place, wanted, swap.offered_group);
    auto facts = hearsay_against(wanted.on_line - on);
    for (const auto& fact : judge_.narrowing().facts)
        if (!fact.applies && is_hearsay(fact.evidence) && depends_on(swap, fact.attribute)) facts.push_back(&fact);
    return facts;
}

std::vector<Doubt> Places::doubts(const RoleAnswer& place) const {
    std::vector<Doubt> open;
    const auto& narrowing = judge_.narrowing();
    for (const auto& doubt : narrowing.doubts)
        if (!stays(place, narrowing.left, doubt.worlds)) open.push_back(doubt);
    return open;
}

}  // namespace casebound
