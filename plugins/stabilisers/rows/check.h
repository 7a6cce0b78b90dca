#pragma once
// The rules that rows about links must keep among each other. Reports every fault with its row; changes nothing.

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::stabilisers {

std::vector<RowFault> check(const Facts& facts, std::string_view pack);

}  // namespace casebound::stabilisers
