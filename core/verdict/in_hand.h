// What is in the hand, as a person types it: "25 x 32 x 7", "ring, 3.5 section, 25 inside", "M12x1.25", "75W". Knows no
// table; takes nothing for a number that is part of a word.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct HandNumber {
    double value{};
    std::string unit;   // "mm", "A", "V", "ohm", "degC", "%"; empty: not said
    std::string label;  // the word that belongs to it, "section"; empty: none stands beside it
    std::string text;   // as typed
};

struct InHand {
    std::vector<std::vector<HandNumber>> sizes;  // 25 x 32 x 7: in that order
    std::vector<HandNumber> numbers;             // each by itself
    std::vector<std::string> words;              // in small letters; labels are not among them
    bool measured() const { return !sizes.empty() || !numbers.empty(); }
};

InHand in_hand(std::string_view typed);

// Small letters and digits of a text as words: "O-ring sizes" is o, ring, sizes; "75W-90" is 75w, 90.
std::vector<std::string> small_words(std::string_view text);

// Are two words one and the same, or one the beginning of the other, of four letters at least?
bool alike(std::string_view a, std::string_view b);

}  // namespace casebound
