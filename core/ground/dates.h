// Dates as ISO 8601 text. The clock is read here and nowhere else; CASEBOUND_TODAY replaces it in tests.
#pragma once

#include <string>
#include <string_view>

namespace casebound {

std::string today();                    // local date, YYYY-MM-DD; Error 64 when CASEBOUND_TODAY is not a date
std::string time_stamp();               // for file names: 20261125T140507, midnight when CASEBOUND_TODAY is set
bool is_date(std::string_view text);    // YYYY-MM-DD and in the calendar
int days_until(std::string_view date);  // from today; below 0 for a day that has passed. Requires: is_date(date)

}  // namespace casebound
