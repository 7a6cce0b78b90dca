#pragma once
// What there is to say about a solenoid, block or harness offered for a role on a vehicle: how it is sold in the
// families still possible, calibration, drive and resistance, and whether the trouble told speaks against ordering
// any. It can only lower a verdict; what is not known is no objection.

#include "core/contract/plugin.h"

namespace casebound::solenoids {

Examination examine(const Candidate& candidate, const Services& services);

}  // namespace casebound::solenoids
