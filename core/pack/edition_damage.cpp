#include "core/pack/edition_damage.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/pack/most_quantities.h"
#include "core/reason/condition.h"

namespace casebound {

namespace {

constexpr std::size_t rounded_from = 15;     // digits that a spreadsheet keeps of a number
constexpr std::size_t compared_digits = 11;  // of a number whose end was rounded away
// A quantity beyond these is more likely in another unit, or has lost its point. Common practice, no source.
constexpr double least_litres = 0.01;

bool digit(char c) { return c >= '0' && c <= '9'; }

// The parts of a text that are numbers with their signs, points and exponents, by their digits that count.
struct Skeleton {
    std::string text;
    bool any_digit = false;
};

// Digits without zeros; the exponent of "1E5" is zeros too.
std::string counting_digits(std::string_view number) {
    std::string digits;
    const auto exponent = number.find_first_of("eE");
    for (const char c : number.substr(0, exponent))
        if (c >= '1' && c <= '9') digits += c;
    return digits.substr(0, compared_digits);
}

bool in_number(std::string_view text, std::size_t at) {
    const char c = text[at];
    if (digit(c)) return true;
    const bool before = at > 0 && digit(text[at - 1]), after = at + 1 < text.size() && digit(text[at + 1]);
    if (c == '.' || c == ',') return before || after;
    if ((c == 'E' || c == 'e') && before && at + 1 < text.size())
        return after || (at + 2 < text.size() && (text[at + 1] == '+' || text[at + 1] == '-') && digit(text[at + 2]));
    return (c == '+' || c == '-') && at > 0 && (text[at - 1] == 'E' || text[at - 1] == 'e') && at > 1 &&
           digit(text[at - 2]) && after;
}

Skeleton skeleton(std::string_view text) {
    Skeleton bones;
    for (std::size_t at = 0; at < text.size();) {
        if (!in_number(text, at)) {
            bones.text += text[at++];
            continue;
        }
        const auto from = at;
        while (at < text.size() && in_number(text, at)) ++at;
        bones.text += '#' + counting_digits(text.substr(from, at - from));
        bones.any_digit = true;
    }
    return bones;
}

std::string all_bones(const EditionRow& row) {
    std::string text;
    for (const auto& cell : row.cells) text += skeleton(cell).text + '\x1f';
    return text;
}

PackFault fault_at(const TableShape& shape, unsigned long line, std::size_t column, std::string what) {
    return {shape.file(), line, static_cast<unsigned>(column + 1), shape.columns[column].name, std::move(what)};
}

std::string lost_text(const std::string& before, const std::string& after) {
    return fmt::format(
        "`{}` was `{}` in the edition that is loaded: digits, zeros or the point are lost; write it as it "
        "was, or say that it is meant",
        after, before);
}

// Numbers compared as numbers are equal already; texts are compared as they stand.
void add_lost(std::vector<PackFault>& faults, const TableShape& shape, const EditionRow& before,
              const EditionRow& now) {
    for (std::size_t i = 0; i < shape.columns.size(); ++i) {
        double old = 0, is = 0;
        const auto &a = before.cells[i], &b = now.cells[i];
        const bool numbers = shape.columns[i].is_number() &&
                             std::from_chars(a.data(), a.data() + a.size(), old).ec == std::errc{} &&
                             std::from_chars(b.data(), b.data() + b.size(), is).ec == std::errc{};
        if (numbers && std::abs(old - is) <= 1e-9 * std::max(std::abs(old), 1.0)) continue;
        if (only_digits_lost(a, b)) faults.push_back(fault_at(shape, now.line, i, lost_text(a, b)));
    }
}

// What a spreadsheet in one language or another leaves of a formula.
constexpr std::array<std::string_view, 22> of_formulas{
    "#REF!",   "#NAME?", "#VALUE!", "#DIV/0!", "#N/A",   "#NUM!",        "#NULL!",   "#SPILL!",
    "#BEZUG!", "#WERT!", "#NV",     "#ZAHL!",  "#NOM?",  "#VALEUR!",     "#NOMBRE!", "#NOMBRE?",
    "#VALOR!", "#NAME!", "#CALC!",  "#LEER!",  "#TEIL!", "#GETTING_DATA"};

bool of_a_formula(std::string_view cell) {
    if (std::find(of_formulas.begin(), of_formulas.end(), cell) != of_formulas.end()) return true;
    if (cell.starts_with("Err:")) return cell.size() > 4 && std::all_of(cell.begin() + 4, cell.end(), digit);
    return cell.size() > 2 && cell[0] == '#' && cell.find_first_not_of('#') == std::string_view::npos;
}

// 12345678901234600: more digits than a spreadsheet keeps, and only zeros behind them.
bool rounded(std::string_view cell) {
    return cell.size() > rounded_from && std::all_of(cell.begin(), cell.end(), digit) && cell[0] != '0' &&
           cell.find_last_not_of('0') < rounded_from;
}

using Kinds = std::map<std::string, std::string, std::less<>>;  // of items and groups

void add_kinds(Kinds& kinds, const PackEdition& edition) {
    for (const auto& table : edition.tables) {
        if (table.shape->name != "items" && table.shape->name != "groups") continue;
        const auto key = table.shape->find(table.shape->name == "items" ? "item" : "group_key"),
                   kind = table.shape->find("kind");
        for (const auto& row : table.rows) kinds[row.cells[key]] = row.cells[kind];
    }
}

std::string out_of_unit(std::string_view unit, double quantity) {
    if (unit == "L" && (quantity > most_litres || quantity < least_litres))
        return fmt::format("{} L: no pack or fill of a shop is of this size", quantity);
    if (unit == "each" && quantity > most_each) return fmt::format("{} pieces: that many are in no pack", quantity);
    return {};
}

class Ranges {
public:
    Ranges(const PackEdition& before, const PackEdition& now, const Vocabularies& words, std::vector<PackFault>& faults)
        : words_(words), faults_(faults) {
        add_kinds(kinds_, before);
        add_kinds(kinds_, now);
        for (const auto& table : before.tables)
            for (const auto& row : table.rows)
                for (const auto& cell : row.cells) loaded_.insert(table.shape->name + '\x1f' + cell);
    }

    void check(const TableShape& shape, const EditionRow& row, std::size_t at) {
        const auto& column = shape.columns[at];
        const auto& cell = row.cells[at];
        if (cell.empty() || loaded_.contains(shape.name + '\x1f' + cell)) return;
        std::string what;
        if (column.name == "quantity" || column.name == "pack_quantity") what = of_quantity(shape, row, cell);
        else if (column.kind == CellKind::condition || column.kind == CellKind::findings ||
                 column.kind == CellKind::values)
            what = of_condition(cell);
        if (!what.empty())
            faults_.push_back(fault_at(shape, row.line, at, what + "; correct it, or say that it is meant"));
    }

private:
    std::string of_quantity(const TableShape& shape, const EditionRow& row, const std::string& cell) const {
        double quantity = 0;
        if (std::from_chars(cell.data(), cell.data() + cell.size(), quantity).ec != std::errc{}) return {};
        std::string kind;
        for (const char* column : {"kind", "group_key"})
            if (const auto at = shape.find(column); at < shape.columns.size() && kind.empty()) {
                const auto found = kinds_.find(row.cells[at]);
                kind = std::string_view(column) == "kind" ? row.cells[at] : found == kinds_.end() ? "" : found->second;
            }
        if (kind.empty() && shape.find("role") < shape.columns.size())
            if (const auto* role = words_.role(row.cells[shape.find("role")])) kind = role->item_kind;
        const auto* known = words_.item_kind(kind);
        return known ? out_of_unit(known->unit, quantity) : std::string();
    }

    std::string of_condition(const std::string& cell) const {
        Condition condition;
        try {
            condition = parse_condition(cell);
        } catch (const std::bad_alloc&) { throw; } catch (const std::exception&) {
            return {};  // said by the check of conditions
        }
        for (const auto& term : condition.terms) {
            const auto* attribute = words_.attribute(term.attribute);
            if (!attribute) continue;
            for (const auto& number : numbers_in(*attribute, term))
                if (number < attribute->extent.usual_least || number > attribute->extent.usual_most)
                    return fmt::format("{}: {} {} is outside what is usual, {} to {}", term.attribute, number,
                                       attribute->unit, attribute->extent.usual_least, attribute->extent.usual_most);
        }
        return {};
    }

    // A year and a month are judged by the calendar elsewhere.
    static std::vector<double> numbers_in(const Attribute& attribute, const Term& term) {
        std::vector<double> numbers;
        if (attribute.kind != ValueKind::number) return numbers;
        for (const auto& span : term.spans)
            for (const auto& end : {span.low, span.high}) try {
                    if (end)
                        if (const auto value = typed_value(attribute, *end); value.number)
                            numbers.push_back(*value.number);
                } catch (const std::bad_alloc&) { throw; } catch (const std::exception&) {
                    // said by the check of conditions
                }
        return numbers;
    }

    const Vocabularies& words_;
    std::vector<PackFault>& faults_;
    Kinds kinds_;
    std::set<std::string> loaded_;  // table and cell: what is loaded already was taken then
};

}  // namespace

bool only_digits_lost(std::string_view before, std::string_view after) {
    if (before == after || before.empty() || after.empty()) return false;
    const auto a = skeleton(before), b = skeleton(after);
    return a.any_digit && b.any_digit && a.text == b.text;
}

std::vector<PackFault> damage_since(const PackEdition& before, const PackEdition& now) {
    std::vector<PackFault> faults;
    for (const auto& table : changes_between(before, now)) {
        for (const auto& row : table.changed) add_lost(faults, *table.shape, *row.before, *row.after);
        std::multimap<std::string, const EditionRow*> went;  // a key that lost a zero went, and another came
        for (const auto* row : table.went) went.emplace(all_bones(*row), row);
        for (const auto* row : table.came)
            if (const auto same = went.find(all_bones(*row)); same != went.end()) {
                add_lost(faults, *table.shape, *same->second, *row);
                went.erase(same);
            }
    }
    return faults;
}

std::vector<PackFault> damage_alone(const PackEdition& before, const PackEdition& now, const Vocabularies& words) {
    std::vector<PackFault> faults;
    Ranges ranges(before, now, words, faults);
    for (const auto& table : now.tables)
        for (const auto& row : table.rows)
            for (std::size_t i = 0; i < row.cells.size(); ++i) {
                const auto& cell = row.cells[i];
                if (of_a_formula(cell))
                    faults.push_back(
                        fault_at(*table.shape, row.line, i,
                                 fmt::format("`{}` is what a spreadsheet leaves of a formula: write the text "
                                             "that was typed, in a column formatted as text",
                                             cell)));
                else if (rounded(cell))
                    faults.push_back(
                        fault_at(*table.shape, row.line, i,
                                 fmt::format("`{}`: a spreadsheet keeps {} digits of a number, and these are "
                                             "zeros from there on: compare it with the label",
                                             cell, rounded_from)));
                else ranges.check(*table.shape, row, i);
            }
    return faults;
}

std::vector<PackFault> zeros_lost(const PackEdition& now) {
    constexpr std::size_t least = 4;
    std::vector<PackFault> notes;
    for (const auto& table : now.tables)
        for (std::size_t i = 0; i < table.shape->columns.size(); ++i) {
            if (!table.shape->columns[i].unique || table.shape->columns[i].kind != CellKind::key) continue;
            std::set<std::size_t> lengths;
            const bool bare = std::all_of(table.rows.begin(), table.rows.end(), [&](const EditionRow& row) {
                lengths.insert(row.cells[i].size());
                return !row.cells[i].empty() && row.cells[i][0] != '0' &&
                       std::all_of(row.cells[i].begin(), row.cells[i].end(), digit);
            });
            if (bare && table.rows.size() >= least && lengths.size() > 1)
                notes.push_back(
                    fault_at(*table.shape, table.rows.front().line, i,
                             "every key is a bare number, none begins with 0, and they are of different "
                             "lengths: a spreadsheet may have taken the first zeros: compare with the labels"));
        }
    return notes;
}

void leave_out_meant(std::vector<PackFault>& faults, const std::vector<std::string>& meant) {
    for (const auto& one : meant) {
        const auto is_it = [&](const PackFault& fault) { return fault.place() == one; };
        if (std::none_of(faults.begin(), faults.end(), is_it))
            throw Error(Exit::usage,
                        fmt::format("--meant {}: nothing is doubted there: write its place as the fault names it, "
                                    "such as items.csv:12:4 or mine.xlsx:items:D12",
                                    one));
        std::erase_if(faults, is_it);
    }
}

}  // namespace casebound
