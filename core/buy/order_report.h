// What `buy` answers, as text and as JSON: the order with what it is compared to, the three ways to order while
// something is open, or why there is no order yet. Renders only.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/buy/order_text.h"
#include "core/buy/return_cost.h"
#include "core/buy/shelf_use.h"
#include "core/buy/unsure_text.h"

namespace casebound {

// What `buy` found out beside the plan.
struct BuyAnswer {
    PurchaseAnswer best;
    std::optional<Order> runner_up, fewer, sooner;
    std::optional<Order> days_said;  // when the best one's arrival is not known: the cheapest whose is
    std::optional<int> within_days;  // as asked: what promises no day was not taken
    std::optional<UnsureAdvice> unsure;
    std::vector<std::string> choices;       // where nothing that can be got at would tell
    std::vector<std::string> accepted;      // doubts taken for settled, as typed
    std::optional<ReturnCost> return_cost;  // of the order, where it is in doubt or assumed what the vehicle is
    std::vector<ShelfLeft> shelf_left;
    std::string currency;
    double tax_percent{};  // on goods and carriage; the same on every order, so it moves no comparison
    UnsureCosts unsure_costs;
    bool ready() const { return best.order.has_value() && !unsure; }
};

// Sellers and the own shelf; none: everything is on order or here.
std::vector<std::string> bought_from(const Order& order);

// Role: the items that would serve it, where nothing on file does; also of lines that only some configurations need.
std::map<std::string, std::set<std::string>> would_serve(const Buying& buying);

// Seller: the items that were not taken, for he promises no day and days were asked for.
std::map<std::string, std::vector<std::string>> not_taken(const Buying& buying, const BuyAnswer& answer);

// Is the question that stands first to be asked? What is only looked at does not hold an order up.
bool asks_first(const Buying& buying);

std::string buy_text(const Buying& buying, const BuyAnswer& answer, const Situation& situation);
Json json_of(const Buying& buying, const BuyAnswer& answer);

}  // namespace casebound
