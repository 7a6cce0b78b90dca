#pragma once
// What there is to say of an actuator offered for a place: what was counted and seen against what is recorded, what is
// taught afterwards, what lies beside an airbag. Only ever lowers a verdict.

#include "core/contract/plugin.h"

namespace casebound::actuators {

Examination examine(const Candidate& candidate, const Services& services);

}  // namespace casebound::actuators
