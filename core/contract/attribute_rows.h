// Short ways to say what the attributes of a vocabulary can be; part of the contract, and nothing but shorthand.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

// Outside is refused.
inline Attribute within(double least, double most, Attribute attribute) {
    attribute.extent = {least, most, least, most};
    return attribute;
}

// A whole number; outside is refused.
inline Attribute counted(double least, double most, Attribute attribute) {
    attribute = within(least, most, std::move(attribute));
    attribute.extent.whole = true;
    return attribute;
}

// Outside is taken, and said. Requires: what it can be is said before.
inline Attribute usually(double least, double most, Attribute attribute) {
    attribute.extent.usual_least = least;
    attribute.extent.usual_most = most;
    return attribute;
}

inline Attribute or_word(std::string word, Attribute attribute) {
    attribute.words.push_back(std::move(word));
    return attribute;
}

// Several may be told side by side; `alone` says that there is none of them.
inline Attribute several(std::string alone, Attribute attribute) {
    attribute.several = true;
    attribute.alone = std::move(alone);
    return attribute;
}

}  // namespace casebound
