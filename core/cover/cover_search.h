// The cheapest cover, proven: depth-first branch and bound over sellers, columns and needs, cut by CoverBound.
// Same problem, same answer: nothing here depends on time or chance.
#pragma once

#include <optional>

#include "core/cover/cover_problem.h"

namespace casebound {

// With `below`, only an answer that costs less is looked for. Throws Error(bad_data) for amounts that are negative
// or too large to be counted exactly.
CoverAnswer cheapest_cover(const CoverProblem& problem, std::optional<std::int64_t> below = std::nullopt);

}  // namespace casebound
