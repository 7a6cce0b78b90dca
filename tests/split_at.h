// A text taken apart at a mark, its parts without blanks around them. Written for the tests alone, so that they read
// conditions on their own.
#pragma once

#include <string>
#include <vector>

namespace casebound::tests {

inline std::string stripped(const std::string& text) {
    const auto first = text.find_first_not_of(' ');
    return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

inline std::vector<std::string> split_at(const std::string& text, const std::string& mark) {
    std::vector<std::string> parts;
    std::size_t start = 0;
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, start)) {
        parts.push_back(stripped(text.substr(start, at - start)));
        start = at + mark.size();
    }
    parts.push_back(stripped(text.substr(start)));
    return parts;
}

}  // namespace casebound::tests
