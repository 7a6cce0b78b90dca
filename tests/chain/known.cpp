#include "tests/chain/known.h"

#include <algorithm>
#include <bit>
#include <set>

#include "tests/dice.h"

namespace chain {

namespace {

// What the program holds back while a doubt is open although one choice is right in all that may be true.
bool only_holds_more(const World& world, const std::vector<Difference>& found) {
    static const std::set<std::string> holding{"line held", "not ready", "refused", "buy", "safe part not listed"};
    return may_be_true(world).size() > left_of(world) &&
           std::all_of(found.begin(), found.end(), [](const Difference& one) { return holding.contains(one.kind); });
}

}  // namespace

std::vector<std::string> known_as(const World& world, const Asked& said, const std::vector<Difference>& found) {
    static const std::string held = "held by a doubt, and one choice is right in all of it";
    if (only_holds_more(world, found)) return {held};
    static const std::vector<std::pair<bool Lesser::*, std::string>> kept_to{
        {&Lesser::one_group, "a part of two groups, each right on some"},
        {&Lesser::kits_for_two, "a kit that serves one place"},
        {&Lesser::vetoed_link, "a chain of stand-ins passes through what the domain alone rules out"},
        {&Lesser::no_membership, "the evidence of a line is without that of what puts a part in its group"},
        {&Lesser::no_stand_in, "the evidence of a list is without that of what a stand-in rests on"},
        {&Lesser::named_is_enough,
         "what a part needs beside it is not ordered where the job names the place for a look"},
        {&Lesser::why_by_group, "why says of a part of two groups that it fits as one of them"},
        {&Lesser::cost_by_reach, "the cost once known counts what the job needs on some configurations on all"},
        {&Lesser::by_left, "a doubt that changes how far the job reaches or how much is wanted"}};
    std::vector<unsigned> sets;  // of ways, the fewest first
    for (int size = 1; size <= 3; ++size)
        for (unsigned set = 1; set < (1U << kept_to.size()); ++set)
            if (std::popcount(set) == size) sets.push_back(set);
    for (const unsigned set : sets) {
        Lesser lesser;
        std::vector<std::string> why;
        for (std::size_t i = 0; i < kept_to.size(); ++i)
            if ((set >> i) & 1U) {
                lesser.*kept_to[i].first = true;
                why.push_back(kept_to[i].second);
            }
        const auto rest = differences(world, said, lesser);
        if (rest.empty()) return why;
        if (only_holds_more(world, rest)) {
            why.push_back(held);
            return why;
        }
    }
    return {};
}

const std::map<std::string, std::size_t>& known_in_usual_worlds() {
    static const std::map<std::string, std::size_t> counts{
        {"a chain of stand-ins passes through what the domain alone rules out", 1},
        {"a part of two groups, each right on some", 16},
        {"a place that only a doubt brings is listed and held; the oracle lists none", 3},
        {"not looked into yet: a safe part that is not listed", 1},
        {"the cost once known counts what the job needs on some configurations on all", 3},
        {"what a stand-in needs beside it is ordered with it, or is a line already: the oracle never orders so", 2},
        {"what ruled the alternatives out is not in the evidence of the line", 4}};
    return counts;
}

}  // namespace chain
