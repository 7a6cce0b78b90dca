// How a deal may turn out: every figure drawn from its range, thousands of times, from a fixed seed. What is done
// at each fork is decided beforehand on expected figures: nobody knows the draw.
#pragma once

#include <vector>

#include "core/deal/economics.h"

namespace casebound {

struct DealDraws {
    std::vector<Spread> spreads;         // by path, without walking away
    double chance_low{}, chance_high{};  // 5 % and 95 % points of the chance that the cheap fix works
};

DealDraws draw_deal(const Deal& deal, const std::vector<Path>& paths, const DrawPlan& plan);

}  // namespace casebound
