// This domain's opinion on one group in place of another, by what packs record of both. It lowers and asks, and never
// raises. What neither side records raises no opinion; what only one side records becomes a condition to look at.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::filters_seals {

Opinion opinion_on(const Substitution& substitution, const Services& services);

}  // namespace casebound::filters_seals
