#include "core/reason/reasoner.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include <fmt/format.h>

#include "core/reason/possibilities.h"
#include "core/reason/question.h"

namespace casebound {

namespace {

Possibilities possibilities_of(const AlternativeTable& table) {
    std::vector<std::vector<Value>> cells;
    std::vector<double> weights;
    for (const auto& alternative : table.alternatives) {
        if (alternative.values.size() != table.attributes.size())
            throw std::domain_error(fmt::format("{}: {} values for {} attributes", alternative.label,
                                                alternative.values.size(), table.attributes.size()));
        std::vector<Value> row;
        for (std::size_t a = 0; a < table.attributes.size(); ++a)
            row.push_back(alternative.values[a].empty() ? Value{}
                                                        : typed_value(table.attributes[a], alternative.values[a]));
        cells.push_back(std::move(row));
        weights.push_back(alternative.weight);
    }
    return {table.attributes, cells, weights};
}

// An alternative that says nothing about an attribute agrees with every finding on it.
Bits agreeing(const Possibilities& set, const std::string& attribute, const std::string& value) {
    const Term term{attribute, false, parse_spans(value), 0};
    const auto* column = set.column(attribute);
    Bits holds = set.where(term, column->attribute.tolerance);
    for (std::size_t v = 0; v < column->values.size(); ++v)
        if (column->values[v].text.empty()) holds |= column->holding[v];
    return holds;
}

std::vector<Ranking::Place> places(const AlternativeTable& table, const Possibilities& set, const Bits& left) {
    std::map<std::string, double> sums;
    left.for_each([&](std::size_t i) { sums[table.alternatives[i].label] += set.weight(i); });
    const double whole = set.weight(left);
    std::vector<Ranking::Place> result;
    for (const auto& [label, sum] : sums) result.push_back({label, sum / whole});
    std::stable_sort(result.begin(), result.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
    return result;
}

double entropy(const std::vector<Ranking::Place>& ranked) {
    double bits = 0;
    for (const auto& place : ranked)
        if (place.share > 0) bits -= place.share * std::log2(place.share);
    return bits;
}

// Expected entropy of the places once the attribute is known. An alternative that says nothing may turn out any of
// the values left, each alike, and agrees with all of them. Nothing when fewer than two values are left.
std::optional<double> entropy_after(const AlternativeTable& table, const Possibilities& set,
                                    const Possibilities::Column& column, const Bits& left) {
    Bits silent(set.size());
    std::vector<std::size_t> outcomes;
    for (std::size_t v = 0; v < column.values.size(); ++v) {
        if (column.values[v].text.empty()) silent = column.holding[v] & left;
        else if (column.holding[v].meets(left)) outcomes.push_back(v);
    }
    if (outcomes.size() < 2) return std::nullopt;
    const double whole = set.weight(left), each_silent = set.weight(silent) / static_cast<double>(outcomes.size());
    double after = 0;
    for (const auto v : outcomes) {
        const double chance = (set.weight(column.holding[v] & left) + each_silent) / whole;
        after += chance *
                 entropy(places(table, set, agreeing(set, column.attribute.name, column.values[v].text) & left));
    }
    return after;
}

std::vector<Ranking::Question> next_tests(const AlternativeTable& table, const Possibilities& set, const Bits& left) {
    std::vector<Ranking::Question> tests;
    const double before = entropy(places(table, set, left));
    for (const auto& column : set.columns())
        if (const auto after = entropy_after(table, set, column, left); after && before - *after > 1e-9)
            tests.push_back(
                {column.attribute.name, column.attribute.how, effort_minutes(column.attribute), before - *after});
    std::stable_sort(tests.begin(), tests.end(),
                     [](const auto& a, const auto& b) { return a.gain_bits / a.minutes > b.gain_bits / b.minutes; });
    return tests;
}

}  // namespace

Ranking Engine::rank(const AlternativeTable& table,
                     const std::vector<std::pair<std::string, std::string>>& findings) const {
    try {
        const auto set = possibilities_of(table);
        Ranking ranking;
        Bits left = set.all();
        std::string said;
        for (const auto& [attribute, value] : findings) {
            if (!set.column(attribute)) continue;
            said += fmt::format("{}{}={}", said.empty() ? "" : ", ", attribute, value);
            left &= agreeing(set, attribute, value);
        }
        if (left.none()) {
            ranking.contradiction = fmt::format(
                "no single fault explains {}: look again at each, or suspect two faults", said);
            return ranking;
        }
        ranking.places = places(table, set, left);
        ranking.questions = next_tests(table, set, left);
        return ranking;
    } catch (const ConditionFault& fault) { throw std::domain_error(fault.what()); }
}

}  // namespace casebound
