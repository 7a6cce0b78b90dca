// What is on order or here for a line that takes another part now. Knows no offer.
#pragma once

#include <string>
#include <vector>

#include "core/buy/buying_plan.h"

namespace casebound {

// "CHECK: H-KIT-1 (f38), ordered 2026-11-25 for pan filter, serves no line of this order: stop it or send it back."
std::vector<std::string> useless_words(const Buying& buying, const Catalog& catalog);

}  // namespace casebound
