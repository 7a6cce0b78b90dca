#include "core/pack/cell_check.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/utf8.h"
#include "core/pack/spreadsheet_damage.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

constexpr std::array<bool, 256> key_table() {
    std::array<bool, 256> table{};
    for (unsigned c = '0'; c <= '9'; ++c) table[c] = true;
    for (unsigned c = 'a'; c <= 'z'; ++c) table[c] = table[c - 'a' + 'A'] = true;
    for (const char c : {'.', '_', '+', '/', '-'}) table[static_cast<unsigned char>(c)] = true;
    return table;
}
constexpr auto key_bytes = key_table();

constexpr std::size_t most_key_bytes = 120;

bool key_byte(char c) { return key_bytes[static_cast<unsigned char>(c)]; }

std::string wrong_choice(std::string_view text, const Column& column) {
    const auto near = nearest(text, column.choices);
    const auto hint = near.empty() ? std::string() : fmt::format("did you mean {}? ", near);
    return fmt::format("`{}` is not one of its values: {}write {}", shown(text), hint, fmt::join(column.choices, ", "));
}

std::string wrong_key(std::string_view text) {
    if (text.size() > most_key_bytes)
        return fmt::format("`{}`: a key has at most {} characters: shorten it", shown(text), most_key_bytes);
    const auto bad = std::find_if_not(text.begin(), text.end(), key_byte);
    return fmt::format("`{}`: {} has no place in a key: write letters a-z, digits, and . _ + / -", shown(text),
                       *bad == ' '
                           ? "a blank"
                           : fmt::format("`{}`", shown(text.substr(static_cast<std::size_t>(bad - text.begin())), 1)));
}

std::string outside(const Column& column, double value) {
    if (column.least && (column.least->exclusive ? value <= column.least->value : value < column.least->value))
        return fmt::format("{} must be {} {}", value, column.least->exclusive ? "more than" : "at least",
                           column.least->value);
    if (column.most && (column.most->exclusive ? value >= column.most->value : value > column.most->value))
        return fmt::format("{} must be {} {}", value, column.most->exclusive ? "less than" : "at most",
                           column.most->value);
    return {};
}

std::optional<double> check_number(const CellPlace& place, std::string_view text, FaultList& faults) {
    const auto& column = place.table.columns[place.column];
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) {
        faults.at(place.table, place.line, place.column, not_a_number(text));
        return std::nullopt;
    }
    constexpr double most_whole = 9007199254740992.0;  // 2^53: a double holds every whole number up to it
    if (column.kind == CellKind::integer && (value != std::floor(value) || std::abs(value) > most_whole ||
                                             text.find_first_of(".eE") != std::string_view::npos)) {
        faults.at(place.table, place.line, place.column,
                  fmt::format("`{}` must be a whole number, written with digits alone", shown(text)));
        return std::nullopt;
    }
    if (const auto what = outside(column, value); !what.empty())
        faults.at(place.table, place.line, place.column, fmt::format("{}: {}", what, column.meaning));
    return value;
}

}  // namespace

bool is_key(std::string_view text) {
    for (const char c : text)
        if (!key_byte(c)) return false;
    return text.size() <= most_key_bytes;
}

std::optional<double> check_cell(const CellPlace& place, std::string_view text, FaultList& faults) {
    const auto& column = place.table.columns[place.column];
    if (text.empty()) {
        if (column.required)
            faults.at(place.table, place.line, place.column,
                      fmt::format("empty: write {}", column.meaning.empty() ? "a value" : column.meaning));
        return std::nullopt;
    }
    if (column.kind == CellKind::number || column.kind == CellKind::integer) return check_number(place, text, faults);
    if (!column.choices.empty()) {
        if (std::find(column.choices.begin(), column.choices.end(), text) == column.choices.end())
            faults.at(place.table, place.line, place.column, wrong_choice(text, column));
        return std::nullopt;
    }
    const bool key = column.kind == CellKind::key;
    if (auto damage = damage_in(text, key); !damage.empty()) {
        if (key) faults.at(place.table, place.line, place.column, std::move(damage));
        else if (column.kind != CellKind::word)
            faults.warn_at(place.table, place.line, place.column, std::move(damage));
    } else if (key && !is_key(text)) {
        faults.at(place.table, place.line, place.column, wrong_key(text));
    }
    return std::nullopt;
}

RowRules::RowRules(const TableShape& table) : table_(table) {
    if (table.rules.empty()) return;
    std::string rules, columns;
    for (const auto& rule : table.rules) rules += fmt::format("{}({})", rules.empty() ? "" : ", ", rule.expression);
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        columns += fmt::format("{}?{} AS \"{}\"", i == 0 ? "" : ", ", i + 1, table.columns[i].name);
    database_.emplace(":memory:", Database::Mode::create);
    statement_.emplace(*database_, fmt::format("SELECT {} FROM (SELECT {})", rules, columns));
}

void RowRules::check(unsigned long line, const std::vector<std::string_view>& cells, FaultList& faults) {
    if (!statement_) return;
    statement_->reset();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const int index = static_cast<int>(i + 1);
        const auto kind = table_.columns[i].kind;
        double value = 0;
        const bool number = kind == CellKind::number || kind == CellKind::integer;
        if (cells[i].empty()) statement_->bind_null(index);
        else if (!number) statement_->bind_view(index, cells[i]);
        else if (std::from_chars(cells[i].data(), cells[i].data() + cells[i].size(), value).ec == std::errc{})
            statement_->bind(index, value);
        else return;  // already a fault
    }
    if (!statement_->step()) return;
    for (std::size_t i = 0; i < table_.rules.size(); ++i)
        if (const int at = static_cast<int>(i); !statement_->is_null(at) && statement_->integer(at) == 0)
            faults.at(
                table_, line, table_.rules[i].column,
                fmt::format("the row breaks the rule `{}`: change it so that this holds", table_.rules[i].expression));
}

}  // namespace casebound
