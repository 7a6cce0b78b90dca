// One cell of a pack against its column: stated where it must be, of its kind, inside its bounds, one of its
// choices, undamaged. Knows nothing of other cells, rows or packs.
#pragma once

#include <optional>
#include <string_view>

#include "core/pack/pack_faults.h"
#include "core/pack/pack_shape.h"

namespace casebound {

struct CellPlace {
    const TableShape& table;
    unsigned long line;
    std::size_t column;
};

// The number of a number cell that is one; nothing otherwise.
std::optional<double> check_cell(const CellPlace& place, std::string_view text, FaultList& faults);

bool is_key(std::string_view text);

// The CHECKs of a table that SQLite judges itself.
class RowRules {
public:
    explicit RowRules(const TableShape& table);
    void check(unsigned long line, const std::vector<std::string_view>& cells, FaultList& faults);

private:
    const TableShape& table_;
    std::optional<Database> database_;
    std::optional<Statement> statement_;
};

}  // namespace casebound
