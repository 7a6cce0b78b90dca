// Fluids of different specs never make up one line together: the ways to choose one spec for every line. Each way is a
// set of needs of its own, to be ordered for as it stands. Chooses nothing by price.
#pragma once

#include <string>
#include <vector>

#include "core/cover/market.h"

namespace casebound {

struct SpecWays {
    std::vector<std::vector<Need>> ways;  // at least one; specs named first in a need come first
    bool all = true;                      // false: there are more ways than were asked for
};

// Specs that nobody in the market offers are left out where another is offered.
SpecWays spec_ways(const std::vector<Need>& needs, const Market& market, std::size_t most = 256);

}  // namespace casebound
