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
    std::vector<Axle> loose_bars;   // where the bar moves in its bush
    bool looked_for{};              // a clunk was told, or a link was looked at
    SourceNote source;              // the weakest of what was told
};
ToldClunk clunk_told(const VehicleView* vehicle);

Findings findings(const Services& services);

// Once a clunk is told, or a link was looked at, none is ordered but where a link of its axle has play or a torn boot;
// none at all while a ball joint that holds a wheel has play, and no bush that the bar does not move in: common
// practice, no source.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::stabilisers
