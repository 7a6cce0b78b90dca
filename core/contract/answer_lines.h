// Short ways to write the lines of an answer, each with where its value comes from; part of the contract, and nothing
// but shorthand. Decides nothing.
#pragma once

#include <charconv>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/answer.h"

namespace casebound {

// "4.70": always that many decimals, and never "-0".
inline std::string fixed(double value, int decimals) {
    char text[64];
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::fixed, decimals).ptr;
    const std::string_view shown(text, static_cast<std::size_t>(end - text));
    return std::string(shown.front() == '-' && shown.find_first_not_of("-0.") == shown.npos ? shown.substr(1) : shown);
}

inline SourceNote practice() { return {}; }
inline SourceNote from_memory() { return {Evidence::memory, "from memory"}; }

// A formula fed with an input: named after the formula, and no better than the input.
inline SourceNote fed_with(SourceNote formula, const SourceNote& input) {
    if (input.evidence > formula.evidence) formula = {input.evidence, formula.title + "; " + input.title, input.row};
    return formula;
}

inline AnswerLine text_line(std::string label, std::string text, SourceNote source = {}) {
    return {std::move(label), std::move(text), std::move(source)};
}

// What is drawn, over what; each with its unit, "" for a plain number.
struct Axis {
    std::string label, unit;
};
inline Series series_of(std::string title, Axis over, Axis drawn, const std::vector<std::string>& curves,
                        bool log_y = false) {
    Series series{std::move(title),
                  std::move(over.label),
                  std::move(over.unit),
                  std::move(drawn.label),
                  std::move(drawn.unit),
                  log_y,
                  {},
                  {}};
    for (const auto& curve : curves) series.curves.push_back({curve, {}});
    return series;
}

// What an answer comes to: never better than it stood, and what to do next where there is something.
inline void conclude(Answer& answer, Verdict verdict, std::string headline, std::string next = {}) {
    answer.lower(verdict);
    answer.headline = std::move(headline);
    if (!next.empty()) answer.next.push_back(std::move(next));
}

inline AnswerLine measure_line(std::string label, double value, std::string unit, int decimals,
                               SourceNote source = {}) {
    return {std::move(label), Measure{value, std::move(unit), decimals}, std::move(source)};
}

}  // namespace casebound
