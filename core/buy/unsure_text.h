// The three ways to order while lines are open, as text and as JSON: which lines differ, what each way costs, and
// what finding out costs beside what it saves. Renders only.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/buy/order_text.h"

namespace casebound {

// Seller: items that may turn out not to be needed, and of which nobody knows whether they may go back.
std::map<std::string, std::vector<std::string>> return_not_said(const Buying& buying);

// "3 x FL1", "3 packs of 2 x FL1".
std::string not_needed_text(const NotNeeded& one);

std::string unsure_text(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs,
                        const std::string& vehicle, double tax_percent, const std::string& currency);
Json json_of_unsure(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs, double tax_percent);

}  // namespace casebound
