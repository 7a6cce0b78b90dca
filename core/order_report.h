// An order, and the three ways to order while something is open, as text and as JSON. Renders only.
#pragma once

#include <string>

#include "buying.h"
#include "json_of.h"

namespace casebound {

// What `buy` found out beside the plan.
struct BuyAnswer {
    PurchaseAnswer best;
    std::optional<Order> runner_up, fewer, sooner;
    std::optional<UnsureAdvice> unsure;
    std::string currency;
    bool ready() const { return best.order.has_value() && !unsure; }
};

std::string money_text(std::int64_t cents, const std::string& currency);  // "65.00 cu", "-3.00 cu"
std::string buy_text(const Buying& buying, const BuyAnswer& answer, const Situation& situation);
Json json_of(const Order& order);
Json json_of(const Buying& buying, const BuyAnswer& answer);

}  // namespace casebound
