// The one condition language, used by configurations, applications, stand-ins, jobs and what is told.
//
//   engine=2.6; drive=2wd|4wd; year=2004..2008; pan_depth>=45mm; not market=island
//
// Terms are joined by `;` and all must hold. `a..b` includes both ends, either may be left out.
// Parsing knows no attribute; typing a value needs its Attribute. Never touches the catalog.
#pragma once

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

// `at` is the 0-based offset in the text; what() says what is wrong and what to write instead.
class ConditionFault : public std::runtime_error {
public:
    ConditionFault(std::size_t offset, const std::string& what) : std::runtime_error(what), at(offset) {}
    std::size_t at;
};

struct Span {  // "a" has low == high; an absent end is open
    std::optional<std::string> low, high;
    bool low_excluded{}, high_excluded{};
    bool single() const { return low && high && *low == *high && !low_excluded && !high_excluded; }
};

struct Term {
    std::string attribute;
    bool negated{};
    std::vector<Span> spans;  // any of them
    std::size_t at{};         // offset in the text
};

struct Condition {
    std::vector<Term> terms;
};

Condition parse_condition(std::string_view text);            // throws ConditionFault
std::vector<Span> parse_spans(std::string_view right_side);  // "38mm", "a|b", "11..16"; throws ConditionFault
std::string to_text(const Condition& condition);             // normal form, parses back to the same

// A value of a known attribute. `none` is a value of every kind: the vehicle has no such thing.
struct Value {
    std::string text;
    std::optional<double> number;  // in the attribute's unit; year; month as year * 12 + month - 1
    bool operator==(const Value&) const = default;
};

// Throws ConditionFault (offset 0) for a value the attribute cannot have: wrong unit, not a month, not a choice.
Value typed_value(const Attribute& attribute, std::string_view text);

// A term typed against its attribute, ready to be asked of values.
class Matcher {
public:
    Matcher(const Attribute& attribute, const Term& term, double tolerance = 0);  // throws ConditionFault
    bool matches(const Value& value) const;

private:
    struct Bounds {
        std::optional<Value> low, high;
        bool low_excluded{}, high_excluded{};
    };
    bool in(const Bounds& bounds, const Value& value) const;
    bool same_size(const std::string& told, const std::string& value) const;
    std::vector<Bounds> bounds_;
    std::optional<Attribute> size_of_;  // of an attribute whose values are sizes
    bool negated_;
    double tolerance_;
};

// Every combination a row of `configurations` stands for: alternatives and ranges (over years and months)
// spelled out. Throws ConditionFault for an open range, a comparison, `not`, or more than `most` combinations.
struct AttributeValues {
    std::string attribute;
    std::vector<Value> values;
};
std::vector<AttributeValues> spelled_out(const Condition& row, const std::vector<Attribute>& attributes,
                                         std::size_t most = 4096);

}  // namespace casebound
