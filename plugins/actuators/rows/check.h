#pragma once
// The rules that rows about actuators must keep among each other. Reports every fault with its row; changes nothing.

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::actuators {

std::vector<RowFault> check(const Facts& facts, std::string_view pack);

}  // namespace casebound::actuators
