// From a parts list and the offers on file to what is to be bought: needs with reserve, who can serve them, and,
// while lines are open, one set of needs for each configuration that still matters. Buys nothing, renders nothing.
// Every fluid that may go in is a candidate; fluids of different specs never make up one quantity together.
#pragma once

#include "core/buy/buying_plan.h"

namespace casebound {

// For VEHICLE and jobs as told. Throws Error(usage) for a job or role that is not there.
Buying plan_buying(Session& session, const Situation& situation, const BuyWish& wish);

}  // namespace casebound
