// What this domain has to say about a fluid for a place on a vehicle: objections as conditions, cautions, and what to
// find out first. It can only lower a verdict, and what is not recorded raises no objection.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

Examination examine(const Candidate& candidate, const Services& services);

}  // namespace casebound::transmission_fluids
