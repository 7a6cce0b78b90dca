#pragma once
// What there is to say of an oil, a coolant, a filter or a washer offered for its place. Only ever lowers a verdict.

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

Examination examine(const Candidate& candidate, const Services& services);

}  // namespace casebound::service_fluids
