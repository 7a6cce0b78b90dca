// What stands in a request's target and in a form's body, decoded: application/x-www-form-urlencoded.
// Text that is not well-formed UTF-8, or holds control characters, is no text: nothing comes back.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/page/page.h"

namespace casebound {

inline constexpr std::size_t most_fields = 400;

struct Target {
    std::string path;
    Fields query;
};

// "/vehicle/a%20b?x=1". Only the origin form of RFC 9112, 3.2.1; no `//`, which could name another host.
std::optional<Target> target_of(std::string_view target);

// "a=1&b=two+words". Control characters other than tab and line ends are refused.
std::optional<Fields> form_of(std::string_view body);

// Well-formed UTF-8 without control characters other than tab and line ends, where those may stand.
bool is_form_text(const std::string& text, bool lines);

// The first cookie of that name in a Cookie field; "" when there is none.
std::string_view cookie_of(std::string_view field, std::string_view name);

}  // namespace casebound
