// Stop findings of the fluid: no fresh fluid is ordered before what spoils it is found. Every rule is common practice,
// no source. Holds this domain's own roles only, and names no faulty part.
#pragma once

#include <vector>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

std::vector<Hold> holds(const Services& services);

}  // namespace casebound::transmission_fluids
