#include "core/pack/pack_edition.h"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/book/workbook.h"
#include "core/ground/error.h"
#include "core/ground/units.h"
#include "core/pack/csv_rows.h"
#include "core/pack/loaded_packs.h"
#include "core/pack/pack_files.h"
#include "core/pack/sheet_cells.h"

namespace casebound {

namespace {

class FolderTable final : public CsvEvents {
public:
    FolderTable(const std::string& path, const TableShape& shape, EditionTable& into)
        : path_(path), shape_(shape), into_(into) {
        read_csv(path, *this);
    }
    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        if (!whole || cells.size() != shape_.columns.size())
            throw Error(Exit::bad_data, fmt::format("{}:{}: not a row of {}: casebound pack check {}", path_, line,
                                                    shape_.name, std::filesystem::path(path_).parent_path().string()));
        if (std::exchange(header_, true)) into_.rows.push_back({line, {cells.begin(), cells.end()}});
    }
    void fault(unsigned long line, unsigned, const std::string& what) override {
        throw Error(Exit::bad_data, fmt::format("{}:{}: {}", path_, line, what));
    }

private:
    const std::string& path_;
    const TableShape& shape_;
    EditionTable& into_;
    bool header_ = false;
};

class RowsOfSheet final : public BookRows {
public:
    RowsOfSheet(const TableShape& shape, std::string place) : shape_(shape), place_(std::move(place)) {}
    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        std::vector<std::string> texts;
        for (const auto& cell : cells) texts.emplace_back(cell.text);
        if (!std::exchange(header_, true)) {
            if (texts != shape_.column_names()) refuse(line);
            return true;
        }
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (i >= shape_.columns.size()) refuse(line);
            if (const auto what = wrong_in_sheet(shape_.columns[i], cells[i]); !what.empty())
                throw Error(Exit::bad_data,
                            fmt::format("{}:{}: {}: {}", place_, cell_name(line, static_cast<unsigned>(i + 1)),
                                        shape_.columns[i].name, what));
        }
        texts.resize(shape_.columns.size());
        rows.push_back({line, std::move(texts)});
        return true;
    }
    void merged(const MergedCells& cells) override {
        throw Error(Exit::bad_data, fmt::format("{}:{}", place_, cells.what_to_do()));
    }
    std::vector<EditionRow> rows;

private:
    [[noreturn]] void refuse(unsigned long line) const {
        throw Error(Exit::bad_data,
                    fmt::format("{}:{}: not a row of {}: casebound pack check says more", place_, line, shape_.name));
    }

    const TableShape& shape_;
    std::string place_;
    bool header_ = false;
};

std::vector<EditionRow> rows_of_sheet(const Workbook& book, std::size_t sheet, const TableShape& shape,
                                      const std::string& path) {
    RowsOfSheet rows(shape, fmt::format("{}:{}", path, shape.name));
    book.read(sheet, rows);
    return std::move(rows.rows);
}

// 10 and 10.0 are one number.
std::string as_compared(const Column& column, const std::string& cell) {
    double value = 0;
    if (!column.is_number() || std::from_chars(cell.data(), cell.data() + cell.size(), value).ec != std::errc{})
        return cell;
    return plain_number(value, 12);
}

// What makes a row the same one in another edition: its key, else its names and where it holds.
std::vector<std::size_t> identity(const TableShape& shape) {
    std::vector<std::size_t> columns;
    for (std::size_t i = 0; i < shape.columns.size(); ++i)
        if (shape.columns[i].unique) return {i};
    if (!shape.unique_together.empty()) return shape.unique_together.front();
    for (std::size_t i = 0; i < shape.columns.size(); ++i) {
        const auto& column = shape.columns[i];
        const bool names = column.kind == CellKind::key || column.kind == CellKind::word ||
                           column.kind == CellKind::condition || column.refers;
        if (names && column.name != "source") columns.push_back(i);
    }
    return columns;
}

std::string joined(const TableShape& shape, const EditionRow& row, const std::vector<std::size_t>& columns) {
    std::string text;
    for (const auto at : columns) text += as_compared(shape.columns[at], row.cells[at]) + '\x1f';
    return text;
}

std::vector<std::size_t> every(const TableShape& shape) {
    std::vector<std::size_t> columns(shape.columns.size());
    for (std::size_t i = 0; i < columns.size(); ++i) columns[i] = i;
    return columns;
}

using ByText = std::map<std::string, std::vector<const EditionRow*>>;

ByText by_text(const TableShape& shape, const std::vector<const EditionRow*>& rows,
               const std::vector<std::size_t>& columns) {
    ByText all;
    for (const auto* row : rows) all[joined(shape, *row, columns)].push_back(row);
    return all;
}

// Pairs rows that agree in `columns`; what is left over stays, in the order of the files.
template <class Take> void pair_up(const TableShape& shape, std::vector<const EditionRow*>& went,
                                   std::vector<const EditionRow*>& came, const std::vector<std::size_t>& columns,
                                   Take take) {
    auto old = by_text(shape, went, columns);
    std::vector<const EditionRow*> left;
    for (const auto* row : came) {
        auto found = old.find(joined(shape, *row, columns));
        if (found == old.end() || found->second.empty()) {
            left.push_back(row);
            continue;
        }
        take(found->second.front(), row);
        found->second.erase(found->second.begin());
    }
    came = std::move(left);
    went.clear();
    for (auto& [text, rows] : old) went.insert(went.end(), rows.begin(), rows.end());
    std::sort(went.begin(), went.end(), [](const auto* a, const auto* b) { return a->line < b->line; });
}

std::vector<ChangedCell> differing(const TableShape& shape, const EditionRow& before, const EditionRow& after) {
    std::vector<ChangedCell> cells;
    for (std::size_t i = 0; i < shape.columns.size(); ++i)
        if (as_compared(shape.columns[i], before.cells[i]) != as_compared(shape.columns[i], after.cells[i]))
            cells.push_back({i, before.cells[i], after.cells[i]});
    return cells;
}

std::vector<const EditionRow*> rows_of(const EditionTable* table) {
    std::vector<const EditionRow*> rows;
    if (table)
        for (const auto& row : table->rows) rows.push_back(&row);
    return rows;
}

TableChanges changes_of(const TableShape& shape, const EditionTable* before, const EditionTable* after) {
    TableChanges changes{&shape, rows_of(before), rows_of(after), {}};
    pair_up(shape, changes.went, changes.came, every(shape), [](auto*, auto*) {});
    pair_up(shape, changes.went, changes.came, identity(shape), [&](const EditionRow* old, const EditionRow* now) {
        changes.changed.push_back({old, now, differing(shape, *old, *now)});
    });
    return changes;
}

}  // namespace

const EditionTable* PackEdition::find(std::string_view table) const {
    for (const auto& one : tables)
        if (one.shape->name == table) return &one;
    return nullptr;
}

PackEdition edition_in(const std::string& pack, const PackShape& shape, EmptyTables empty) {
    PackEdition edition{std::filesystem::path(pack).filename().string(), {}};
    std::optional<Workbook> book;
    if (names_workbook(pack) && !std::filesystem::is_directory(pack)) book.emplace(pack);
    const auto names = book ? book->sheets() : csv_files_in(pack);
    for (const auto& table : shape.tables()) {
        const auto found = std::find(names.begin(), names.end(), book ? table.name : table.file());
        if (found == names.end()) continue;
        EditionTable one{&table, {}};
        if (book) one.rows = rows_of_sheet(*book, static_cast<std::size_t>(found - names.begin()), table, pack);
        else FolderTable(pack + "/" + table.file(), table, one);
        if (!one.rows.empty() || empty == EmptyTables::kept) edition.tables.push_back(std::move(one));
    }
    return edition;
}

PackEdition edition_loaded(const Database& catalog, std::string_view pack, const PackShape& shape) {
    PackEdition edition{std::string(pack), {}};
    Statement id(catalog, "SELECT id FROM pack WHERE name = ?1");
    if (!id.bind(1, pack).step()) return edition;
    const auto first = id.integer(0) << 32;
    for (const auto& table : shape.tables()) {
        Statement known(catalog, "SELECT 1 FROM sqlite_master WHERE name = ?1");
        if (!known.bind(1, std::string_view(table.name)).step()) continue;
        std::string columns;
        for (const auto& column : table.columns) columns += ", " + sql_name(column.name);
        Statement rows(catalog, fmt::format("SELECT origin{} FROM {} WHERE origin BETWEEN ?1 AND ?2 ORDER BY origin",
                                            columns, sql_name(table.name)));
        rows.bind(1, first).bind(2, first | 0xffffffff);
        EditionTable one{&table, {}};
        while (rows.step()) {
            EditionRow row{static_cast<unsigned long>(rows.integer(0) & 0xffffffff), {}};
            for (std::size_t i = 0; i < table.columns.size(); ++i) {
                const int at = static_cast<int>(i + 1);
                row.cells.push_back(rows.is_null(at)               ? ""
                                    : table.columns[i].is_number() ? plain_number(rows.real(at), 12)
                                                                   : rows.str(at));
            }
            one.rows.push_back(std::move(row));
        }
        if (!one.rows.empty()) edition.tables.push_back(std::move(one));
    }
    return edition;
}

std::vector<TableChanges> changes_between(const PackEdition& before, const PackEdition& after) {
    std::vector<TableChanges> all;
    std::vector<const TableShape*> shapes;
    for (const auto* edition : {&before, &after})
        for (const auto& table : edition->tables)
            if (std::find(shapes.begin(), shapes.end(), table.shape) == shapes.end()) shapes.push_back(table.shape);
    for (const auto* shape : shapes) {
        auto changes = changes_of(*shape, before.find(shape->name), after.find(shape->name));
        if (!changes.went.empty() || !changes.came.empty() || !changes.changed.empty())
            all.push_back(std::move(changes));
    }
    return all;
}

}  // namespace casebound
