// The consistency of this domain's rows in a pack: what the SQL cannot hold. Every fault, with its row, column and what
// to do. Numbers known only from memory never make a fault.
#pragma once

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::filters_seals {

std::vector<Fault> check_pack(const Facts& facts, std::string_view pack);

}  // namespace casebound::filters_seals
