// What is left to do where nothing that can be got at would tell the parts apart: buy both and send one back, take it
// apart, or what to ask at the counter, word for word; each with its price. Chooses nothing.
#pragma once

#include <string>
#include <vector>

#include "core/buy/buying.h"

namespace casebound {

// Empty where something can still be found out, or nothing was out of reach.
std::vector<std::string> choices_left(const Buying& buying, const std::optional<UnsureAdvice>& advice,
                                      const Situation& situation, const std::string& currency);

}  // namespace casebound
