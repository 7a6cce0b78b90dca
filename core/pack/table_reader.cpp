#include "core/pack/table_reader.h"

#include <algorithm>
#include <filesystem>
#include <limits>
#include <new>

#include <fmt/format.h>

#include "core/ground/utf8.h"
#include "core/pack/cell_check.h"
#include "core/pack/csv_rows.h"
#include "core/pack/sheet_cells.h"
#include "core/pack/spreadsheet_damage.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

std::string header_of(const TableShape& table) { return fmt::format("{}", fmt::join(table.column_names(), ",")); }

// Compares a header with the table's columns and says what to do.
class HeaderCheck {
public:
    HeaderCheck(const TableShape& table, const std::vector<std::string_view>& cells, FaultList& faults)
        : table_(table), cells_(cells), faults_(faults) {}

    // True when the rows below can be read: each cell is where it belongs.
    bool check() {
        if (same()) return true;
        const auto before = faults_.count();
        if (cells_.size() == 1 && cells_[0].find_first_of(";\t|") != std::string_view::npos) {
            fault(0, "the cells are not separated by commas: save it as CSV with commas");
            return false;
        }
        if (std::none_of(cells_.begin(), cells_.end(), [&](std::string_view cell) {
                return table_.find(cell) < table_.columns.size() || !meant(cell).empty();
            })) {
            fault(0, fmt::format("the first line is not the header: it must be {}", header_of(table_)));
            return false;
        }
        check_names();
        for (std::size_t i = 0; i < table_.columns.size(); ++i)
            if (!seen(table_.columns[i].name) && !misspelt(table_.columns[i].name))
                faults_.at(table_, 1, table_.columns.size(),
                           fmt::format("the column {} is missing: the header must be {}", table_.columns[i].name,
                                       header_of(table_)));
        if (faults_.count() == before)
            fault(0, fmt::format("the columns are in another order: the header must be {}", header_of(table_)));
        return positions_sound();
    }

private:
    bool same() const {
        if (cells_.size() != table_.columns.size()) return false;
        return std::equal(cells_.begin(), cells_.end(), table_.columns.begin(),
                          [](std::string_view cell, const Column& column) { return cell == column.name; });
    }

    void check_names() {
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            const auto name = cells_[i];
            if (std::find(cells_.begin(), cells_.begin() + static_cast<std::ptrdiff_t>(i), name) !=
                cells_.begin() + static_cast<std::ptrdiff_t>(i)) {
                fault(i, fmt::format("the column `{}` is there twice: delete one", shown(name)));
            } else if (table_.find(name) == table_.columns.size()) {
                const auto near = meant(name);
                fault(i, near.empty() ? fmt::format("`{}` is not a column of {}: delete it; the header must be {}",
                                                    shown(name), table_.name, header_of(table_))
                                      : fmt::format("`{}` is not a column of {}: did you mean {}?", shown(name),
                                                    table_.name, near));
            }
        }
    }

    // The column that a wrong name stands for: one that is missing, and near.
    std::string meant(std::string_view name) const {
        std::string folded;
        for (const char c : name)
            if (c != '"' && c != '\'')
                folded += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c == ' ' || c == '-' ? '_' : c);
        while (!folded.empty() && folded.back() == '_') folded.pop_back();
        std::vector<std::string> missing;
        for (const auto& column : table_.columns)
            if (!seen(column.name)) missing.push_back(column.name);
        if (const auto near = nearest(folded, missing); !near.empty()) return near;
        const auto unknown = std::count_if(cells_.begin(), cells_.end(), [&](std::string_view cell) {
            return table_.find(cell) == table_.columns.size();
        });
        return unknown == 1 && missing.size() == 1 && cells_.size() == table_.columns.size() ? missing[0]
                                                                                             : std::string();
    }

    bool seen(std::string_view column) const { return std::find(cells_.begin(), cells_.end(), column) != cells_.end(); }
    bool misspelt(std::string_view column) const {
        return std::any_of(cells_.begin(), cells_.end(), [&](std::string_view cell) {
            return table_.find(cell) == table_.columns.size() && meant(cell) == column;
        });
    }

    bool positions_sound() const {
        if (cells_.size() != table_.columns.size()) return false;
        for (std::size_t i = 0; i < cells_.size(); ++i)
            if (cells_[i] != table_.columns[i].name && meant(cells_[i]) != table_.columns[i].name) return false;
        return true;
    }

    void fault(std::size_t cell, std::string what) {
        faults_.add({table_.file(), 1, static_cast<unsigned>(cell + 1), "", std::move(what)});
    }

    const TableShape& table_;
    const std::vector<std::string_view>& cells_;
    FaultList& faults_;
};

// Keys that may have been dates: only suspicious where the other keys of the column are not bare numbers.
class SerialWatch {
public:
    void see(unsigned long line, std::string_view key) {
        ++keys_;
        const bool bare = key.find_first_not_of("0123456789") == std::string_view::npos;
        if (bare) ++bare_;
        if (bare && suspects_.size() < most_suspects && looks_like_date_serial(key))
            suspects_.emplace_back(line, std::string(key));
    }

    void report(const TableShape& table, std::size_t column, FaultList& faults) const {
        if (bare_ > suspects_.size() || keys_ < 4 * bare_) return;
        for (const auto& [line, key] : suspects_)
            faults.warn_at(table, line, column,
                           fmt::format("`{}` is a bare number among other keys, as a date turned into one would be: "
                                       "compare it with the label",
                                       key));
    }

private:
    static constexpr std::size_t most_suspects = 20;
    std::size_t keys_ = 0, bare_ = 0;
    std::vector<std::pair<unsigned long, std::string>> suspects_;
};

class TableEvents final : public CsvEvents {
public:
    TableEvents(const TableShape& table, PackData& data, FaultList& faults)
        : table_(table), data_(data), faults_(faults), taker_(data.taker(table)), rules_(table),
          numbers_(table.columns.size()), watches_(table.columns.size()) {}

    // Of a large file: how many rows it has about, is found out from the first.
    void comes_from(std::uint64_t file_bytes) { file_bytes_ = file_bytes; }

    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        if (!header_) {
            header_ = true;
            usable_ = HeaderCheck(table_, cells, faults_).check();
            if (!usable_) data_.unreadable.push_back(&table_);
            return;
        }
        if (!usable_) return;
        if (line > std::numeric_limits<std::uint32_t>::max())
            return fault(line, 0, "more lines than a pack may have: split the pack");
        if (!whole || !width_sound(line, cells)) return take_key(line, cells);
        check(line, cells);
        if (file_bytes_ > 0 && rows_seen_ < rows_to_see) see_length(cells);
        taker_->take(static_cast<std::uint32_t>(line), cells, numbers_);
    }

    void fault(unsigned long line, unsigned cell, const std::string& what) override {
        const bool known = cell > 0 && cell <= table_.columns.size();
        faults_.add({table_.file(), line, cell, known ? table_.columns[cell - 1].name : "", what});
    }

    // As row(); what is marked in `faulty` has its fault already.
    void row_beside_faults(unsigned long line, const std::vector<std::string_view>& cells, std::vector<bool> faulty) {
        faulty_ = std::move(faulty);
        row(line, cells, true);
        faulty_.clear();
    }
    bool header_read() const { return header_; }

    void finish() {
        if (!header_) {
            fault(0, 0, fmt::format("it has no header: its first line must be {}", header_of(table_)));
            data_.unreadable.push_back(&table_);
        }
        for (std::size_t i = 0; i < watches_.size(); ++i) watches_[i].report(table_, i, faults_);
    }

private:
    bool width_sound(unsigned long line, const std::vector<std::string_view>& cells) {
        if (std::all_of(cells.begin(), cells.end(), [](std::string_view cell) { return cell.empty(); })) {
            fault(line, 0, "a row without content: delete it");
            return false;
        }
        auto wrong = wrong_width(cells.size(), table_.columns.size());
        if (wrong.empty()) return true;
        fault(line, 0, std::move(wrong));
        return false;
    }

    void see_length(const std::vector<std::string_view>& cells) {
        for (const auto cell : cells) bytes_seen_ += cell.size() + 1;
        constexpr std::uint64_t most_rows = 16'000'000;
        if (++rows_seen_ != rows_to_see) return;
        try {
            taker_->expect(std::min(most_rows, file_bytes_ / (bytes_seen_ / rows_to_see) + rows_to_see));
        } catch (const std::bad_alloc&) {}  // the first rows may be no measure of the rest, which may have room
    }

    // Only its key, so that rows that refer to it are not faulted too.
    void take_key(unsigned long line, std::vector<std::string_view> cells) {
        cells.resize(table_.columns.size());
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (!table_.columns[i].unique || table_.columns[i].kind != CellKind::key) cells[i] = {};
        taker_->take(static_cast<std::uint32_t>(line), cells, std::vector<double>(cells.size()));
    }

    void check(unsigned long line, const std::vector<std::string_view>& cells) {
        const bool any_faulty = std::find(faulty_.begin(), faulty_.end(), true) != faulty_.end();
        for (std::size_t i = 0; i < cells.size(); ++i) {
            numbers_[i] = 0;
            if (any_faulty && faulty_[i]) continue;
            numbers_[i] = check_cell({table_, line, i}, cells[i], faults_).value_or(0);
            if (table_.columns[i].unique && table_.columns[i].kind == CellKind::key) watches_[i].see(line, cells[i]);
        }
        if (!any_faulty) rules_.check(line, cells, faults_);
    }

    const TableShape& table_;
    PackData& data_;
    FaultList& faults_;
    std::unique_ptr<RowTaker> taker_;
    RowRules rules_;
    std::vector<double> numbers_;
    std::vector<SerialWatch> watches_;
    std::vector<bool> faulty_;
    static constexpr std::uint64_t rows_to_see = 1000;
    std::uint64_t file_bytes_ = 0, rows_seen_ = 0, bytes_seen_ = 0;
    bool header_ = false, usable_ = false;
};

// A sheet's rows as those of a file: as many cells as the table has columns.
class SheetRows final : public BookRows {
public:
    SheetRows(const TableShape& table, TableEvents& events) : table_(table), events_(events) {}

    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        views_.clear();
        for (const auto& cell : cells) views_.push_back(cell.text);
        if (!events_.header_read()) {
            events_.row(line, views_, true);
            return true;
        }
        faulty_.assign(table_.columns.size(), false);
        for (std::size_t i = 0; i < cells.size(); ++i) check(line, i, cells[i]);
        views_.resize(table_.columns.size());
        events_.row_beside_faults(line, views_, faulty_);
        return true;
    }

    void merged(const MergedCells& cells) override {
        events_.fault(cells.first_line, cells.first_column, cells.what_to_do());
    }

private:
    void check(unsigned long line, std::size_t at, const BookCell& cell) {
        const bool inside = at < table_.columns.size();
        auto what = inside ? wrong_in_sheet(table_.columns[at], cell)
                    : cell.is == CellIs::empty
                        ? std::string()
                        : fmt::format("`{}` stands beside the table: put it under its column, or delete it",
                                      shown(cell.text));
        if (what.empty()) return;
        if (inside) faulty_[at] = true;
        events_.fault(line, static_cast<unsigned>(at + 1), what);
    }

    const TableShape& table_;
    TableEvents& events_;
    std::vector<std::string_view> views_;
    std::vector<bool> faulty_;
};

}  // namespace

std::uint64_t read_table(const std::string& path, const TableShape& table, PackData& data, FaultList& faults) {
    TableEvents events(table, data, faults);
    std::error_code unknown;
    if (const auto size = std::filesystem::file_size(path, unknown); !unknown) events.comes_from(size);
    const auto bytes = read_csv(path, events);
    events.finish();
    return bytes;
}

void read_sheet(const Workbook& book, std::size_t sheet, const TableShape& table, PackData& data, FaultList& faults) {
    TableEvents events(table, data, faults);
    SheetRows rows(table, events);
    book.read(sheet, rows);
    events.finish();
}

}  // namespace casebound
