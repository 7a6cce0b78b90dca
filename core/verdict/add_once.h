#pragma once

#include <algorithm>
#include <string>
#include <vector>

namespace casebound {

// Nothing said is nothing to add: a condition that is empty holds everywhere.
inline void add_once(std::vector<std::string>& list, std::string text) {
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end()) list.push_back(std::move(text));
}

}  // namespace casebound
