// What sending an order back would cost: said of one that is released although something told of the vehicle is in
// doubt or is nobody's own look. Chooses nothing.
#pragma once

#include <string>
#include <vector>

#include "core/buy/buying.h"
#include "core/say/json_of.h"

namespace casebound {

struct ReturnCost {
    std::vector<std::string> in_doubt;  // each with what settles it; the order is right whichever is true
    std::int64_t lost_cents{};          // kept by the sellers, carriage both ways, and what may not go back
    std::int64_t total_cents{};         // of the order
    std::vector<std::string> cannot_go_back, not_said;  // items; not said counts as cannot
};

// Nothing where nothing is in doubt and nothing is assumed.
std::optional<ReturnCost> return_cost(const Order& order, const Buying& buying, const Situation& situation,
                                      bool cores_come_back);

// "9.00 cu of 30.00 cu are lost; H-2216 cannot go back"
std::string lost_words(const ReturnCost& cost, const std::string& currency);
std::string return_cost_text(const ReturnCost& cost, const std::string& currency);
Json json_of(const ReturnCost& cost);

}  // namespace casebound
