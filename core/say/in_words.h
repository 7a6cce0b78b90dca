// What the answer about a vehicle says, in a mechanic's words: attributes, values, groups and places by their titles, keys
// only where they are asked for (--keys). Renders only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/session/situation.h"
#include "core/verdict/parts_list.h"

namespace casebound {

// "pan depth, rail to floor and build month".
std::string attribute_titles(const Situation& situation, const std::vector<std::string>& attributes);

// "fits where engine 2.6; pan depth, rail to floor 41 mm", of the group that it stands under. What was told, too.
std::string leaf_words(const Leaf& leaf, const Situation& situation);

// Facts as the told are said: "pan depth, rail to floor 41 mm (said 2026-11-25)".
std::vector<std::string> told_words(const Situation& situation, const std::vector<std::string>& said);

std::string fluid_words(std::string_view key);  // a fluid by the name of its spec, or as it was written down

// A part number to order, else the title; "QF-4" of a fluid.
// ", together with the neck seal as neck seal"; nothing goes with it: "".
std::string with_words(const Situation& situation, const std::vector<GoesWith>& others);
std::string group_in_short(const Situation& situation, const RoleAnswer& role, const GroupAnswer& group);

// A group as it is ordered: a part number of it, else its title; the name of a fluid's spec.
std::string group_words(const Catalog& catalog, std::string_view key);
// A sentence of the catalog in which groups stand by their keys: by their titles, unless keys are asked for.
std::string in_titles(const Catalog& catalog, std::string_view sentence);

// One case of a place: what goes there, and on which configurations of the line.
struct WordedCase {
    std::string what;
    Bits on;
};

// What a place comes to, case by case, with nothing ordered yet: its groups, no such place, nobody has said.
std::vector<WordedCase> cases_of(const Situation& situation, const RoleAnswer& role);

// What a line of a list comes to, case by case: what is ordered as `order` says it.
std::vector<WordedCase> line_cases(const ListLine& line, const Situation& situation,
                                   const std::function<std::string(const ListLine&, const Option&)>& order);

// "pan depth, rail to floor 41 mm: Q312-1141 | 61 mm: Q312-1161", or each with its condition in full. `between` stands
// between two of them.
std::string cases_words(const Situation& situation, const RoleAnswer& role, const std::vector<WordedCase>& cases,
                        std::string_view between);

}  // namespace casebound
