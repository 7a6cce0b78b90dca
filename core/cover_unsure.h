// The cheapest packs that cover the needs of every possibility, when what is not needed in the end goes back for
// a refund: each pack is kept in some of the possibilities, and costs its price less the refund in the others.
#pragma once

#include <vector>

#include "cover_problem.h"

namespace casebound {

struct UnsureCover {
    CoverProblem all;                           // needs of all possibilities; one column an offer
    std::vector<std::size_t> possibility;       // of each need
    std::vector<std::int64_t> weights;          // of the possibilities; cost_per_cent of the answer is their sum
    std::vector<std::int64_t> refund_cents;     // by column; 0: not returnable
};

inline constexpr std::size_t most_possibilities = 6;  // solved exactly; above, each pack counts as kept wherever it serves

// Packs by column of `all`; the cost is expected, in 1 / sum(weights) cents.
CoverAnswer cheapest_unsure_cover(const UnsureCover& unsure);

}  // namespace casebound
