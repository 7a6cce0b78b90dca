#include "core/reason/condition_words.h"

#include <optional>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition.h"

namespace casebound {

namespace {

std::string shown_bound(const std::string& text, const Attribute* attribute) {
    return attribute ? value_words(*attribute, text) : shown_value(text);
}

std::string span_words(const Span& span, const Attribute* attribute) {
    const auto low = span.low ? shown_bound(*span.low, attribute) : std::string();
    const auto high = span.high ? shown_bound(*span.high, attribute) : std::string();
    if (span.single()) return low;
    if (span.low && span.high && !span.low_excluded && !span.high_excluded) return fmt::format("{} to {}", low, high);
    std::string out;
    if (span.low) out = fmt::format("{} {}", span.low_excluded ? "over" : "from", low);
    if (span.high)
        out += fmt::format("{}{} {}", out.empty() ? "" : " and ", span.high_excluded ? "under" : "up to", high);
    return out;
}

const Attribute* attribute_of(const Term& term, const Possibilities& set) {
    const auto* column = set.column(term.attribute);
    return column ? &column->attribute : nullptr;
}

std::string values_of(const Term& term, const Attribute* attribute) {
    std::string out;
    for (const auto& span : term.spans) out += (out.empty() ? "" : " or ") + span_words(span, attribute);
    return term.negated ? "not " + out : out;
}

std::string title_of(const Term& term, const Attribute* attribute) {
    return attribute ? named(attribute->title, attribute->name) : spaced(term.attribute);
}

template <class Named> std::string words_of(std::string_view condition, const Named& attribute_named) {
    std::string out;
    for (const auto& term : parse_condition(condition).terms) {
        const Attribute* attribute = attribute_named(term);
        out += fmt::format("{}{} {}", out.empty() ? "" : "; ", title_of(term, attribute), values_of(term, attribute));
    }
    return out;
}

}  // namespace

namespace {

// "pan_rail+cooler_line", seen side by side: "pan rail and cooler line".
std::string several_words(std::string_view text) {
    std::string out;
    for (const char c : spaced(text)) out += c == '+' ? std::string(" and ") : std::string(1, c);
    return out;
}

}  // namespace

std::string value_words(const Attribute& attribute, std::string_view text) {
    if (!attribute.choices.empty()) return named(several_words(text), text);
    const bool bare = text.find_first_not_of("0123456789.-") == std::string_view::npos;
    return attribute.kind == ValueKind::number && bare && !attribute.unit.empty()
               ? shown_value(fmt::format("{} {}", text, attribute.unit))
               : shown_value(text);
}

std::string condition_words(std::string_view condition, const Possibilities& set) {
    return words_of(condition, [&](const Term& term) { return attribute_of(term, set); });
}

std::string condition_words(std::string_view condition, const Vocabularies& words) {
    return words_of(condition, [&](const Term& term) { return words.attribute(term.attribute); });
}

std::string where_words(const Possibilities& set, const Bits& part, const Bits& whole,
                        const std::vector<std::string>& prefer) {
    auto pieces = describe_in_pieces(set, part & whole, whole, prefer);
    for (auto& piece : pieces.conditions) piece = condition_words(piece, set);
    return pieces_text(pieces);
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
        const auto* attribute = attribute_of(terms.front(), set);
        told.attribute = title_of(terms.front(), attribute);
        told.values.push_back(values_of(terms.front(), attribute));
    }
    return told;
}

}  // namespace casebound
