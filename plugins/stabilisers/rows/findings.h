#pragma once
// What was told of a clunk, in the terms of science/clunk.h; which of it speaks of trouble; which orders wait.

#include <string>
#include <vector>

#include "core/contract/plugin.h"
#include "science/clunk.h"
#include "science/link.h"

namespace casebound::stabilisers {

struct ToldClunk {
    Clunk clunk;
    std::vector<Place> play, torn;  // the places told
    SourceNote source;              // the weakest of what was told
};
ToldClunk clunk_told(const VehicleView* vehicle);

Findings findings(const Services& services);

// No link is ordered while what was told points elsewhere and no link has play or a torn boot: common practice, no
// source. None at all while a ball joint that holds a wheel has play.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::stabilisers
