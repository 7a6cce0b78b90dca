#pragma once
// The rules that rows about oil, coolant, filters and plugs must keep. Reports every fault with its row; changes nothing.

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

std::vector<RowFault> check(const Facts& facts, std::string_view pack);

}  // namespace casebound::service_fluids
