#include "core/pack/pack_report.h"

#include <fmt/format.h>

namespace casebound {

std::string PackFault::text() const {
    std::string place = file;
    if (line > 0) place += fmt::format(":{}", line);
    if (line > 0 && cell > 0) place += fmt::format(":{}", cell);
    if (!column.empty()) place += fmt::format("{}{}", place.empty() ? "" : ": ", column);
    return place.empty() ? what : place + ": " + what;
}

}  // namespace casebound
