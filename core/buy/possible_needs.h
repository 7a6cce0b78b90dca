// While lines are open: what would be ordered for each kind of vehicle that is still possible, and what would block it
// there. Kinds with the same needs come once. Chooses no order.
#pragma once

#include "core/buy/buying_plan.h"

#include <vector>

namespace casebound {

bool is_open(const ListLine& line);
bool settled_need(const ListLine& line);
// It waits for doubts alone, each of something that nobody can get at: what may be true of it stays open for good.
bool waits_out_of_reach(const ListLine& line, const Situation& situation);
Blocked blocked_by(const ListLine& line, const Situation& situation);

// What settles the open lines, once, with its title and the minutes it takes.
void add_deciding(Buying& buying, const Situation& situation, const std::string& attribute);

// Adds to buying.possible and buying.blocked. Of each of the possible, in their order: what may stand in with other things
// beside it.
std::vector<std::vector<WithOthers>> add_possibilities(Buying& buying, Session& session, const Situation& situation,
                                                       const BuyWish& wish);

}  // namespace casebound
