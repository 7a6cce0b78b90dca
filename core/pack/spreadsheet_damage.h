// What spreadsheets do to part numbers: 2.31E+13, 2-Sep, 1,234, #REF!, blanks that cannot be seen.
// Only recognizes; never repairs, because the original is lost.
#pragma once

#include <string>
#include <string_view>

namespace casebound {

// "" when the text looks sound; else what it looks like and what to do. Keys are looked at more closely.
std::string damage_in(std::string_view text, bool key);

// A whole number that a spreadsheet may have made of a date (serial 36526..54788: 2000 to 2049).
bool looks_like_date_serial(std::string_view text);

// Why `text` is not a number, and what to write.
std::string not_a_number(std::string_view text);

}  // namespace casebound
