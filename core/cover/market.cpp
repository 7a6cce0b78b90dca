#include "core/cover/market.h"

#include <fmt/format.h>

namespace casebound {

std::string cents_text(std::int64_t cents) {
    const std::int64_t size = cents < 0 ? -cents : cents;
    return fmt::format("{}{}.{:02}", cents < 0 ? "-" : "", size / 100, size % 100);
}

}  // namespace casebound
