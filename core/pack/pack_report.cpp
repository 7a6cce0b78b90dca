#include "core/pack/pack_report.h"

#include <fmt/format.h>

#include "core/book/workbook.h"

namespace casebound {

std::string PackFault::place() const {
    std::string place = sheet.empty() ? file : fmt::format("{}:{}", file, sheet);
    if (line > 0 && cell > 0 && !sheet.empty()) return fmt::format("{}:{}", place, cell_name(line, cell));
    if (line > 0) place += fmt::format(":{}", line);
    if (line > 0 && cell > 0) place += fmt::format(":{}", cell);
    return place;
}

std::string PackFault::text() const {
    auto all = place();
    if (!column.empty()) all += fmt::format("{}{}", all.empty() ? "" : ": ", column);
    return all.empty() ? what : all + ": " + what;
}

}  // namespace casebound
