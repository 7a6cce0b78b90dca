#pragma once
// Which of what was told speaks of trouble, and which orders wait: no fresh oil onto coolant, no coolant into a leak.

#include <vector>

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

Findings findings(const Services& services);

// Common practice, no source. What a seller says holds an order and lifts none.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::service_fluids
