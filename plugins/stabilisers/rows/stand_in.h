#pragma once
// What keeps one link or bush from standing in for another, and what else it would need. Never says more than its rows.

#include "core/contract/plugin.h"

namespace casebound::stabilisers {

Opinion may_stand_in(const Substitution& substitution, const Services& services);

}  // namespace casebound::stabilisers
