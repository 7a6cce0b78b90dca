#pragma once

#include <algorithm>
#include <string>
#include <vector>

namespace casebound {

inline void add_once(std::vector<std::string>& list, std::string text) {
    if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(std::move(text));
}

}  // namespace casebound
