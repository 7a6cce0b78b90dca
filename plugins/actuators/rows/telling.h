#pragma once
// A code as it is read off a tester: letter, digit, three hexadecimal digits, and perhaps two more behind a hyphen.
// What a code says is a list's; what ails the vehicle it never says.

#include <optional>
#include <string>
#include <string_view>

#include "core/contract/plugin.h"

namespace casebound::actuators {

struct Code {
    std::string code;          // "B1081"
    std::string failure_type;  // "71"; empty: not read
};
// In any case, with blanks or without a hyphen. Nothing when it is none.
std::optional<Code> code_of(std::string_view text);

bool is_failure_type(std::string_view text);

Telling telling(std::string_view attribute, std::string_view text, const Services& services);

}  // namespace casebound::actuators
