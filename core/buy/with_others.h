// A stand-in that needs other things fitted with it is ordered with them, or not at all. Chooses, of all ways to serve the
// lines, the one whose cheapest order costs least; outright ways win a tie.
#pragma once

#include <vector>

#include "core/buy/needs.h"
#include "core/cover/purchase.h"

namespace casebound {

// The needs with the ways of `taken` in them: the place takes that stand-in, and each thing with it is needed too.
std::vector<Need> with_ways(std::vector<Need> needs, const std::vector<const WithOthers*>& taken);

// Which of `ways`, at most one a line, belong to the cheapest order. Empty: none.
std::vector<const WithOthers*> cheapest_ways(const std::vector<Need>& needs, const std::vector<WithOthers>& ways,
                                             const Market& market, const PurchaseLimits& limits);

}  // namespace casebound
