// What to order, and from whom: the cheapest order that covers every line, proven, with carriage, thresholds,
// minimum orders, kits and packs; the next best; with few sellers; in time. Whole packs, whole cents.
// Decides nothing about what fits: which items may serve a line is given. Knows no file and no vehicle.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/cover/market.h"

namespace casebound {

struct PurchaseAnswer {
    std::optional<Order> order;
    std::vector<Unmet> unmet;       // lines that no order can cover, in the order of the needs
    std::string reason;             // why there is no order; empty when there is one
    bool proven = true;             // false: an order so large that the search was stopped; it costs at most
    std::int64_t at_least_cents{};  // total_cents - at_least_cents more than it need
};

// Equal totals: fewer sellers, then names first in the alphabet; among specs of a line, the one named first. Throws Error(bad_data) for a quantity, price or
// fee that cannot be, a seller that is not described or described twice, and a line that stands twice.
PurchaseAnswer cheapest_order(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits = {});

// The cheapest order without some item of `best` from its seller.
std::optional<Order> next_best_order(const std::vector<Need>& needs, const Market& market, const Order& best,
                                     const PurchaseLimits& limits = {});

}  // namespace casebound
