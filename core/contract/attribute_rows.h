// Short ways to say what the attributes of a vocabulary can be; part of the contract, and nothing but shorthand.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/contract/domain_words.h"
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

// What an odometer read: doubted above 1.5 million km, refused above 5. Common practice, no source.
inline Attribute distance_of(std::string name, std::string title, std::string how, double minutes) {
    return usually(0, 1500000,
                   within(0, 5000000, number_of("km", 0, std::move(name), std::move(title), std::move(how), minutes)));
}

// A thread that is measured with a calliper, 10 for M10.
inline Attribute bolt_thread_of(double least_mm, double most_mm, std::string name, std::string title, std::string how,
                                double minutes) {
    return within(least_mm, most_mm, number_of("mm", 0.3, std::move(name), std::move(title), std::move(how), minutes));
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
