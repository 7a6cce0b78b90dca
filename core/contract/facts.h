// Rows of packs, and where each comes from: what a domain reads. Part of the contract with plugins. Never writes, and
// never reads a number or a source out of a sentence.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace casebound {

// Strongest first. An answer carries the weakest evidence on the path that decided it.
enum class Evidence : std::uint8_t { law, standard, maker, measured, common_practice, memory, invented };

constexpr Evidence weaker(Evidence a, Evidence b) { return a < b ? b : a; }

// One row of a pack, named so that a person can open it.
struct Origin {
    std::string pack;      // "demo-fleet"; empty: no row, but a told fact or a computation
    std::string file;      // "applications.csv"; of a workbook "fleet.xlsx:applications"
    std::uint32_t line{};  // line in the file, the header is line 1
    std::string source;    // title and edition of the work; "common practice, no source"
    Evidence evidence = Evidence::invented;
};

// What a statement rests on. `row` is the row that makes it, where one does.
struct SourceNote {
    Evidence evidence = Evidence::common_practice;
    std::string title = "common practice, no source";
    Origin row{};
};

// The table a row stands in, by its own name.
inline std::string table_of(const Origin& origin) {
    const auto sheet = origin.file.rfind(':');
    return sheet == std::string::npos ? origin.file.substr(0, origin.file.rfind(".csv"))
                                      : origin.file.substr(sheet + 1);
}

// "demo-fleet, applications.csv:41"; of a workbook "fleet.xlsx, applications, row 41".
inline std::string cited(const Origin& origin) {
    const auto line = std::to_string(origin.line);
    const auto sheet = origin.file.rfind(':');
    return sheet == std::string::npos ? origin.pack + ", " + origin.file + ":" + line
                                      : origin.file.substr(0, sheet) + ", " + table_of(origin) + ", row " + line;
}

inline SourceNote row_source(const Origin& origin) { return {origin.evidence, cited(origin), origin}; }

inline SourceNote weaker(SourceNote a, SourceNote b) { return b.evidence > a.evidence ? std::move(b) : std::move(a); }

// One cell. Its number is read once; a text that is no number has none.
struct Cell {
    Cell(std::string column_, std::string text_) : column(std::move(column_)), text(std::move(text_)) {
        if (text.empty()) return;
        char* end = nullptr;
        const double value = std::strtod(text.c_str(), &end);
        if (*end == '\0') number = value;
    }
    Cell(std::string column_, std::string text_, double value)
        : column(std::move(column_)), text(std::move(text_)), number(value) {}
    std::string column, text;
    std::optional<double> number;
};

// A row of a table, cells in the table's own order. An empty cell is "not stated". Asking for a column that the table
// does not have throws std::invalid_argument with table and column: a misspelt name is never "not stated".
struct Row {
    Origin origin;
    std::vector<Cell> cells;

    bool has(std::string_view column) const { return find(column) != nullptr; }
    std::string_view text(std::string_view column) const { return cell(column).text; }
    std::optional<double> number(std::string_view column) const { return cell(column).number; }
    bool stated(std::string_view column) const { return !cell(column).text.empty(); }
    bool yes(std::string_view column) const { return cell(column).text == "yes"; }
    // For a cell that must be stated. Throws std::domain_error with file, line and column where it is empty.
    std::string_view need(std::string_view column) const;
    double need_number(std::string_view column) const;
    std::string table() const { return table_of(origin); }

private:
    const Cell* find(std::string_view column) const {
        const auto at = std::find_if(cells.begin(), cells.end(), [&](const Cell& one) { return one.column == column; });
        return at == cells.end() ? nullptr : &*at;
    }
    const Cell& cell(std::string_view column) const;
};

inline SourceNote row_source(const Row& row) { return row_source(row.origin); }

// Read access to the catalog: the domain's own tables (`<domain>_...`), those of another that it names in
// Domain::reads(), and core's pack tables (`items`, `groups`, `group_members`, `applications`, `lines`, ...; see
// schema/core.sql).
class Facts {
public:
    virtual ~Facts() = default;
    // Rows whose `column` equals `value`, in pack and file order; every row when `column` is empty.
    // Kept as long as the facts are. Throws std::invalid_argument for a table that the domain may not see.
    virtual const std::vector<Row>& rows(std::string_view table, std::string_view column = {},
                                         std::string_view value = {}) const = 0;
};

// The row of `table` for a group, or for the first group that an item is in. Nothing when there is none.
inline const Row* row_of_group(const Facts& facts, std::string_view table, std::string_view group_or_item) {
    if (group_or_item.empty()) return nullptr;
    if (const auto& rows = facts.rows(table, "group_key", group_or_item); !rows.empty()) return &rows.front();
    for (const auto& member : facts.rows("group_members", "item", group_or_item))
        if (const auto& rows = facts.rows(table, "group_key", member.text("group_key")); !rows.empty())
            return &rows.front();
    return nullptr;
}

// ------------------------------------------------------------------ out of line

inline const Cell& Row::cell(std::string_view column) const {
    if (const auto* found = find(column)) return *found;
    std::string has;
    for (const auto& one : cells) has.append(has.empty() ? "" : ", ").append(one.column);
    throw std::invalid_argument(table() + " has no column `" + std::string(column) + "`: it has " + has);
}

inline std::string_view Row::need(std::string_view column) const {
    if (stated(column)) return text(column);
    throw std::domain_error(cited(origin) + ": " + std::string(column) + " is not stated: fill it in");
}

inline double Row::need_number(std::string_view column) const {
    const auto words = need(column);
    if (const auto value = number(column)) return *value;
    throw std::domain_error(cited(origin) + ": " + std::string(column) + " is no number: " + std::string(words));
}

}  // namespace casebound
