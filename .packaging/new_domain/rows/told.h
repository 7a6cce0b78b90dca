// What was told of the vehicle, as far as this domain is concerned.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::new_domain {

Findings findings(const Services& services);

// A part that is ordered for a bent bracket is ordered twice.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::new_domain
