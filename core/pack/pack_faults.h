// Collects the faults of a pack: the first 1,000 are kept, the rest counted. Never decides what is a fault.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/pack/pack_report.h"
#include "core/pack/pack_shape.h"

namespace casebound {

class FaultList {
public:
    static constexpr std::size_t most = 1000;

    void add(PackFault fault);
    void warn(PackFault warning);
    // At a cell; column == columns.size() is the row as a whole.
    void at(const TableShape& table, unsigned long line, std::size_t column, std::string what);
    void warn_at(const TableShape& table, unsigned long line, std::size_t column, std::string what);

    bool empty() const { return count_ == 0; }
    std::size_t count() const { return count_; }
    // When no more are kept: counts one and says so, so that its text need not be made.
    bool only_counted() { return count_ >= most && ++count_ > 0; }

    // Sorted by file, line, cell, with a closing line when some were left out.
    std::vector<PackFault> faults() const;
    std::vector<PackFault> warnings() const;

private:
    std::vector<PackFault> faults_, warnings_;
    std::size_t count_ = 0, warned_ = 0;
};

}  // namespace casebound
