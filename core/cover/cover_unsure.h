// The cheapest packs that cover the needs of every possibility, when what is not needed in the end goes back for
// a refund. A pack is either kept whatever comes, or meant for some possibilities and sent back in the others; the
// latter counts towards no threshold and no minimum, so nothing is bought in order to be sent back.
#pragma once

#include <optional>
#include <vector>

#include "core/cover/cover_problem.h"

namespace casebound {

struct UnsureCover {
    CoverProblem all;                        // needs of all possibilities; one column an offer
    std::vector<std::size_t> possibility;    // of each need
    std::vector<std::int64_t> weights;       // of the possibilities
    std::vector<std::int64_t> refund_cents;  // by column; 0: not returnable
};

struct UnsureCoverAnswer {
    CoverAnswer cover;             // packs by column of `all`; cost expected, in 1 / sum(weights) cents
    std::vector<int> may_go_back;  // of these packs
};

// Above this, a pack that may go back is meant for every possibility that it serves: right in each, dearer than it
// need be, and not proven.
inline constexpr std::size_t most_possibilities = 6;

// With `below`, only an answer that costs less is looked for.
UnsureCoverAnswer cheapest_unsure_cover(const UnsureCover& unsure, std::optional<std::int64_t> below = std::nullopt);

}  // namespace casebound
