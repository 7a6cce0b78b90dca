#include "core/reason/possibilities.h"

#include <algorithm>
#include <cassert>
#include <functional>
#include <numeric>
#include <string_view>
#include <unordered_map>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace casebound {

namespace {

// Words of one list mostly differ at their ends.
bool same(std::string_view a, std::string_view b) {
    return a.size() == b.size() && (a.empty() || (a.back() == b.back() && a == b));
}

bool before(const Value& a, const Value& b) {
    if (a.number.has_value() != b.number.has_value()) return a.number.has_value();
    if (a.number && *a.number != *b.number) return *a.number < *b.number;
    return a.text < b.text;
}

struct TextHash {
    std::size_t operator()(const Value* value) const { return std::hash<std::string_view>{}(value->text); }
};
struct SameValue {
    bool operator()(const Value* a, const Value* b) const { return *a == *b; }
};

// Each value is looked up once an alternative.
Possibilities::Cells cells_of(const std::vector<std::vector<Value>>& cells, std::size_t index) {
    Possibilities::Cells column;
    std::unordered_map<const Value*, std::uint16_t, TextHash, SameValue> met;
    column.at.reserve(cells.size());
    for (const auto& row : cells) {
        const auto [found, fresh] = met.emplace(&row[index], static_cast<std::uint16_t>(column.values.size()));
        if (fresh) column.values.push_back(row[index]);
        column.at.push_back(found->second);
    }
    return column;
}

// Only the few values that differ are put in order.
Possibilities::Column make_column(Attribute attribute, Possibilities::Cells cells) {
    Possibilities::Column column{std::move(attribute), {}, std::move(cells.at), {}};
    const std::size_t count = cells.values.size();
    std::vector<std::uint16_t> place(count), sorted(count);
    std::iota(sorted.begin(), sorted.end(), std::uint16_t{0});
    std::sort(sorted.begin(), sorted.end(), [&](auto x, auto y) { return before(cells.values[x], cells.values[y]); });
    column.values.reserve(count);
    for (std::size_t at = 0; at < count; ++at) {
        place[sorted[at]] = static_cast<std::uint16_t>(at);
        column.values.push_back(std::move(cells.values[sorted[at]]));
    }
    column.holding.assign(count, Bits(column.at.size()));
    for (std::size_t i = 0; i < column.at.size(); ++i) {
        column.at[i] = place[column.at[i]];
        column.holding[column.at[i]].set(i);
    }
    return column;
}

// The values of a column within a set, as flags.
std::vector<bool> present(const Possibilities::Column& column, const Bits& left) {
    std::vector<bool> flags(column.values.size());
    for (std::size_t v = 0; v < flags.size(); ++v) flags[v] = column.holding[v].meets(left);
    return flags;
}

bool counted_kind(ValueKind kind) { return kind == ValueKind::year || kind == ValueKind::month; }

// "2003..2007|2009" for the wanted values; a run never spans a value that is present and not wanted.
std::string spans_text(const Possibilities::Column& column, const std::vector<bool>& wanted,
                       const std::vector<bool>& here) {
    std::string text;
    for (std::size_t v = 0; v < wanted.size(); ++v) {
        if (!wanted[v]) continue;
        std::size_t end = v, last = v;
        if (counted_kind(column.attribute.kind))
            while (end + 1 < wanted.size() && column.values[end + 1].number && (wanted[end + 1] || !here[end + 1])) {
                ++end;
                if (wanted[end]) last = end;
            }
        text += fmt::format("{}{}", text.empty() ? "" : "|", column.values[v].text);
        if (last > v) text += ".." + column.values[last].text;
        v = last;
    }
    return text;
}

}  // namespace

Possibilities::Possibilities(std::vector<Attribute> attributes, const std::vector<std::vector<Value>>& cells,
                             std::vector<double> weights)
    : weights_(std::move(weights)) {
    assert(cells.size() == weights_.size());
    for (std::size_t a = 0; a < attributes.size(); ++a)
        columns_.push_back(make_column(std::move(attributes[a]), cells_of(cells, a)));
}

Possibilities::Possibilities(std::vector<Attribute> attributes, std::vector<Cells> columns, std::vector<double> weights)
    : weights_(std::move(weights)) {
    assert(columns.size() == attributes.size());
    columns_.reserve(attributes.size());
    for (std::size_t a = 0; a < attributes.size(); ++a) {
        assert(columns[a].at.size() == weights_.size());
        columns_.push_back(make_column(std::move(attributes[a]), std::move(columns[a])));
    }
}

double Possibilities::weight(const Bits& alternatives) const {
    double sum = 0;
    alternatives.for_each([&](std::size_t i) { sum += weights_[i]; });
    return sum;
}

const Possibilities::Column* Possibilities::column(std::string_view attribute) const {
    const auto found = std::find_if(columns_.begin(), columns_.end(),
                                    [&](const Column& c) { return same(c.attribute.name, attribute); });
    return found == columns_.end() ? nullptr : &*found;
}

namespace {

bool blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

// Is it a word of the attribute as it stands, so that typed_value() would only give it back?
bool is_plain_word(const Attribute& attribute, const Span& span) {
    if (!span.low || !span.high || span.low_excluded || span.high_excluded || !same(*span.low, *span.high) ||
        (!span.low->empty() && (blank(span.low->front()) || blank(span.low->back()))))
        return false;
    return attribute.choices.empty() ||
           std::find(attribute.choices.begin(), attribute.choices.end(), *span.low) != attribute.choices.end();
}

// Which values of a column a term takes; a flag each.
Bits taken_by(const Term& term, const Possibilities::Column& column, double tolerance) {
    const auto& attribute = column.attribute;
    const auto& values = column.values;
    Bits taken(values.size());
    bool plain = attribute.kind == ValueKind::choice && !attribute.several;
    for (std::size_t i = 0; plain && i < term.spans.size(); ++i) {
        const auto& span = term.spans[i];
        plain = is_plain_word(attribute, span);
        for (std::size_t v = 0; plain && v < values.size(); ++v) {
            if (!same(values[v].text, *span.low)) continue;
            taken.set(v);  // values differ, so no other is the same
            break;
        }
    }
    if (plain) return term.negated ? Bits(values.size(), true) - taken : taken;
    const Matcher matcher(attribute, term, tolerance);
    for (std::size_t v = 0; v < values.size(); ++v)
        if (matcher.matches(values[v])) taken.set(v);
        else taken.clear(v);
    return taken;
}

Bits holding_any(const Possibilities::Column& column, const Bits& taken) {
    Bits holds;
    taken.for_each([&](std::size_t v) {
        if (holds.size() == 0) holds = column.holding[v];
        else holds |= column.holding[v];
    });
    return holds.size() == 0 ? Bits(column.at.size()) : holds;
}

// An alternative has one value of each column, so what a term does not take may as well be taken out: the fewer of both.
void keep_taken(Bits& holds, const Possibilities::Column& column, const Bits& taken) {
    const std::size_t count = taken.count();
    if (count >= taken.size() - count)
        (Bits(taken.size(), true) - taken).for_each([&](std::size_t v) { holds -= column.holding[v]; });
    else if (count == 1) taken.for_each([&](std::size_t v) { holds &= column.holding[v]; });
    else holds &= holding_any(column, taken);
}

}  // namespace

const Possibilities::Column& Possibilities::column_of(const Term& term) const {
    if (const Column* found = column(term.attribute)) return *found;
    throw ConditionFault(term.at, fmt::format("`{}` is not an attribute here", term.attribute));
}

Bits Possibilities::where(const Term& term, double tolerance) const {
    const auto& found = column_of(term);
    return holding_any(found, taken_by(term, found, tolerance));
}

Bits Possibilities::where(const Condition& condition) const {
    if (condition.terms.empty()) return all();
    Bits holds = where(condition.terms.front());
    for (std::size_t i = 1; i < condition.terms.size(); ++i) {
        const auto& found = column_of(condition.terms[i]);
        keep_taken(holds, found, taken_by(condition.terms[i], found, 0));
    }
    return holds;
}

std::vector<std::pair<const Value*, double>> Possibilities::values_left(const Column& column, const Bits& left) const {
    std::vector<double> sums(column.values.size());
    double whole = 0;
    left.for_each([&](std::size_t i) {
        sums[column.at[i]] += weights_[i];
        whole += weights_[i];
    });
    std::vector<std::pair<const Value*, double>> shares;
    for (std::size_t v = 0; v < sums.size(); ++v)
        if (sums[v] > 0) shares.emplace_back(&column.values[v], sums[v] / whole);
    return shares;
}

bool Possibilities::undecided(const Column& column, const Bits& left) const {
    const auto flags = present(column, left);
    return std::count(flags.begin(), flags.end(), true) > 1;
}

std::optional<std::string> describe(const Possibilities& set, const Bits& part, const Bits& whole,
                                    const std::vector<std::string>& prefer) {
    if (part == whole) return "";
    if (part.none()) return std::nullopt;
    // The tightest box around `part`; if it holds more than `part`, no conjunction describes it.
    std::vector<std::pair<const Possibilities::Column*, Bits>> box;
    Bits inside = whole;
    for (const auto& column : set.columns()) {
        Bits allowed(set.size());
        for (std::size_t v = 0; v < column.values.size(); ++v)
            if (column.holding[v].meets(part)) allowed |= column.holding[v];
        if (allowed.contains(whole)) continue;
        inside &= allowed;
        box.emplace_back(&column, std::move(allowed));
    }
    if (!(inside == part)) return std::nullopt;
    // Drop sides that are not needed: what nobody asked about, then many-valued ones, so that the plainest words stay.
    const auto wanted = [&](const Possibilities::Column* column) {
        return std::find(prefer.begin(), prefer.end(), column->attribute.name) != prefer.end();
    };
    std::stable_sort(box.begin(), box.end(), [&](const auto& a, const auto& b) {
        if (wanted(a.first) != wanted(b.first)) return wanted(b.first);
        return a.first->values.size() > b.first->values.size();
    });
    for (std::size_t i = 0; i < box.size();) {
        Bits rest = whole;
        for (std::size_t j = 0; j < box.size(); ++j)
            if (j != i) rest &= box[j].second;
        if (rest == part) box.erase(box.begin() + static_cast<std::ptrdiff_t>(i));
        else ++i;
    }
    std::sort(box.begin(), box.end(),
              [](const auto& a, const auto& b) { return a.first->attribute.name < b.first->attribute.name; });
    std::string text;
    for (const auto& [column, allowed] : box) {
        const auto here = present(*column, whole);
        text += fmt::format("{}{}={}", text.empty() ? "" : "; ", column->attribute.name,
                            spans_text(*column, present(*column, part), here));
    }
    return text;
}

ConditionPieces describe_in_pieces(const Possibilities& set, Bits part, const Bits& whole,
                                   const std::vector<std::string>& prefer) {
    ConditionPieces pieces;
    const std::size_t most = 4;
    while (part.any()) {
        if (auto text = describe(set, part, whole, prefer)) {
            pieces.conditions.push_back(std::move(*text));
            break;
        }
        // Split off the value that carries the largest describable share of what is left.
        const Possibilities::Column* best_column = nullptr;
        Bits best;
        for (const auto& column : set.columns())
            for (const auto& holding : column.holding) {
                const Bits piece = holding & part;
                if (piece == part || piece.count() <= (best_column ? best.count() : 0)) continue;
                if (!describe(set, piece, whole, prefer)) continue;
                best_column = &column;
                best = piece;
            }
        if (!best_column || pieces.conditions.size() + 1 >= most) {
            pieces.further = part.count();
            break;
        }
        pieces.conditions.push_back(*describe(set, best, whole, prefer));
        part -= best;
    }
    return pieces;
}

std::string further_words(const ConditionPieces& pieces) {
    if (pieces.further == 0) return "";
    return fmt::format("{}{} configuration{}", pieces.further, pieces.conditions.empty() ? "" : " further",
                       pieces.further == 1 ? "" : "s");
}

std::string pieces_text(const ConditionPieces& pieces) {
    auto texts = pieces.conditions;
    if (pieces.further > 0) texts.push_back(further_words(pieces));
    return fmt::format("{}", fmt::join(texts, ", or "));
}

}  // namespace casebound
