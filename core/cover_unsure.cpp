#include "cover_unsure.h"

#include <numeric>

#include "cover_search.h"

namespace casebound {

namespace {

using Pattern = std::uint32_t;  // a bit for each possibility

bool holds(Pattern pattern, std::size_t possibility) { return (pattern >> possibility & 1U) != 0; }

Pattern serves(const UnsureCover& unsure, const CoverColumn& column) {
    Pattern pattern = 0;
    for (const CoverGift& gift : column.gives) pattern |= Pattern{1} << unsure.possibility[gift.need];
    return pattern;
}

CoverColumn kept_in(const UnsureCover& unsure, std::size_t j, Pattern pattern) {
    const CoverColumn& whole = unsure.all.columns[j];
    const std::int64_t total = std::accumulate(unsure.weights.begin(), unsure.weights.end(), std::int64_t{0});
    std::int64_t kept = 0;
    for (std::size_t p = 0; p < unsure.weights.size(); ++p) kept += holds(pattern, p) ? unsure.weights[p] : 0;
    CoverColumn column{whole.offer, whole.cost * total - unsure.refund_cents[j] * (total - kept), {}};
    for (const CoverGift& gift : whole.gives)
        if (holds(pattern, unsure.possibility[gift.need])) column.gives.push_back(gift);
    return column;
}

// Only patterns that can pay: a pack without refund is kept wherever it serves.
std::vector<Pattern> patterns(const UnsureCover& unsure, std::size_t j) {
    const Pattern all = serves(unsure, unsure.all.columns[j]);
    std::vector<Pattern> found{all};
    if (unsure.refund_cents[j] == 0 || unsure.weights.size() > most_possibilities) return found;
    for (Pattern some = (all - 1) & all; some != 0; some = (some - 1) & all) found.push_back(some);
    return found;
}

}  // namespace

CoverAnswer cheapest_unsure_cover(const UnsureCover& unsure) {
    CoverProblem problem = unsure.all;
    problem.cost_per_cent = std::accumulate(unsure.weights.begin(), unsure.weights.end(), std::int64_t{0});
    problem.columns.clear();
    std::vector<std::size_t> from;
    for (std::size_t j = 0; j < unsure.all.columns.size(); ++j)
        for (const Pattern pattern : patterns(unsure, j)) {
            problem.columns.push_back(kept_in(unsure, j, pattern));
            from.push_back(j);
        }
    CoverAnswer answer = cheapest_cover(problem);
    std::vector<int> packs(unsure.all.columns.size());
    for (std::size_t k = 0; k < answer.packs.size(); ++k) packs[from[k]] += answer.packs[k];
    if (unsure.weights.size() > most_possibilities) answer.proven = false;
    answer.packs = std::move(packs);
    return answer;
}

}  // namespace casebound
