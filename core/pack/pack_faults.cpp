#include "core/pack/pack_faults.h"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

namespace casebound {

namespace {

PackFault placed(const TableShape& table, unsigned long line, std::size_t column, std::string what) {
    const bool row = column >= table.columns.size();
    return {table.file(), line, row ? 0 : static_cast<unsigned>(column + 1), row ? "" : table.columns[column].name,
            std::move(what)};
}

std::vector<PackFault> listed(std::vector<PackFault> faults, std::size_t count, std::string_view word) {
    std::stable_sort(faults.begin(), faults.end(), [](const PackFault& a, const PackFault& b) {
        return std::tie(a.file, a.line, a.cell) < std::tie(b.file, b.line, b.cell);
    });
    if (count > faults.size())
        faults.push_back(
            {"", 0, 0, "", fmt::format("{} more {} not listed: mend these first", count - faults.size(), word)});
    return faults;
}

}  // namespace

void FaultList::add(PackFault fault) {
    if (count_++ < most) faults_.push_back(std::move(fault));
}

void FaultList::warn(PackFault warning) {
    if (warned_++ < most) warnings_.push_back(std::move(warning));
}

void FaultList::at(const TableShape& table, unsigned long line, std::size_t column, std::string what) {
    add(placed(table, line, column, std::move(what)));
}

void FaultList::warn_at(const TableShape& table, unsigned long line, std::size_t column, std::string what) {
    warn(placed(table, line, column, std::move(what)));
}

std::vector<PackFault> FaultList::faults() const { return listed(faults_, count_, "faults"); }
std::vector<PackFault> FaultList::warnings() const { return listed(warnings_, warned_, "warnings"); }

}  // namespace casebound
