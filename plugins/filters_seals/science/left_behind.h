// What stays in the vehicle when an old part of this domain comes off, by role: what, where, how to see it, how to get
// it out unharmed. Common practice, no source; a pack's own word for a line always comes first.
// Never says that something did stay: it says where to look.
#pragma once

#include <span>
#include <string_view>

#include "science/judgement.h"

namespace casebound::filters_seals {

struct LeftBehind {
    std::string_view role, what, where, see, get_out;
    bool counted;  // parts: as many go in as came out
    Source source;
};

std::span<const LeftBehind> left_behind_table();
const LeftBehind* left_behind(std::string_view role);  // nullptr: nothing known to stay

}  // namespace casebound::filters_seals
