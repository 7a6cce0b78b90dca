#pragma once
// What keeps one oil, coolant, filter or washer from standing in for another. Never says more than its rows.

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

Opinion may_stand_in(const Substitution& substitution, const Services& services);

}  // namespace casebound::service_fluids
