// What a complete order really costs: carriage, thresholds and minimum orders, with the cheapest packs added to
// reach them where that pays.
#pragma once

#include <optional>
#include <vector>

#include "core/cover/cover_state.h"

namespace casebound {

struct SettledCover {
    std::int64_t cost{};       // fine
    std::vector<int> padding;  // by offer
};

// Nothing when it cannot be done for less than `below` (fine): packs short of a minimum that the seller cannot fill.
std::optional<SettledCover> settled(const CoverProblem& problem, const FineCosts& costs, const std::vector<int>& packs,
                                    std::int64_t below);

// Fine cost of carriage and padding if packs could be cut: never more than settled() finds.
std::int64_t least_extra(const CoverSeller& seller, std::int64_t carriage, std::int64_t cent, std::int64_t goods_cents);

}  // namespace casebound
