// This domain's veto and conditions on one fluid in the place of another. Kinds of gearbox and bases are never
// crossed; a difference that cannot be ruled out lowers the verdict with its reason; a claim never raises it, and
// what is not recorded never makes it firm. It never proposes that two fluids are equal: figures that agree permit
// nothing.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

Opinion may_stand_in(const Substitution& swap, const Services& services);

}  // namespace casebound::transmission_fluids
