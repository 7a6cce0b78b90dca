// The next thing to find out for a list, where lines wait for something that comes before any question: said alike by
// `ask` and on the page. What `list` and `buy` say of the lines themselves stands with them.
#pragma once

#include <string>
#include <vector>

#include "core/session/situation.h"
#include "core/verdict/parts_list.h"

namespace casebound {

struct FirstThing {
    std::string what;                     // "the fluid is milky: test the cooler"
    std::vector<std::string> titles;      // of the lines that wait for it
    std::vector<std::string> attributes;  // that settle it
};

// Empty where a question comes first, or nothing waits.
std::vector<FirstThing> first_things(const PartsList& list);

// A place that a job needs a part for and that nobody has said anything of: what to look for on the old one.
struct LookUp {
    std::string role, title;
    std::vector<std::string> how;
};
std::vector<LookUp> to_look_up(const PartsList& list);
std::string look_up_text(const std::vector<LookUp>& places, const Situation& situation);

std::string first_things_text(const std::vector<FirstThing>& things, const Situation& situation);

// "casebound vehicle tell van pan_depth=VALUE measured": how what settles it is told, as it is found out.
std::string tell_command(const Situation& situation, const std::string& attribute);

}  // namespace casebound
