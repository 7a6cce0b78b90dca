// What must agree within a pack's fluid tables beyond what their SQL can say. Every fault with its row, its column
// and what to do; never a judgement on a product.
#pragma once

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

std::vector<RowFault> check(const Facts& facts, std::string_view pack);

}  // namespace casebound::transmission_fluids
