#pragma once
// The rules that rows about solenoids must keep among each other. Reports every fault with its row and column; never
// changes or guesses a value.

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::solenoids {

std::vector<RowFault> check(const Facts& facts, std::string_view pack);

}  // namespace casebound::solenoids
