// The heart: a finite set of complete alternatives, each with a weight and a value for every attribute, held
// as bitsets. One engine, three uses: which vehicle it is (alternatives are configurations), what is wrong
// with it (faults), what to order (what is still possible). Knows neither catalog nor domain.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/ground/bits.h"
#include "core/reason/condition.h"

namespace casebound {

class Possibilities {
public:
    struct Column {
        Attribute attribute;
        std::vector<Value> values;      // distinct, ordered by number, then text
        std::vector<std::uint16_t> at;  // value of each alternative
        std::vector<Bits> holding;      // per value: the alternatives that have it
    };

    // `cells[i][a]` is the value of alternative i for attribute a. Requires: a weight > 0 each, as many cells as attributes.
    Possibilities(std::vector<Attribute> attributes, const std::vector<std::vector<Value>>& cells,
                  std::vector<double> weights);
    // The same by columns. `values`: those of an attribute, each once; `at`: which of them each alternative has.
    struct Cells {
        std::vector<Value> values;
        std::vector<std::uint16_t> at;
    };
    Possibilities(std::vector<Attribute> attributes, std::vector<Cells> columns, std::vector<double> weights);
    Possibilities() = default;

    std::size_t size() const { return weights_.size(); }
    Bits all() const { return Bits(size(), true); }
    double weight(std::size_t alternative) const { return weights_[alternative]; }
    double weight(const Bits& alternatives) const;

    const std::vector<Column>& columns() const { return columns_; }
    const Column* column(std::string_view attribute) const;

    // The alternatives on which the condition holds. Throws ConditionFault for an attribute that is not there.
    Bits where(const Condition& condition) const;
    Bits where(const Term& term, double tolerance = 0) const;

    // The distinct values `attribute` still has within `left`, with their weights' shares.
    std::vector<std::pair<const Value*, double>> values_left(const Column& column, const Bits& left) const;
    bool undecided(const Column& column, const Bits& left) const;

private:
    const Column& column_of(const Term& term) const;
    std::vector<Column> columns_;
    std::vector<double> weights_;
};

// A condition for `part` within `whole` in the fewest plain words: ranges merged ("year=2003..2007"), attributes
// that do not matter left out. Exact: holds on `part` and nowhere else in `whole`. Empty text when part == whole;
// nothing when no single conjunction describes it. Attributes in `prefer` are kept in favour of others.
std::optional<std::string> describe(const Possibilities& set, const Bits& part, const Bits& whole,
                                    const std::vector<std::string>& prefer = {});

// `part` as the fewest such conjunctions found greedily, in a fixed order, and how many alternatives they leave out.
struct ConditionPieces {
    std::vector<std::string> conditions;
    std::size_t further = 0;
};
ConditionPieces describe_in_pieces(const Possibilities& set, Bits part, const Bits& whole,
                                   const std::vector<std::string>& prefer = {});

// The same for reading, joined by ", or "; "" when it is all of `whole`.
std::string pieces_text(const ConditionPieces& pieces);
std::string further_words(const ConditionPieces& pieces);  // "13 further configurations"; "" when none are left out

}  // namespace casebound
