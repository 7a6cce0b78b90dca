// Bytes as text: RFC 4648, 4.
#pragma once

#include <string>
#include <string_view>

namespace casebound {

std::string base64_of(std::string_view bytes);

}  // namespace casebound
