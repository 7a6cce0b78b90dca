#pragma once
// A domain's say on one mount in the place of another: position and kind decide, the bench compares the rest. It
// vetoes, sets conditions or stays silent; it never makes a substitution better.

#include "core/contract/plugin.h"

namespace casebound::mounts {

Opinion may_stand_in(const Substitution& substitution, const Services& services);

}  // namespace casebound::mounts
