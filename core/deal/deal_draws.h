// How a deal may turn out: every figure drawn from its range, thousands of times, from a fixed seed. What is done
// at each fork is decided beforehand on expected figures: nobody knows the draw.
#pragma once

#include <cstdint>
#include <vector>

#include "core/deal/deal_paths.h"

namespace casebound {

struct Spread {
    Path path{};
    double mean{}, standard_error{}, low_5{}, high_95{};  // of the whole result
    double chance_of_loss{};
    double worst{};  // every figure at its bad end
};

struct DrawPlan {
    std::uint64_t seed = 7;
    int draws = 20'000;
};

struct DealDraws {
    std::vector<Spread> spreads;         // by path, without walking away
    double chance_low{}, chance_high{};  // 5 % and 95 % points of the chance that the cheap fix works
};

DealDraws draw_deal(const Deal& deal, const std::vector<Path>& paths, const DrawPlan& plan);

}  // namespace casebound
