// A condition as a mechanic says it: attributes by their titles, values in words, no keys. For reading only; what must
// be parsed again is the condition language itself.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/reason/possibilities.h"
#include "core/reason/vocabulary.h"

namespace casebound {

// "mount_kind=solid|hydraulic; pan_depth<=41mm": "kind of mount solid or hydraulic; pan depth up to 41 mm".
std::string condition_words(std::string_view condition, const Possibilities& set);
std::string condition_words(std::string_view condition, const Vocabularies& words);  // of no one vehicle

// A value alone: "hat in bore" of a choice, "41 mm" or as the person wants lengths shown.
std::string value_words(const Attribute& attribute, std::string_view text);

// `part` within `whole` in the same words, pieces joined by ", or "; "" when it is all of it. `prefer` as in describe().
std::string where_words(const Possibilities& set, const Bits& part, const Bits& whole,
                        const std::vector<std::string>& prefer = {});

// Several parts of `whole` told apart by one attribute: its title, and each part by its value alone ("41 mm"). Empty
// words when more than one attribute is needed.
struct ToldApart {
    std::string attribute;
    std::vector<std::string> values;
};
ToldApart told_apart(const Possibilities& set, const std::vector<Bits>& parts, const Bits& whole,
                     const std::vector<std::string>& prefer = {});

}  // namespace casebound
