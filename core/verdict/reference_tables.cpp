#include "core/verdict/reference_tables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "core/ground/column_units.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

// Of core's own tables only what is looked at first is read by itself.
bool stands_alone(const TableShape& table) {
    return (table.owner != "core" || table.name == "imitators") &&
           std::all_of(table.columns.begin(), table.columns.end(), [](const Column& column) {
               return (!column.refers || column.refers->table == "sources") && column.kind != CellKind::condition;
           });
}

bool numeric(const Column& column) { return column.kind == CellKind::number || column.kind == CellKind::integer; }
bool tolerance(const Column& column) { return column.name.find("_tol_") != std::string::npos; }

// A range stands in two columns, the first "over", the second "to".
bool begins_range(const std::vector<Column>& columns, std::size_t i) {
    const auto has = [&](std::size_t at, const char* word) {
        const auto words = at < columns.size() ? small_words(columns[at].meaning) : std::vector<std::string>{};
        const auto name = at < columns.size() ? columns[at].name : std::string();
        return name.find(word) != std::string::npos && !words.empty();
    };
    return numeric(columns[i]) && has(i, "over_") && (has(i + 1, "to_") || has(i + 1, "up_to_"));
}

// What of a table's columns a number may be met with.
struct Measured {
    std::size_t column;
    std::optional<std::size_t> to{};  // where the range ends
    std::vector<std::string> words;
    std::string_view unit;
};

std::vector<Measured> measured_columns(const TableShape& table) {
    std::vector<Measured> all;
    const auto& columns = table.columns;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (!numeric(columns[i]) || tolerance(columns[i])) continue;
        auto words = small_words(columns[i].meaning);
        for (auto& word : small_words(spaced(columns[i].name))) words.push_back(word);
        Measured one{i, {}, std::move(words), column_unit(columns[i].name).unit};
        if (begins_range(columns, i)) one.to = ++i;
        all.push_back(std::move(one));
    }
    return all;
}

bool knows(const std::vector<std::string>& words, std::string_view word) {
    return std::any_of(words.begin(), words.end(), [&](const std::string& one) { return alike(one, word); });
}

// One row met with what is in the hand. Every number takes a column of its own, every word a word of the table or a cell.
class Meeting {
public:
    Meeting(const ReferenceTable& table)
        : table_(table), measured_(measured_columns(*table.shape)), words_(small_words(table.shape->meaning)) {
        for (auto& word : small_words(spaced(table.shape->name))) words_.push_back(std::move(word));
        for (const auto& one : measured_) labels_.insert(labels_.end(), one.words.begin(), one.words.end());
    }

    bool knows_word(std::string_view word) const {
        if (knows(words_, word) || knows(labels_, word)) return true;
        return std::any_of(table_.rows->begin(), table_.rows->end(),
                           [&](const Row& row) { return in_cells(row, word); });
    }

    std::optional<TableHit> with(const Row& row, const InHand& hand) const {
        TableHit hit{&table_, &row, {}};
        std::set<std::size_t> used;
        bool by_cell = hand.words.empty();
        for (const auto& word : hand.words) {
            const bool here = in_cells(row, word);
            by_cell |= here;
            if (!here && !knows(words_, word) && !knows(labels_, word)) return std::nullopt;
        }
        for (const auto& size : hand.sizes)
            if (!take_size(row, size, used, hit)) return std::nullopt;
        for (const auto& number : hand.numbers)
            if (!number.label.empty() && knows(labels_, number.label) && !take(row, number, true, used, hit))
                return std::nullopt;
        for (const auto& number : hand.numbers) {
            const bool labelled = !number.label.empty() && knows(labels_, number.label);
            if (labelled) continue;
            if (!number.label.empty()) {
                const bool here = in_cells(row, number.label);
                by_cell |= here;
                if (!here && !knows(words_, number.label)) return std::nullopt;
            }
            if (in_cells(row, number.text)) by_cell = true;
            else if (!take(row, number, false, used, hit)) return std::nullopt;
        }
        if (!by_cell && used.empty()) return std::nullopt;  // only the table's own words: it is the table that is meant
        return hit;
    }

private:
    static bool in_cells(const Row& row, std::string_view word) {
        for (const auto& cell : row.cells) {
            if (cell.column == "source" || (cell.number && cell.text != word)) continue;
            if (cell.text == word) return true;
            const auto words = small_words(cell.text);
            if (std::find(words.begin(), words.end(), word) != words.end()) return true;
        }
        return false;
    }

    // How far off, in what a calliper may be off; nothing where the column cannot take it.
    std::optional<double> off(const Row& row, const Measured& column, const HandNumber& number) const {
        if (!number.unit.empty() && column.unit != number.unit) return std::nullopt;
        const auto value = row.cells[cell_at(row, column.column)].number;
        if (!value) return std::nullopt;
        if (!column.to) return std::abs(*value - number.value) / hand_within(number.value);
        const auto end = row.cells[cell_at(row, *column.to)].number;
        if (!end || number.value <= *value || number.value > *end) return std::nullopt;
        return 0.5;  // within a range: behind what is the number itself
    }
    std::size_t cell_at(const Row& row, std::size_t column) const {
        const auto& name = table_.shape->columns[column].name;
        for (std::size_t i = 0; i < row.cells.size(); ++i)
            if (row.cells[i].column == name) return i;
        return 0;
    }

    void note(const Row& row, const Measured& column, const HandNumber& number, double off, TableHit& hit) const {
        hit.off += off;
        hit.within &= off <= 1;
        const auto value = row.cells[cell_at(row, column.column)].number.value_or(0);
        const double more = value - number.value;
        if (column.to || std::abs(more) < 1e-9) return;
        hit.apart.push_back(fmt::format("{} {}, {} {} than {}", column_says(table_.shape->columns[column.column]),
                                        shown_quantity(value, column.unit), plain_number(std::abs(more), 2),
                                        more > 0 ? "more" : "less", number.text));
    }

    bool take(const Row& row, const HandNumber& number, bool by_label, std::set<std::size_t>& used,
              TableHit& hit) const {
        const Measured* best = nullptr;
        double least = std::numeric_limits<double>::infinity();
        for (const auto& column : measured_) {
            if (used.count(column.column) || (by_label && !knows(column.words, number.label))) continue;
            const auto here = off(row, column, number);
            if (here && *here < least) {
                least = *here;
                best = &column;
            }
        }
        if (!best) return false;
        used.insert(best->column);
        note(row, *best, number, least, hit);
        return true;
    }

    // In the order of the table's columns: shaft, bore, width.
    bool take_size(const Row& row, const std::vector<HandNumber>& size, std::set<std::size_t>& used,
                   TableHit& hit) const {
        std::size_t next = 0;
        for (const auto& column : measured_) {
            if (next == size.size()) break;
            if (column.to || column.unit != size[next].unit || used.count(column.column)) continue;
            const auto here = off(row, column, size[next]);
            if (!here) return false;
            used.insert(column.column);
            note(row, column, size[next], *here, hit);
            ++next;
        }
        return next == size.size();
    }

    const ReferenceTable& table_;
    std::vector<Measured> measured_;
    std::vector<std::string> words_, labels_;
};

std::vector<std::string> every_word(const InHand& hand) {
    auto all = hand.words;
    for (const auto& number : hand.numbers)
        if (!number.label.empty()) all.push_back(number.label);
    return all;
}

}  // namespace

const ReferenceTable* table_named(const std::vector<ReferenceTable>& tables, const std::string& typed) {
    auto name = dashed(typed);
    std::replace(name.begin(), name.end(), ' ', '-');
    const ReferenceTable* only = nullptr;
    for (const auto& table : tables) {
        if (table.name == name) return &table;
        if (table.name != dashed(table.shape->owner) + "-" + name) continue;
        if (only) return nullptr;
        only = &table;
    }
    return only;
}

std::string column_says(const Column& column) {
    if (column.name == "note" || column.name == "words") return {};
    const auto [stem, unit] = column_unit(column.name);
    auto says = column.meaning.substr(0, column.meaning.find_first_of(",;:("));
    const bool in_figures = says.empty() || (says[0] >= '0' && says[0] <= '9');
    if (numeric(column) && !in_figures && says != unit) return says;
    return spaced(stem);
}

double hand_within(double value) { return std::max(0.15, std::abs(value) / 100); }

std::vector<ReferenceTable> reference_tables(const Facts& facts, const PackShape& shape) {
    std::vector<ReferenceTable> tables;
    for (const auto& table : shape.tables()) {
        if (!stands_alone(table)) continue;
        const auto& rows = facts.rows(table.name);
        if (!rows.empty()) tables.push_back({&table, &rows, dashed(table.name)});
    }
    return tables;
}

FoundRows find_rows(const std::vector<ReferenceTable>& tables, const InHand& hand, std::size_t most) {
    FoundRows found;
    const auto words = every_word(hand);
    std::vector<bool> known(words.size());
    std::vector<TableHit> far;
    for (const auto& table : tables) {
        const Meeting meeting(table);
        for (std::size_t i = 0; i < words.size(); ++i)
            if (!known[i]) known[i] = meeting.knows_word(words[i]);
        for (const auto& row : *table.rows)
            if (auto hit = meeting.with(row, hand)) (hit->within ? found.hits : far).push_back(std::move(*hit));
    }
    for (std::size_t i = 0; i < words.size(); ++i)
        if (!known[i]) found.not_known.push_back(words[i]);
    found.near_only = found.hits.empty() && !far.empty();
    if (found.near_only) {
        found.hits = std::move(far);
        most = std::min<std::size_t>(most, 3);
    }
    std::stable_sort(found.hits.begin(), found.hits.end(),
                     [](const TableHit& a, const TableHit& b) { return a.off < b.off; });
    if (found.hits.size() > most) {
        found.more = found.hits.size() - most;
        found.hits.resize(most);
    }
    return found;
}

}  // namespace casebound
