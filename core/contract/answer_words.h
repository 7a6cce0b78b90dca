// Short ways to write numbers, cells and sources that more than one domain needs; part of the contract, and nothing but
// shorthand. Decides nothing.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "core/contract/answer_lines.h"

namespace casebound {

// At most that many decimals, without trailing zeros: "4.7 L".
inline std::string quantity_text(double value, std::string_view unit, int decimals = 2) {
    std::string text = fixed(value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return unit.empty() ? text : text.append(" ").append(unit);
}

inline std::string cell(const Row& row, std::string_view column) { return std::string(row.text(column)); }

inline SourceNote standard(std::string title) { return {Evidence::standard, std::move(title)}; }
inline SourceNote law(std::string title) { return {Evidence::law, std::move(title)}; }
inline SourceNote from_memory(std::string title) { return {Evidence::memory, std::move(title)}; }
inline SourceNote practice(std::string_view detail) {
    return {Evidence::common_practice, SourceNote{}.title.append(": ").append(detail)};
}
// Plain arithmetic: no more than common practice.
inline SourceNote computed(std::string_view how) {
    return {Evidence::common_practice, std::string("computed: ").append(how)};
}

// A formula fed with inputs of an inquiry, those of them that have a value: no better than the weakest.
inline SourceNote fed_by(SourceNote formula, const Given& given, std::initializer_list<std::string_view> inputs) {
    for (const auto input : inputs)
        if (given.has(input)) formula = fed_with(std::move(formula), given.source(input));
    return formula;
}

}  // namespace casebound
