// The three ways to order while lines are open, as text and as JSON: which lines differ, what each way costs, and
// what finding out costs beside what it saves. Renders only.
#pragma once

#include <string>

#include "core/buy/order_text.h"

namespace casebound {

std::string unsure_text(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs,
                        const std::string& vehicle, double tax_percent, const std::string& currency);
Json json_of_unsure(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs, double tax_percent);

}  // namespace casebound
