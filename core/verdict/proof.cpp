#include <algorithm>

#include "core/verdict/fits.h"
#include "core/verdict/laid_out.h"
#include "core/verdict/open_worlds.h"

namespace casebound {

namespace {

// Same verdict by the same groups: what a proof must preserve.
struct Outcome {
    Verdict verdict;
    std::vector<char> candidates, whole;  // flags
    bool operator==(const Outcome&) const = default;
};

Outcome outcome(const RoleAnswer& answer, const Bits& left) {
    Outcome result{answer.verdict_on(left), {}, {}};
    result.candidates.reserve(answer.groups.size());
    result.whole.reserve(answer.groups.size());
    for (const auto& group : answer.groups) {
        result.candidates.push_back(group.on_line.meets(left));
        result.whole.push_back(group.on_line.contains(left));
    }
    return result;
}

// The most probable first.
void put_in_order(std::vector<GroupAnswer>& groups, const Possibilities& set) {
    std::vector<std::pair<double, std::size_t>> order;
    order.reserve(groups.size());
    for (std::size_t i = 0; i < groups.size(); ++i) order.emplace_back(set.weight(groups[i].on), i);
    const auto before = [&](const auto& a, const auto& b) {
        return a.first != b.first ? a.first > b.first : groups[a.second].key < groups[b.second].key;
    };
    if (std::is_sorted(order.begin(), order.end(), before)) return;
    std::sort(order.begin(), order.end(), before);
    std::vector<GroupAnswer> sorted;
    sorted.reserve(groups.size());
    for (const auto& [weight, at] : order) sorted.push_back(std::move(groups[at]));
    groups = std::move(sorted);
}

}  // namespace

// The rows the group's standing rests on, and every row against it; those it does not rest on say so.
void Judge::prove_group(GroupAnswer& group, const RoleAnswer& place, const Claims& claims,
                        const std::vector<bool>& cited) const {
    const Bits& left = narrowing_.left;
    group.on = group.on_line & left;
    const bool doubted = group.doubted_line.meets(left);
    if (place.verdict == Verdict::not_answered) group.verdict = Verdict::not_answered;
    else if (group.on == left) group.verdict = doubted ? Verdict::check_first : Verdict::fits;
    else if (group.on.any()) group.verdict = Verdict::check_first;
    else group.verdict = group.disagreed_line.meets(left) ? Verdict::sources_disagree : Verdict::does_not_fit;
    // How much is wanted: by all that may be true, so that what is ordered is enough in any of it. A piece is one where
    // nothing is said; of what is poured nobody may guess.
    const Bits wanted_on = group.on_line & may_be_true(narrowing_);
    Bits said_to_fit(left.size()), amount_said(left.size()), amount_unsaid(left.size());
    for (const auto& claim : claims)
        if (claim.row->says == Says::fits && claim.row->group == group.id) said_to_fit |= claim.on & left;
    for (std::size_t i = 0; i < claims.size(); ++i) {
        const auto& row = *claims[i].row;
        const bool no_place = row.says == Says::none_needed && claims[i].on.meets(said_to_fit);
        if (no_place || (row.says == Says::does_not_fit && row.group == group.id && claims[i].on.meets(left))) {
            group.against.push_back({catalog_, row});
            group.against.back().redundant = !cited[i];
        }
        if (row.says != Says::fits || row.group != group.id) continue;
        if (cited[i]) {
            group.leaves.push_back({catalog_, row});
            if (!row.note.empty()) group.notes.push_back(row.note);
        }
        const Bits counts = casebound::holds(claims[i], claims) & wanted_on;
        if (counts.none()) continue;
        const bool said = row.quantity_stated || place.by_the_piece();
        (said ? amount_said : amount_unsaid) |= counts;
        if (!said) continue;
        group.quantity_low = group.quantity_high == 0 ? row.quantity : std::min(group.quantity_low, row.quantity);
        group.quantity_high = std::max(group.quantity_high, row.quantity);
    }
    group.amount_open = !amount_said.contains(amount_unsaid);
}

// Told facts without which the rows cited would come to another outcome; the rest are left out.
void Judge::prove_told(RoleAnswer& answer, const RoleAnswer& cited) const {
    const auto want = outcome(cited, narrowing_.left);
    auto kept = telling_;
    const auto left_without = [&](std::size_t at) {
        Bits left = line_.set.all();
        for (std::size_t i = 0; i < kept.size(); ++i)
            if (i != at) left &= kept[i]->holding;
        return left;
    };
    for (auto before = kept.size() + 1; kept.size() < before;) {
        before = kept.size();
        for (std::size_t i = 0; i < kept.size();) {
            if (outcome(cited, left_without(i)) == want) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
            else ++i;
        }
    }
    for (const auto* fact : kept) {
        Leaf told(fact->said(),
                  SourceNote{evidence_of(fact->evidence), std::string(tell_evidence_words(fact->evidence))});
        told.told = true;
        told.photos = fact->photos;
        answer.told.push_back(std::move(told));
    }
}

void Judge::prove(RoleAnswer& answer, const Claims& claims, const std::vector<Objected>& objections) const {
    const Bits& left = narrowing_.left;
    const auto groups = group_ids(answer);
    const auto cited = needed(claims, groups, left);
    answer.blank = left - answer.none_line;
    for (auto& group : answer.groups) {
        prove_group(group, answer, claims, cited);
        answer.blank -= group.on_line | group.disagreed_line | group.vetoed_line;
    }
    Claims rest;
    rest.reserve(claims.size());
    for (std::size_t i = 0; i < claims.size(); ++i) {
        if (cited[i]) {
            rest.push_back(claims[i]);
            answer.invented |= catalog_.invented(claims[i].row->origin);
        }
        if (claims[i].row->says != Says::none_needed || !claims[i].on.meets(left)) continue;
        answer.none_leaves.push_back({catalog_, *claims[i].row});
        answer.none_leaves.back().redundant = !cited[i];
    }
    if (!telling_.empty()) {
        RoleAnswer lean;
        lean.groups.reserve(groups.size());
        for (const auto id : groups) lean.groups.emplace_back().id = id;
        lay_out(lean, weigh(rest, groups, line_.set.size()));
        object(lean, objections);
        prove_told(answer, lean);
    }
    grade(answer);
    put_in_order(answer.groups, line_.set);
}

// The weakest evidence on the path that decided.
void Judge::grade(RoleAnswer& answer) const {
    Evidence weakest = Evidence::law;
    const auto take = [&](const Leaf& one) {
        if (!one.redundant) weakest = weaker(weakest, one.evidence());
    };
    for (const auto& group : answer.groups) {
        if (answer.verdict == Verdict::fits && group.verdict != Verdict::fits) {
            // What fits rests on the word against a group that somebody else puts there, too.
            if (const auto* word = group.firmest_against(narrowing_.left)) weakest = weaker(weakest, word->evidence());
            continue;
        }
        if (group.on.none() && group.verdict != Verdict::sources_disagree) continue;
        for (const auto& one : group.leaves) take(one);
        for (const auto& one : group.against) take(one);
    }
    for (const auto& part : answer.parts)
        for (const auto& one : part.leaves) take(one);
    if (!answer.plain() && !answer.with_others.empty())
        for (const auto& one : answer.with_others.front().leaves) take(one);
    for (const auto& one : answer.none_leaves) take(one);
    for (const auto& one : answer.told) take(one);
    weakest = weaker(weakest, weakest_configuration_);
    answer.invented |= invented_configuration_;
    answer.weakest = weakest;
    answer.invented |= weakest == Evidence::invented;
}

}  // namespace casebound
