// Two editions of a pack, row by row: what came, what went, and which cells read otherwise. An edition is a folder, or
// what the catalog holds of a pack. Numbers are compared as numbers. Reads only; judges nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/pack/pack_shape.h"

namespace casebound {

struct EditionRow {
    unsigned long line{};
    std::vector<std::string> cells;  // one a column
};

struct EditionTable {
    const TableShape* shape = nullptr;
    std::vector<EditionRow> rows;
};

struct PackEdition {
    std::string name;
    std::vector<EditionTable> tables;  // those with rows, in the order of the shape
    const EditionTable* find(std::string_view table) const;
};

// Of a folder's CSV files or a workbook's sheets; what cannot be read as its table throws Error(bad_data). The shape must
// outlive it. Tables without rows are left out, unless they are to be kept.
enum class EmptyTables : std::uint8_t { left_out, kept };
PackEdition edition_in(const std::string& pack, const PackShape& shape, EmptyTables empty = EmptyTables::left_out);
// What the catalog holds of a pack; empty when it is not loaded.
PackEdition edition_loaded(const Database& catalog, std::string_view pack, const PackShape& shape);

struct ChangedCell {
    std::size_t column{};
    std::string before, after;
};

struct ChangedRow {
    const EditionRow* before = nullptr;
    const EditionRow* after = nullptr;
    std::vector<ChangedCell> cells;
};

struct TableChanges {
    const TableShape* shape = nullptr;
    std::vector<const EditionRow*> went, came;
    std::vector<ChangedRow> changed;
};

// Tables that differ. Both editions must outlive it.
std::vector<TableChanges> changes_between(const PackEdition& before, const PackEdition& after);

}  // namespace casebound
