// What the person's own pack holds, statement by statement, as its files say it: what stands, what was withdrawn, and
// what a correction replaced. Reads only; changed by OwnPackChange.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/pack/pack_shape.h"
#include "core/session/session.h"

namespace casebound {

inline constexpr const char* own_history_file = "history.jsonl";  // one change a line, in JSON

using OwnCells = std::vector<std::pair<std::string, std::string>>;  // column and text

struct OwnRow {
    std::string table;
    unsigned long line{};
    OwnCells cells{};  // every column of the table
    std::string text(std::string_view column) const;
};

// A row that no longer counts, or no longer reads so.
struct OwnChange {
    std::string date, what, table, why;  // what: withdrawn, reworded
    OwnCells row;
};

// The rows that one source says.
struct OwnStatement {
    std::size_t number{};  // the place of its source in the pack: it stays
    std::string source, kind, title, edition, note;
    std::vector<OwnRow> rows{};
    std::vector<OwnChange> changes{};
    const OwnRow* main()
        const;  // what it is about, which is not an item or a group it brought; null when there is none
    const OwnRow* brought() const;  // the item that it brought; null when none
    bool stands() const;
};

// The rows of one file. Throws Error(bad_data) when it cannot be read as the table.
std::vector<OwnRow> own_rows_in(const std::string& path, const TableShape& table);

// In the order of the sources; none when there is no such pack.
std::vector<OwnStatement> own_statements(Session& session, const std::string& folder);

// Throws Error(usage) for a number that no statement has.
OwnStatement own_statement(Session& session, const std::string& folder, const std::string& number);

// "pan-filter fits own-PF-33; condition pan_depth=38mm": the cells that are stated.
std::string row_words(const OwnCells& cells);                         // for JSON: columns and cells as they stand
std::string cell_of(const OwnCells& cells, std::string_view column);  // empty when there is none

}  // namespace casebound
