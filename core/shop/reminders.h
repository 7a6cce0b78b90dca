// What the law of the set jurisdiction asks of a sale and of waste: reminders, never advice, and never a promise.
// Knows US federal rules only; for any other it says to ask locally.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// 49 CFR 580.17(a)(3), (4): model year 2010 and older, transferred at least 10 years after 1 January of that year;
// 2011 and newer, at least 20 years. Requires: is_date(date).
bool odometer_statement_exempt(int model_year, std::string_view date);

// 49 CFR 580.17(a)(1): gross vehicle weight rating of more than 16,000 pounds, each 0.45359237 kg.
bool odometer_statement_exempt_by_weight(double gross_weight_kg);

struct SaleFacts {
    std::optional<int> model_year{};
    std::optional<double> gross_weight_kg{};  // gross vehicle weight rating
    int sold_12_months{};                     // vehicles sold in the 12 months before today, without this one
    int sold_or_offered_12_months{};          // the same with those put up for sale
};

std::vector<std::string> reminders(std::string_view jurisdiction, const SaleFacts& facts, std::string_view date);

}  // namespace casebound
