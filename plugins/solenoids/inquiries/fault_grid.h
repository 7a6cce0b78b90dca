#pragma once
// The apply table of a family and the gears every single fault gives, as one grid. It marks what agrees with the
// gears told; it concludes nothing.

#include <vector>

#include "core/contract/plugin.h"
#include "rows/family.h"
#include "science/fault_patterns.h"

namespace casebound::solenoids {

Grid fault_grid(const GearboxFamily& family, const GearboxState& gearbox, const std::vector<Observation>& observations);

// "before fail-safe", "in fail-safe", "before or in fail-safe, not told"
const char* phase_words(Phase phase);

// Faults that agree with every observation, in words; those that cannot be told are left out.
std::vector<std::string> agreeing_faults(const GearboxFamily& family, const std::vector<Observation>& observations);
std::vector<std::string> open_faults(const GearboxFamily& family, const std::vector<Observation>& observations);

}  // namespace casebound::solenoids
