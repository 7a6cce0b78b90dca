#include "core/cover/cover_unsure.h"

#include <algorithm>
#include <numeric>

#include "core/cover/cover_search.h"

namespace casebound {

namespace {

using Pattern = std::uint64_t;  // a bit for each possibility

bool holds(Pattern pattern, std::size_t possibility) { return (pattern >> possibility & 1U) != 0; }

std::int64_t sum(const std::vector<std::int64_t>& weights) {
    return std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
}

CoverColumn kept(const UnsureCover& unsure, std::size_t j) {
    CoverColumn column = unsure.all.columns[j];
    column.cost *= sum(unsure.weights);
    return column;
}

CoverColumn kept_in(const UnsureCover& unsure, std::size_t j, Pattern pattern) {
    CoverColumn column = kept(unsure, j);
    column.counts = false;
    for (std::size_t p = 0; p < unsure.weights.size(); ++p)
        if (!holds(pattern, p)) column.cost -= unsure.refund_cents[j] * unsure.weights[p];
    std::erase_if(column.gives, [&](const CoverGift& gift) { return !holds(pattern, unsure.possibility[gift.need]); });
    return column;
}

// Which possibilities a pack of the column may be meant for.
std::vector<Pattern> patterns(const UnsureCover& unsure, std::size_t j) {
    if (unsure.refund_cents[j] == 0) return {};
    Pattern serves = 0;
    for (const CoverGift& gift : unsure.all.columns[j].gives) serves |= Pattern{1} << unsure.possibility[gift.need];
    const Pattern every = (Pattern{1} << unsure.weights.size()) - 1;
    std::vector<Pattern> found;
    for (Pattern some = serves; some != 0; some = (some - 1) & serves) {
        if (some != every) found.push_back(some);
        if (unsure.weights.size() > most_possibilities) break;
    }
    return found;
}

}  // namespace

UnsureCoverAnswer cheapest_unsure_cover(const UnsureCover& unsure, std::optional<std::int64_t> below) {
    CoverProblem problem = unsure.all;
    problem.cost_per_cent = sum(unsure.weights);
    problem.columns.clear();
    std::vector<std::size_t> from;
    for (std::size_t j = 0; j < unsure.all.columns.size(); ++j) {
        problem.columns.push_back(kept(unsure, j));
        for (const Pattern pattern : patterns(unsure, j)) problem.columns.push_back(kept_in(unsure, j, pattern));
        from.resize(problem.columns.size(), j);
    }
    const std::vector<int> none(unsure.all.columns.size());
    UnsureCoverAnswer answer{cheapest_cover(problem, below), none};
    std::vector<int> packs = none;
    for (std::size_t k = 0; k < answer.cover.packs.size(); ++k) {
        packs[from[k]] += answer.cover.packs[k];
        if (!problem.columns[k].counts) answer.may_go_back[from[k]] += answer.cover.packs[k];
    }
    answer.cover.packs = std::move(packs);
    if (unsure.weights.size() > most_possibilities) answer.cover.proven = false;
    return answer;
}

}  // namespace casebound
