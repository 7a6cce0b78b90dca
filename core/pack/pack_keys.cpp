#include "core/pack/pack_keys.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "core/ground/utf8.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

// A cell as it counts for uniqueness: 10 and 10.0 are the same number.
std::string canonical(const Column& column, std::string_view cell) {
    double value = 0;
    if (!column.is_number() || std::from_chars(cell.data(), cell.data() + cell.size(), value).ec != std::errc{})
        return std::string(cell);
    return fmt::format("{}", value);
}

// The row's cells in `columns`, for comparing; empty when one of them is not stated (SQL: never equal).
std::string tuple(const PackData& data, const TableView& view, const std::vector<std::size_t>& columns,
                  std::size_t row) {
    std::string text;
    for (const auto at : columns) {
        const auto& names = view.names[at];
        const auto cell = names ? std::string(data.names.text(names[row]))
                                : canonical(view.shape->columns[at], view.plain->cell(row, at));
        if (cell.empty()) return {};
        text += cell;
        text += '\x1f';
    }
    return text;
}

std::string joined(const std::string& tuple_text) {
    std::string text = tuple_text.substr(0, tuple_text.size() - 1);
    std::replace(text.begin(), text.end(), '\x1f', ',');
    return shown(text);
}

std::string column_names(const TableShape& table, const std::vector<std::size_t>& columns) {
    std::string text;
    for (const auto at : columns) text += (text.empty() ? "" : ", ") + table.columns[at].name;
    return text;
}

}  // namespace

PackKeys::PackKeys(const PackShape& shape, PackData& data, LoadedPacks& others, FaultList& faults)
    : shape_(shape), data_(data), others_(others), faults_(faults) {
    for (const auto& table : shape.tables())
        for (const auto& column : table.columns)
            if (column.unique && column.kind == CellKind::key)
                sets_.push_back({table.name, column.name, data.readable(table), {}, {}, {}});
}

const PackKeys::KeySet* PackKeys::find(std::string_view table, std::string_view column) const {
    const auto at = std::find_if(sets_.begin(), sets_.end(),
                                 [&](const KeySet& set) { return set.table == table && set.column == column; });
    return at == sets_.end() ? nullptr : &*at;
}

PackKeys::KeySet* PackKeys::find(std::string_view table, std::string_view column) {
    return const_cast<KeySet*>(std::as_const(*this).find(table, column));
}

void PackKeys::check_unique(const std::vector<TableView>& views) {
    for (const auto& view : views) {
        for (std::size_t i = 0; i < view.shape->columns.size(); ++i)
            if (auto* set = find(view.shape->name, view.shape->columns[i].name)) define(view, i, *set);
        for (const auto& columns : view.shape->unique_together) {
            check_together(view, columns);
            if (others_.has_rows(view.shape->name)) check_together_elsewhere(view, columns);
        }
    }
}

void PackKeys::define(const TableView& view, std::size_t column, KeySet& set) {
    const auto& keys = view.names[column];
    const bool ask_others = others_.has_rows(set.table);
    set.line_of.resize(data_.names.size());
    for (std::size_t row = 0; row < view.rows; ++row) {
        const NameId key = keys[row];
        if (key == 0) continue;
        auto& line = set.line_of[key];
        if (line != 0) {
            faults_.at(
                *view.shape, view.lines[row], column,
                fmt::format("`{}` is on line {} already: a key stands once", shown(data_.names.text(key)), line));
            continue;
        }
        line = view.lines[row];
        if (!ask_others) continue;
        if (const auto origin = others_.origin_of(set.table, set.column, data_.names.text(key)))
            faults_.at(*view.shape, line, column,
                       fmt::format("`{}` is already in {}: rename it, or take the row out and refer to that one",
                                   shown(data_.names.text(key)), others_.place(set.table, *origin)));
    }
}

void PackKeys::check_together(const TableView& view, const std::vector<std::size_t>& columns) {
    LargeVector<std::pair<std::size_t, std::uint32_t>> hashes;  // of the tuple, and its row
    hashes.reserve(view.rows);
    const bool all_names = std::all_of(columns.begin(), columns.end(),
                                       [&](std::size_t at) { return bool(view.names[at]); });
    for (std::size_t row = 0; row < view.rows; ++row) {
        std::size_t hash = 0;
        if (all_names)
            for (const auto at : columns) hash = hash * 0x9E3779B97F4A7C15ull + view.names[at][row];
        else hash = std::hash<std::string>{}(tuple(data_, view, columns, row));
        hashes.emplace_back(hash, static_cast<std::uint32_t>(row));
    }
    std::sort(hashes.begin(), hashes.end());
    for (std::size_t i = 1; i < hashes.size(); ++i) {
        if (hashes[i].first != hashes[i - 1].first) continue;
        const auto text = tuple(data_, view, columns, hashes[i].second);
        if (text.empty() || text != tuple(data_, view, columns, hashes[i - 1].second)) continue;
        faults_.at(*view.shape, view.lines[hashes[i].second], columns.front(),
                   fmt::format("{} together are on line {} already: {}; delete one row",
                               column_names(*view.shape, columns), view.lines[hashes[i - 1].second], joined(text)));
    }
}

void PackKeys::check_together_elsewhere(const TableView& view, const std::vector<std::size_t>& columns) {
    std::string where;
    for (std::size_t i = 0; i < columns.size(); ++i)
        where += fmt::format("{} = ?{} AND ", sql_name(view.shape->columns[columns[i]].name), i + 1);
    auto& found = others_.prepared(
        fmt::format("SELECT origin FROM {} WHERE {}origin NOT BETWEEN ?8 AND ?9", sql_name(view.shape->name), where));
    for (std::size_t row = 0; row < view.rows; ++row) {
        const auto text = tuple(data_, view, columns, row);
        if (text.empty()) continue;
        found.reset();
        for (std::size_t i = 0, from = 0; i < columns.size(); ++i) {
            const auto end = text.find('\x1f', from);
            found.bind(static_cast<int>(i + 1), std::string_view(text).substr(from, end - from));
            from = end + 1;
        }
        if (found.step())
            faults_.at(*view.shape, view.lines[row], columns.front(),
                       fmt::format("{} are already in {}: {}; delete one row", column_names(*view.shape, columns),
                                   others_.place(view.shape->name, found.integer(0)), joined(text)));
    }
    found.reset();
}

bool PackKeys::known(KeySet& set, NameId key) {
    if (!set.readable || (key < set.line_of.size() && set.line_of[key] != 0)) return true;
    if (others_.empty()) return false;
    if (key >= set.elsewhere.size()) set.elsewhere.resize(data_.names.size(), Elsewhere::unasked);
    auto& answer = set.elsewhere[key];
    if (answer == Elsewhere::unasked)
        answer = others_.origin_of(set.table, set.column, data_.names.text(key)) ? Elsewhere::yes : Elsewhere::no;
    return answer == Elsewhere::yes;
}

bool PackKeys::known(std::string_view table, std::string_view column, NameId key) {
    auto* set = find(table, column);
    return set && known(*set, key);
}

bool PackKeys::here(std::string_view table, std::string_view column, NameId key) const {
    const auto* set = find(table, column);
    return set && key < set->line_of.size() && set->line_of[key] != 0;
}

void PackKeys::check_references(const std::vector<TableView>& views) {
    for (const auto& view : views)
        for (std::size_t i = 0; i < view.shape->columns.size(); ++i) {
            const auto& column = view.shape->columns[i];
            if (!column.refers) continue;
            auto* set = find(column.refers->table, column.refers->column);
            const auto& names = view.names[i];
            NameId met = 0;  // the row above often refers to the same
            for (std::size_t row = 0; row < view.rows; ++row) {
                const NameId key = names[row];
                if (key == met || key == 0) continue;
                if (known(*set, key)) {
                    met = key;
                    if (set->readable && (key >= set->line_of.size() || set->line_of[key] == 0))
                        met_outside_.insert(view.shape->name + "." + column.name);
                } else if (!faults_.only_counted()) {
                    faults_.at(*view.shape, view.lines[row], i, unknown(set->table, set->column, key));
                }
            }
        }
}

const std::vector<std::string>& PackKeys::words(KeySet& set) {
    constexpr int most = 20000;
    if (!set.words.empty()) return set.words;
    for (std::size_t key = 1; key < set.line_of.size() && set.words.size() < most; ++key)
        if (set.line_of[key] != 0) set.words.emplace_back(data_.names.text(static_cast<NameId>(key)));
    for (auto& key : others_.keys(set.table, set.column, most)) set.words.push_back(std::move(key));
    return set.words;
}

std::string PackKeys::unknown(std::string_view table, std::string_view column, NameId key) {
    const auto text = data_.names.text(key);
    std::string near;
    if (auto* set = find(table, column); set && suggestions_left_-- > 0) near = nearest(text, words(*set));
    return near.empty()
               ? fmt::format("`{}` is not in {} of this pack or another: add it to {}.csv, or correct it", shown(text),
                             table, table)
               : fmt::format("`{}` is not in {} of this pack or another: did you mean {}?", shown(text), table, near);
}

}  // namespace casebound
