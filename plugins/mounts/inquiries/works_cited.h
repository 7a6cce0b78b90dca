// The work that this domain's formulas are taken from.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::mounts {

inline SourceNote textbook() { return {Evidence::common_practice, "Ogata, System Dynamics, 4th ed., eq. 9-14"}; }

}  // namespace casebound::mounts
