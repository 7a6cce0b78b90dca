// Short ways to write the lines of an answer, each with where its value comes from, for any domain; part of the
// contract. Decides nothing.
#pragma once

#include <charconv>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

inline std::string fixed(double value, int decimals) {
    char text[64];
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::fixed, decimals).ptr;
    return {text, end};
}

inline SourceNote practice() { return {}; }
inline SourceNote from_memory() { return {Evidence::memory, "from memory"}; }

// "demo-fleet, applications.csv:41"
inline SourceNote row_source(const Origin& origin) {
    return {origin.evidence, origin.pack + ", " + origin.file + ":" + std::to_string(origin.line)};
}

// Typed by hand, told of the vehicle, or assumed: an assumption and hearsay are no better than memory.
inline SourceNote given_source(const GivenValue& value) {
    const bool hearsay = value.origin == "assumed" || value.origin.find(": assumed") != std::string::npos ||
                         value.origin.find("seller said") != std::string::npos;
    return {hearsay ? Evidence::memory : Evidence::measured, value.origin};
}

inline SourceNote given_source(const Given& given, std::string_view name) {
    return given.has(name) ? given_source(given.values.find(name)->second) : practice();
}

inline SourceNote weaker(const SourceNote& a, const SourceNote& b) { return b.evidence > a.evidence ? b : a; }

// A formula fed with an input: named after the formula, and no better than the input.
inline SourceNote fed_with(SourceNote formula, const SourceNote& input) {
    if (input.evidence > formula.evidence) formula = {input.evidence, formula.title + "; " + input.title};
    return formula;
}

inline AnswerLine text_line(std::string label, std::string text, SourceNote source = {}) {
    return {std::move(label), std::move(text), std::move(source)};
}

inline AnswerLine measure_line(std::string label, double value, std::string unit, int decimals,
                               SourceNote source = {}) {
    return {std::move(label), Measure{value, std::move(unit), decimals}, std::move(source)};
}

inline std::string listed(const std::vector<std::string>& texts, std::string_view between = ", ") {
    std::string all;
    for (const auto& text : texts) all.append(all.empty() ? "" : between).append(text);
    return all;
}

}  // namespace casebound
