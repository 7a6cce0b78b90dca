#include "core/reason/condition_words.h"

#include <optional>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/reason/condition.h"

namespace casebound {

namespace {

std::string span_words(const Span& span) {
    if (span.single()) return *span.low;
    if (span.low && span.high && !span.low_excluded && !span.high_excluded)
        return fmt::format("{} to {}", *span.low, *span.high);
    std::string out;
    if (span.low) out = fmt::format("{} {}", span.low_excluded ? "over" : "from", *span.low);
    if (span.high)
        out += fmt::format("{}{} {}", out.empty() ? "" : " and ", span.high_excluded ? "under" : "up to", *span.high);
    return out;
}

const Possibilities::Column* column_of(const Term& term, const Possibilities& set) {
    return set.column(term.attribute);
}

std::string value_words(const Term& term, const Possibilities& set) {
    const auto* column = column_of(term, set);
    std::string out;
    for (const auto& span : term.spans) {
        const auto words = span_words(span);
        out += (out.empty() ? "" : " or ") + (column && !column->attribute.choices.empty() ? spaced(words) : words);
    }
    return term.negated ? "not " + out : out;
}

std::string title_of(const Term& term, const Possibilities& set) {
    const auto* column = column_of(term, set);
    return column ? column->attribute.title : spaced(term.attribute);
}

}  // namespace

std::string condition_words(std::string_view condition, const Possibilities& set) {
    std::string out;
    for (const auto& term : parse_condition(condition).terms)
        out += fmt::format("{}{} {}", out.empty() ? "" : "; ", title_of(term, set), value_words(term, set));
    return out;
}

std::string where_words(const Possibilities& set, const Bits& part, const Bits& whole,
                        const std::vector<std::string>& prefer) {
    std::string out;
    for (const auto& piece : describe_in_pieces(set, part & whole, whole, prefer))
        out += (out.empty() ? "" : ", or ") + condition_words(piece, set);
    return out;
}

ToldApart told_apart(const Possibilities& set, const std::vector<Bits>& parts, const Bits& whole,
                     const std::vector<std::string>& prefer) {
    ToldApart told;
    std::string key;
    for (const auto& part : parts) {
        const auto text = describe(set, part & whole, whole, prefer);
        if (!text) return {};
        const auto terms = parse_condition(*text).terms;
        if (terms.size() != 1 || (!key.empty() && terms.front().attribute != key)) return {};
        key = terms.front().attribute;
        told.attribute = title_of(terms.front(), set);
        told.values.push_back(value_words(terms.front(), set));
    }
    return told;
}

}  // namespace casebound
