#include "core/cover/cover_guess.h"

#include <algorithm>
#include <functional>

namespace casebound {

CoverGuess::CoverGuess(const CoverProblem& problem, const FineCosts& costs) : problem_(problem), costs_(costs) {
    for (std::size_t j = 0; j < problem.columns.size(); ++j) dearest_first_.push_back(j);
    std::sort(dearest_first_.begin(), dearest_first_.end(),
              [&](std::size_t a, std::size_t b) { return costs.column[a] > costs.column[b]; });
    rank_.resize(problem.columns.size());
    ways_to_.resize(problem.needs.size());
    for (std::size_t rank = 0; rank < dearest_first_.size(); ++rank) {
        const std::size_t column = dearest_first_[rank];
        rank_[column] = rank;
        for (const CoverGift& gift : problem.columns[column].gives) ways_to_[gift.need].push_back(column);
    }
}

CoverGuess::Draft CoverGuess::empty() const {
    Draft draft;
    draft.packs.resize(problem_.columns.size());
    for (const int amount : problem_.needs) draft.spare.push_back(-amount);
    for (const CoverOffer& offer : problem_.offers) draft.left.push_back(offer.available);
    draft.goods.resize(problem_.sellers.size());
    draft.bought.resize(problem_.sellers.size());
    return draft;
}

void CoverGuess::add(Draft& draft, std::size_t column, int packs) const {
    const CoverColumn& taken = problem_.columns[column];
    const CoverOffer& offer = problem_.offers[taken.offer];
    for (const CoverGift& gift : taken.gives) draft.spare[gift.need] += packs * gift.amount;
    draft.packs[column] += packs;
    draft.left[taken.offer] -= packs;
    if (taken.counts) draft.goods[offer.seller] += packs * offer.goods_cents;
    draft.bought[offer.seller] += packs;
    draft.cost += packs * costs_.column[column];
}

bool CoverGuess::needless(const Draft& draft, std::size_t column) const {
    const auto& gives = problem_.columns[column].gives;
    return std::all_of(gives.begin(), gives.end(),
                       [&](const CoverGift& gift) { return draft.spare[gift.need] >= gift.amount; });
}

void CoverGuess::make_lean(Draft& draft, const std::vector<std::size_t>& columns, const std::vector<int>& keep) const {
    for (const std::size_t j : columns)
        while (draft.packs[j] > keep[j] && needless(draft, j)) add(draft, j, -1);
}

std::int64_t CoverGuess::value(const Draft& draft) const {
    std::int64_t cost = draft.cost;
    int sellers = 0;
    for (std::size_t s = 0; s < problem_.sellers.size(); ++s) {
        if (draft.bought[s] == 0) continue;
        sellers += problem_.sellers[s].counted;
        cost += costs_.use[s] + least_extra(problem_.sellers[s], costs_.carriage[s], costs_.cent, draft.goods[s]);
    }
    return sellers > problem_.most_sellers ? FineCosts::impossible : cost;
}

// Cost for what it is worth at these prices; nothing when it is worth nothing, or there is no more of it.
std::optional<double> CoverGuess::cost_for_worth(const Draft& draft, std::size_t column,
                                                 const CoverPrices& prices) const {
    const CoverColumn& taken = problem_.columns[column];
    if (draft.left[taken.offer] == 0) return std::nullopt;
    std::int64_t worth = 0;
    for (const CoverGift& gift : taken.gives)
        worth += (prices[gift.need] + 1) * std::clamp(-draft.spare[gift.need], 0, gift.amount);
    if (worth == 0) return std::nullopt;
    return static_cast<double>(costs_.column[column]) / static_cast<double>(worth);
}

// Again and again the column that is the best value. What is taken makes no other better value, so that one which is still
// as good as it was is the best, however long ago the rest were valued.
std::optional<std::vector<int>> CoverGuess::complete(const CoverState& state, const CoverPrices& prices,
                                                     const std::vector<char>& open) {
    Draft draft = empty();
    for (std::size_t j = 0; j < state.packs.size(); ++j)
        if (state.packs[j] > 0) add(draft, j, state.packs[j]);
    std::vector<std::pair<double, std::size_t>> values;
    for (std::size_t j = 0; j < problem_.columns.size(); ++j)
        if (!state.barred[j] && open[problem_.offers[problem_.columns[j].offer].seller])
            if (const auto value = cost_for_worth(draft, j, prices)) values.emplace_back(*value, j);
    std::make_heap(values.begin(), values.end(), std::greater<>());
    while (std::any_of(draft.spare.begin(), draft.spare.end(), [](int spare) { return spare < 0; })) {
        if (values.empty()) return std::nullopt;
        std::pop_heap(values.begin(), values.end(), std::greater<>());
        auto& [before, column] = values.back();
        const auto value = cost_for_worth(draft, column, prices);
        if (value && *value == before) add(draft, column, 1);
        if (value) {
            before = *value;
            std::push_heap(values.begin(), values.end(), std::greater<>());
        } else {
            values.pop_back();
        }
    }
    make_lean(draft, dearest_first_, state.packs);
    return draft.packs;
}

// What is bought and may become needless by one more pack of a column: what meets a need that it meets. Dearest first.
void CoverGuess::find_rivals(const Draft& draft, std::size_t column) {
    rivals_.clear();
    for (const CoverGift& gift : problem_.columns[column].gives)
        for (const std::size_t way : ways_to_[gift.need])
            if (draft.packs[way] > 0) rivals_.push_back(way);
    if (problem_.columns[column].gives.size() == 1) return;
    std::sort(rivals_.begin(), rivals_.end(), [&](std::size_t a, std::size_t b) { return rank_[a] < rank_[b]; });
    rivals_.erase(std::unique(rivals_.begin(), rivals_.end()), rivals_.end());
}

std::vector<int> CoverGuess::bettered(const std::vector<int>& packs, const std::vector<char>& open) {
    const std::vector<int> keep(packs.size());
    Draft best = empty();
    for (std::size_t j = 0; j < packs.size(); ++j)
        if (packs[j] > 0) add(best, j, packs[j]);
    make_lean(best, dearest_first_, keep);
    std::int64_t least = value(best);
    Draft trial;
    for (bool again = true; again;) {
        again = false;
        for (std::size_t j = 0; j < packs.size(); ++j) {
            const std::size_t offer = problem_.columns[j].offer;
            if (best.left[offer] == 0 || !open[problem_.offers[offer].seller]) continue;
            find_rivals(best, j);
            trial = best;
            add(trial, j, 1);
            --trial.packs[j];  // the newcomer stays while the others are weighed
            make_lean(trial, rivals_, keep);
            ++trial.packs[j];
            const std::int64_t cost = value(trial);
            if (cost >= least) continue;
            least = cost;
            std::swap(best, trial);
            again = true;
        }
    }
    return best.packs;
}

std::int64_t CoverGuess::roughly(const std::vector<int>& packs) {
    Draft draft = empty();
    for (std::size_t j = 0; j < packs.size(); ++j)
        if (packs[j] > 0) add(draft, j, packs[j]);
    return value(draft);
}

}  // namespace casebound
