// The figures of `decide` as a person types them. Decides nothing about them.
// Throws Error 64 that names the key and shows how it is written.
#pragma once

#include <string_view>

#include "core/deal/deal.h"

namespace casebound {

double amount_from(std::string_view key, std::string_view text);
double from_zero(std::string_view key, std::string_view text);   // one amount, or hours, from 0 up
double share_from(std::string_view key, std::string_view text);  // of 1; "60%" or "0.6": 60 is taken as neither

// LIKELY, or LOW/LIKELY/HIGH.
Estimate typed_amount(std::string_view key, std::string_view text);
Estimate typed_share(std::string_view key, std::string_view text);

}  // namespace casebound
