#include "core/cover/cover_guess.h"

#include <algorithm>
#include <iterator>

namespace casebound {

CoverGuess::CoverGuess(const CoverProblem& problem, const FineCosts& costs) : problem_(problem), costs_(costs) {
    for (std::size_t j = 0; j < problem.columns.size(); ++j) dearest_first_.push_back(j);
    std::sort(dearest_first_.begin(), dearest_first_.end(),
              [&](std::size_t a, std::size_t b) { return costs.column[a] > costs.column[b]; });
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

// The column with the least cost for what it is worth at these prices; none: columns.size().
std::size_t CoverGuess::best_value(const Draft& draft, const CoverState& state, const CoverPrices& prices,
                                   const std::vector<char>& open) const {
    std::size_t best = problem_.columns.size();
    double least = 0;
    for (std::size_t j = 0; j < problem_.columns.size(); ++j) {
        const CoverColumn& column = problem_.columns[j];
        if (state.barred[j] || draft.left[column.offer] == 0 || !open[problem_.offers[column.offer].seller]) continue;
        std::int64_t worth = 0;
        for (const CoverGift& gift : column.gives)
            worth += (prices[gift.need] + 1) * std::clamp(-draft.spare[gift.need], 0, gift.amount);
        if (worth == 0) continue;
        const double ratio = static_cast<double>(costs_.column[j]) / static_cast<double>(worth);
        if (best == problem_.columns.size() || ratio < least) best = j, least = ratio;
    }
    return best;
}

std::optional<std::vector<int>> CoverGuess::complete(const CoverState& state, const CoverPrices& prices,
                                                     const std::vector<char>& open) {
    Draft draft = empty();
    for (std::size_t j = 0; j < state.packs.size(); ++j)
        if (state.packs[j] > 0) add(draft, j, state.packs[j]);
    while (std::any_of(draft.spare.begin(), draft.spare.end(), [](int spare) { return spare < 0; })) {
        const std::size_t best = best_value(draft, state, prices, open);
        if (best == problem_.columns.size()) return std::nullopt;
        add(draft, best, 1);
    }
    make_lean(draft, dearest_first_, state.packs);
    return draft.packs;
}

std::vector<int> CoverGuess::bettered(const std::vector<int>& packs, const std::vector<char>& open) {
    const std::vector<int> keep(packs.size());
    Draft best = empty();
    for (std::size_t j = 0; j < packs.size(); ++j)
        if (packs[j] > 0) add(best, j, packs[j]);
    std::int64_t least = value(best);
    Draft trial;
    std::vector<std::size_t> bought;  // of the best
    const auto see_bought = [&] {
        bought.clear();
        std::copy_if(dearest_first_.begin(), dearest_first_.end(), std::back_inserter(bought),
                     [&](std::size_t j) { return best.packs[j] > 0; });
    };
    see_bought();
    for (bool again = true; again;) {
        again = false;
        for (std::size_t j = 0; j < packs.size(); ++j) {
            const std::size_t offer = problem_.columns[j].offer;
            if (best.left[offer] == 0 || !open[problem_.offers[offer].seller]) continue;
            trial = best;
            add(trial, j, 1);
            --trial.packs[j];  // the newcomer stays while the others are weighed
            make_lean(trial, bought, keep);
            ++trial.packs[j];
            const std::int64_t cost = value(trial);
            if (cost >= least) continue;
            least = cost;
            std::swap(best, trial);
            see_bought();
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
