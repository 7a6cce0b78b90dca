#include "core/reason/spelled_columns.h"

#include <algorithm>
#include <utility>

namespace casebound {

namespace {

// Which of a column's values each of these is; one that it has not yet is added.
std::vector<std::uint16_t> places_of(std::vector<Value> wanted, std::vector<Value>& values) {
    std::vector<std::uint16_t> places;
    places.reserve(wanted.size());
    for (auto& value : wanted) {
        const auto found = std::find(values.begin(), values.end(), value);
        places.push_back(static_cast<std::uint16_t>(found - values.begin()));
        if (found == values.end()) values.push_back(std::move(value));
    }
    return places;
}

}  // namespace

std::size_t SpelledColumns::add(const Condition& row, double share) {
    if (attributes_.empty())
        for (const auto& term : row.terms)
            if (const auto* known = words_.attribute(term.attribute)) attributes_.push_back(*known);
    columns_.resize(attributes_.size());
    std::vector<std::vector<std::uint16_t>> places(columns_.size());  // by column: the values that the row gives it
    std::vector<std::size_t> order;                                   // of columns; the first turns fastest
    for (auto& choice : spelled_out(row, attributes_)) {
        const auto known = std::find_if(attributes_.begin(), attributes_.end(),
                                        [&](const Attribute& a) { return a.name == choice.attribute; });
        order.push_back(static_cast<std::size_t>(known - attributes_.begin()));
        places[order.back()] = places_of(std::move(choice.values), columns_[order.back()].values);
    }
    std::size_t combinations = 1;
    for (const auto c : order) combinations *= places[c].size();
    for (std::size_t c = 0; c < columns_.size(); ++c)
        if (places[c].empty()) {
            places[c] = places_of({Value{"none", std::nullopt}}, columns_[c].values);
            order.push_back(c);
        }
    std::size_t every = 1;  // configurations until the column turns to its next value
    for (const auto c : order) {
        for (std::size_t n = 0; n < combinations; ++n)
            columns_[c].at.push_back(places[c][n / every % places[c].size()]);
        every *= places[c].size();
    }
    weights_.insert(weights_.end(), combinations, share / static_cast<double>(combinations));
    return combinations;
}

Possibilities SpelledColumns::possibilities() {
    return {std::move(attributes_), std::move(columns_), std::move(weights_)};
}

}  // namespace casebound
