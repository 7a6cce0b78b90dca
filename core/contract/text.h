// Cutting text into parts and joining it; part of the contract, and nothing but shorthand.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// Without blanks, tabs and line ends at either end.
inline std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const auto first = text.find_first_not_of(blanks);
    return first == std::string_view::npos ? std::string_view{}
                                           : text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

inline std::vector<std::string> split_at(std::string_view text, char separator) {
    std::vector<std::string> parts(1);
    for (const char c : text) {
        if (c == separator) parts.emplace_back();
        else parts.back() += c;
    }
    return parts;
}

inline std::string listed(const std::vector<std::string>& texts, std::string_view between = ", ") {
    std::string all;
    for (const auto& text : texts) all.append(all.empty() ? "" : between).append(text);
    return all;
}

}  // namespace casebound
