#pragma once
// A domain's say on one solenoid in the place of another. The same function is not the same part: drive, resistance,
// body and grade are compared as recorded. It vetoes, sets conditions or stays silent; it never makes a
// substitution better.

#include "core/contract/plugin.h"

namespace casebound::solenoids {

Opinion may_stand_in(const Substitution& substitution, const Services& services);

}  // namespace casebound::solenoids
