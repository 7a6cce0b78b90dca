// The oracle's parts that go in only together with others. Part of the oracle; its rules stand in oracle.h.
#pragma once

#include <map>
#include <vector>

#include "facts.h"

namespace chain {

struct Together {
    int place{}, group{};
    struct Other {
        int group{}, pieces = 1;
    };
    std::map<int, Other> others;  // by place
};

// What is put into each place, where that is chosen; 0 pieces: as many as the place takes.
using Choice = std::map<int, Together::Other>;
// Nothing chosen, and every set of ways of which no two put something else into one place.
std::vector<Choice> choices(const std::vector<Together>& ways);

// Groups that are right in the place on all of `on` once what goes with them is in, too. What their ways need on any of
// `may_be_true` goes with them.
std::vector<Together> together(const World& world, const Facts& facts, int place, const std::vector<int>& on,
                               const std::vector<int>& may_be_true);

// May the part be ordered as one of the group, in that place?
bool part_of_group(const World& world, const Facts& facts, int place, int item, int group, const std::vector<int>& on);

}  // namespace chain
