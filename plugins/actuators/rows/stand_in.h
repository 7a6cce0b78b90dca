#pragma once
// What keeps one actuator from standing in for another. Never says more than its rows; where the maker names one part
// and no other, nothing stands in.

#include "core/contract/plugin.h"

namespace casebound::actuators {

Opinion may_stand_in(const Substitution& substitution, const Services& services);

}  // namespace casebound::actuators
