// The work that this domain's formulas are taken from.
#pragma once

#include "core/contract/facts.h"

namespace casebound::solenoids {

inline SourceNote copper() { return {Evidence::standard, "IEC 60028 (1925), 0.00393 per K at 20 degC"}; }

}  // namespace casebound::solenoids
