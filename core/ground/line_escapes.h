// Any text as one line of well-formed UTF-8 and back: a backslash is doubled, line ends and tabs become \n, \r, \t,
// other control characters, marks of direction and bytes that are no UTF-8 become \xNN. Loses nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace casebound {

std::string on_one_line(std::string_view text);

// What a spreadsheet would take for a formula begins with \xNN; numbers stay numbers. Read back by the same.
std::string on_one_line_for_spreadsheets(std::string_view text);
std::optional<std::string> from_one_line(
    std::string_view line);  // nothing when a backslash is followed by something else

}  // namespace casebound
