// While lines are open: what would be ordered for each kind of vehicle that is still possible, and what would block it
// there. Kinds with the same needs come once. Chooses no order.
#pragma once

#include "core/buy/buying_plan.h"

namespace casebound {

bool is_open(const ListLine& line);
bool settled_need(const ListLine& line);
Blocked blocked_by(const ListLine& line, const Situation& situation);

// Adds to buying.possible and buying.blocked.
void add_possibilities(Buying& buying, Session& session, const Situation& situation, const BuyWish& wish);

}  // namespace casebound
