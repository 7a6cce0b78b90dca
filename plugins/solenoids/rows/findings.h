#pragma once
// What stored codes are worth as evidence: were they read before they were cleared? Draws nothing from the codes
// themselves.

#include <optional>
#include <string>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::solenoids {

// `told`: codes, or "none", were told. `before_clearing`: the answer to "codes read before clearing?"; nothing: not asked.
std::vector<std::string> code_cautions(bool told, bool none, std::optional<bool> before_clearing);
std::vector<std::string> code_cautions(const VehicleView& vehicle);

}  // namespace casebound::solenoids
