#pragma once
// What there is to say about a mount offered for a role on a vehicle: objections as conditions over what is still
// open, cautions, fasteners that are new each time, the other mount of a required pair. It can only lower a
// verdict; what is not known is no objection.

#include "core/contract/plugin.h"

namespace casebound::mounts {

Examination examine(const Candidate& candidate, const Services& services);

}  // namespace casebound::mounts
