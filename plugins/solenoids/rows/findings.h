#pragma once
// Which of the findings told speak of trouble, what stored codes are worth as evidence, and what may have set one beside
// a solenoid. Draws nothing from the codes themselves.

#include <optional>
#include <string>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::solenoids {

Findings findings(const Services& services);

// `told`: codes, or "none", were told. `before_clearing`: the answer to "codes read before clearing?"; nothing: not
// asked.
std::vector<std::string> code_cautions(bool told, bool none, std::optional<bool> before_clearing);

}  // namespace casebound::solenoids
