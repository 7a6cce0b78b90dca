#include "core/reason/condition.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "core/ground/units.h"

namespace casebound {

namespace {

constexpr std::string_view blanks = " \t";

bool is_name(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    }) && !(text[0] >= '0' && text[0] <= '9');
}

// Calls `each(part, offset)` for the parts of `text` between separators.
template <class Each> void split(std::string_view text, char separator, Each each) {
    std::size_t start = 0;
    for (;;) {
        const auto end = text.find(separator, start);
        each(text.substr(start, end == std::string_view::npos ? end : end - start), start);
        if (end == std::string_view::npos) return;
        start = end + 1;
    }
}

Span parse_span(std::string_view raw, std::size_t at) {
    const auto text = trimmed(raw);
    if (text.empty()) throw ConditionFault(at, "a value is missing: write attribute=value");
    if (text.find_first_of("=<>") != std::string_view::npos)
        throw ConditionFault(
            at, fmt::format("`{}` is not a value: write one comparison a term, terms joined by `;`", text));
    const auto dots = text.find("..");
    if (dots == std::string_view::npos) return {std::string(text), std::string(text)};
    const auto low = trimmed(text.substr(0, dots)), high = trimmed(text.substr(dots + 2));
    if (low.empty() && high.empty())
        throw ConditionFault(at, "a range needs at least one end: write 2004..2008, 2004.. or ..2008");
    if (high.find("..") != std::string_view::npos)
        throw ConditionFault(at, fmt::format("`{}` has two `..`: write low..high", text));
    Span span;
    if (!low.empty()) span.low = std::string(low);
    if (!high.empty()) span.high = std::string(high);
    return span;
}

std::vector<Span> spans_at(std::string_view text, std::size_t at) {
    std::vector<Span> spans;
    split(text, '|',
          [&](std::string_view part, std::size_t offset) { spans.push_back(parse_span(part, at + offset)); });
    return spans;
}

Span comparison(std::string_view op, std::string_view raw, std::size_t at) {
    const auto text = trimmed(raw);
    if (text.empty() || text.find_first_of("|=<>") != std::string_view::npos ||
        text.find("..") != std::string_view::npos)
        throw ConditionFault(at, fmt::format("`{}{}`: a comparison takes one value, such as >=45mm", op, text));
    Span span;
    if (op[0] == '<') {
        span.high = std::string(text);
        span.high_excluded = op.size() == 1;
    } else {
        span.low = std::string(text);
        span.low_excluded = op.size() == 1;
    }
    return span;
}

Term parse_term(std::string_view raw, std::size_t at) {
    Term term;
    std::string_view text = trimmed(raw);
    if (text.size() > 4 && text.substr(0, 3) == "not" && blanks.find(text[3]) != std::string_view::npos) {
        term.negated = true;
        text = trimmed(text.substr(4));
    }
    term.at = static_cast<std::size_t>(text.data() - raw.data()) + at;
    const auto op = text.find_first_of("=<>");
    if (op == std::string_view::npos)
        throw ConditionFault(term.at, fmt::format("`{}` has no comparison: write attribute=value", text));
    const auto name = trimmed(text.substr(0, op));
    if (!is_name(name))
        throw ConditionFault(term.at,
                             fmt::format("`{}` is not an attribute name: lower case letters, digits and _", name));
    term.attribute = name;
    const std::size_t length = text[op] != '=' && op + 1 < text.size() && text[op + 1] == '=' ? 2 : 1;
    const auto right = text.substr(op + length);
    const auto right_at = term.at + op + length;
    if (text[op] == '=') term.spans = spans_at(right, right_at);
    else term.spans = {comparison(text.substr(op, length), right, right_at)};
    return term;
}

std::string to_text(const Span& span) {
    if (span.single()) return *span.low;
    return fmt::format("{}..{}", span.low.value_or(""), span.high.value_or(""));
}

bool comparison_only(const Term& term) {
    return term.spans.size() == 1 && !term.spans[0].single() &&
           (term.spans[0].low_excluded || term.spans[0].high_excluded);
}

int month_number(std::string_view text) {
    int year = 0, month = 0;
    const bool shaped = text.size() == 7 && text[4] == '-' &&
                        std::from_chars(text.data(), text.data() + 4, year).ptr == text.data() + 4 &&
                        std::from_chars(text.data() + 5, text.data() + 7, month).ptr == text.data() + 7;
    return shaped && month >= 1 && month <= 12 && year >= 1886 ? year * 12 + month - 1 : -1;
}

int year_number(std::string_view text) {
    int year = 0;
    const bool shaped = text.size() == 4 && std::from_chars(text.data(), text.data() + 4, year).ptr == text.data() + 4;
    return shaped && year >= 1886 ? year : -1;
}

double number_of(const Attribute& attribute, std::string_view text) {
    if (attribute.kind == ValueKind::month) {
        const int month = month_number(text);
        if (month < 0) throw ConditionFault(0, fmt::format("`{}` is not a month: write it as 2006-09", text));
        return month;
    }
    if (attribute.kind == ValueKind::year) {
        const int year = year_number(text);
        if (year < 0) throw ConditionFault(0, fmt::format("`{}` is not a year: write it as 2006", text));
        return year;
    }
    try {
        // The number that is shown, so that what was read off an answer can be told again.
        const std::string shown = plain_number(quantity_in(text, attribute.unit));
        double number = 0;
        std::from_chars(shown.data(), shown.data() + shown.size(), number);
        return number;
    } catch (const UnitFault& fault) { throw ConditionFault(0, fault.what()); }
}

std::string normal_text(const Attribute& attribute, double number, std::string_view text) {
    if (attribute.kind != ValueKind::number) return std::string(text);
    return attribute.unit.empty() ? plain_number(number) : plain_number(number) + " " + attribute.unit;
}

// "25 x 32 x 7 mm" as lengths in the attribute's unit; a unit at the end counts for all of them.
std::vector<double> lengths_of(const Attribute& attribute, std::string_view text) {
    std::vector<std::string> parts(1);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool times = text.compare(i, 2, "\xc3\x97") == 0;
        if (times || text[i] == 'x' || text[i] == 'X' || text[i] == '*') parts.emplace_back(), i += times;
        else parts.back() += text[i];
    }
    const auto& last = parts.back();
    const auto unit = last.find_first_not_of("0123456789., ");
    std::vector<double> lengths;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        auto part = std::string(trimmed(parts[i]));
        if (i + 1 < parts.size() && unit != std::string::npos) part += last.substr(unit);
        lengths.push_back(number_of(attribute, part));
    }
    if (lengths.size() < 2)
        throw ConditionFault(0, fmt::format("`{}` is not a size: write it as 25x32x7, the {} on all of it or on none",
                                            text, attribute.unit.empty() ? "unit" : attribute.unit));
    return lengths;
}

std::string size_text(const Attribute& attribute, std::string_view text) {
    std::string all;
    for (const double length : lengths_of(attribute, text)) all += (all.empty() ? "" : "x") + plain_number(length);
    return attribute.unit.empty() ? all : all + " " + attribute.unit;
}

bool ordered(ValueKind kind) {
    return kind == ValueKind::number || kind == ValueKind::year || kind == ValueKind::month;
}

std::string month_text(int months) { return fmt::format("{:04}-{:02}", months / 12, months % 12 + 1); }

bool contains(const std::vector<std::string>& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// "a+b": each of them one of the choices, none that says there is nothing.
Value side_by_side(const Attribute& attribute, std::string_view text) {
    std::vector<std::string_view> seen;
    split(text, '+', [&](std::string_view part, std::size_t) {
        const auto one = trimmed(part);
        typed_value(attribute, one);
        if (one == attribute.alone || one == "none")
            throw ConditionFault(0, fmt::format("{}: {} says there is nothing else: leave it out, or write it alone",
                                                attribute.name, one));
        if (std::find(seen.begin(), seen.end(), one) == seen.end()) seen.push_back(one);
    });
    return {fmt::format("{}", fmt::join(seen, "+")), std::nullopt};
}

// `none` is a value on its own, with no place in a range or a comparison.
bool spans_none(const Span& span) { return !span.single() && (span.low == "none" || span.high == "none"); }
std::string none_in_range(const Attribute& attribute) {
    return fmt::format("{}: none has no place in a range: write it as one of several, none|2004..2008", attribute.name);
}

// Whole years or months between two ends, both included.
std::vector<Value> counted(const Attribute& attribute, const Span& span) {
    if (!span.low || !span.high || span.low_excluded || span.high_excluded)
        throw ConditionFault(0, fmt::format("{}: a configuration needs both ends of a range", attribute.name));
    if (attribute.kind == ValueKind::number || !ordered(attribute.kind))
        throw ConditionFault(
            0, fmt::format("{}: only years and months may be a range in a configuration: list the values with |",
                           attribute.name));
    if (spans_none(span)) throw ConditionFault(0, none_in_range(attribute));
    const int low = static_cast<int>(*typed_value(attribute, *span.low).number);
    const int high = static_cast<int>(*typed_value(attribute, *span.high).number);
    if (low > high)
        throw ConditionFault(
            0, fmt::format("{}: {}..{} runs backwards: swap the ends", attribute.name, *span.low, *span.high));
    std::vector<Value> values;
    for (int at = low; at <= high; ++at)
        values.push_back({attribute.kind == ValueKind::year ? fmt::format("{:04}", at) : month_text(at), at});
    return values;
}

}  // namespace

Condition parse_condition(std::string_view text) {
    Condition condition;
    if (trimmed(text).empty()) return condition;
    split(text, ';', [&](std::string_view part, std::size_t at) {
        if (trimmed(part).empty()) throw ConditionFault(at, "an empty term: remove the extra `;`");
        condition.terms.push_back(parse_term(part, at));
    });
    return condition;
}

std::vector<Span> parse_spans(std::string_view right_side) { return spans_at(right_side, 0); }

std::string to_text(const Condition& condition) {
    std::string text;
    for (const auto& term : condition.terms) {
        if (!text.empty()) text += "; ";
        if (term.negated) text += "not ";
        text += term.attribute;
        if (comparison_only(term)) {
            const auto& span = term.spans[0];
            text += span.high ? (span.high_excluded ? "<" : "<=") : (span.low_excluded ? ">" : ">=");
            text += span.high ? *span.high : *span.low;
            continue;
        }
        text += "=";
        for (std::size_t i = 0; i < term.spans.size(); ++i) text += (i ? "|" : "") + to_text(term.spans[i]);
    }
    return text;
}

Value typed_value(const Attribute& attribute, std::string_view raw) {
    const auto text = trimmed(raw);
    if (text == "none" || contains(attribute.words, text)) return {std::string(text), std::nullopt};
    if (attribute.several && text.find('+') != std::string_view::npos) return side_by_side(attribute, text);
    if (ordered(attribute.kind)) {
        const double number = number_of(attribute, text);
        return {normal_text(attribute, number, text), number};
    }
    if (attribute.kind == ValueKind::size) return {size_text(attribute, text), std::nullopt};
    if (attribute.kind == ValueKind::yes_no && text != "yes" && text != "no")
        throw ConditionFault(0, fmt::format("{}: `{}` must be yes or no", attribute.name, text));
    if (!attribute.choices.empty() && !contains(attribute.choices, text))
        throw ConditionFault(
            0, fmt::format("{}: `{}` is not one of {}", attribute.name, text, fmt::join(attribute.choices, ", ")));
    return {std::string(text), std::nullopt};
}

Matcher::Matcher(const Attribute& attribute, const Term& term, double tolerance)
    : negated_(term.negated), tolerance_(tolerance) {
    if (attribute.kind == ValueKind::size) size_of_ = attribute;
    for (const auto& span : term.spans) {
        if (!span.single() && !ordered(attribute.kind))
            throw ConditionFault(term.at, fmt::format("{} has no order: list its values with |", attribute.name));
        if (spans_none(span)) throw ConditionFault(term.at, none_in_range(attribute));
        Bounds bounds;
        bounds.low_excluded = span.low_excluded;
        bounds.high_excluded = span.high_excluded;
        try {
            if (span.low) bounds.low = typed_value(attribute, *span.low);
            if (span.high) bounds.high = span.single() ? bounds.low : typed_value(attribute, *span.high);
        } catch (const ConditionFault& fault) { throw ConditionFault(term.at, fault.what()); }
        if (bounds.low && bounds.high && bounds.low->number && bounds.high->number &&
            *bounds.low->number > *bounds.high->number)
            throw ConditionFault(term.at, fmt::format("{}..{} runs backwards: swap the ends", *span.low, *span.high));
        bounds_.push_back(std::move(bounds));
    }
}

bool Matcher::same_size(const std::string& told, const std::string& value) const {
    if (told == "none" || value == "none") return told == value;
    const auto a = lengths_of(*size_of_, told), b = lengths_of(*size_of_, value);
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [&](double x, double y) { return std::abs(x - y) <= tolerance_ + 1e-9 * std::max(1.0, x); });
}

bool Matcher::in(const Bounds& bounds, const Value& value) const {
    if (size_of_) return bounds.low && same_size(bounds.low->text, value.text);
    const bool numbers = value.number && (!bounds.low || bounds.low->number) && (!bounds.high || bounds.high->number);
    if (!numbers) return bounds.low && bounds.high && bounds.low->text == value.text && bounds.high->text == value.text;
    constexpr double rounding = 1e-9;
    const double slack = tolerance_ + rounding * std::max(1.0, std::abs(*value.number));
    const double at = *value.number;
    if (bounds.low && (bounds.low_excluded ? at <= *bounds.low->number + rounding : at < *bounds.low->number - slack))
        return false;
    if (bounds.high &&
        (bounds.high_excluded ? at >= *bounds.high->number - rounding : at > *bounds.high->number + slack))
        return false;
    return true;
}

bool Matcher::matches(const Value& value) const {
    const bool any = std::any_of(bounds_.begin(), bounds_.end(),
                                 [&](const Bounds& bounds) { return in(bounds, value); });
    return any != negated_;
}

std::vector<AttributeValues> spelled_out(const Condition& row, const std::vector<Attribute>& attributes,
                                         std::size_t most) {
    std::vector<AttributeValues> out;
    std::size_t combinations = 1;
    for (const auto& term : row.terms) {
        const auto found = std::find_if(attributes.begin(), attributes.end(),
                                        [&](const Attribute& a) { return a.name == term.attribute; });
        if (found == attributes.end())
            throw ConditionFault(term.at, fmt::format("`{}` is not an attribute", term.attribute));
        if (term.negated) throw ConditionFault(term.at, "a configuration says what is there: `not` has no place in it");
        if (std::any_of(out.begin(), out.end(),
                        [&](const AttributeValues& v) { return v.attribute == term.attribute; }))
            throw ConditionFault(term.at, fmt::format("{} is given twice: join its values with |", term.attribute));
        AttributeValues values{term.attribute, {}};
        std::set<std::string> seen;
        try {
            for (const auto& span : term.spans)
                for (auto& value :
                     span.single() ? std::vector<Value>{typed_value(*found, *span.low)} : counted(*found, span))
                    if (seen.insert(value.text).second) values.values.push_back(std::move(value));
        } catch (const ConditionFault& fault) { throw ConditionFault(term.at, fault.what()); }
        combinations *= values.values.size();
        if (combinations > most)
            throw ConditionFault(term.at,
                                 fmt::format("the row stands for more than {} combinations: split the line", most));
        out.push_back(std::move(values));
    }
    return out;
}

}  // namespace casebound
