// Which parts may be ordered where sources differ: the rule of the oracle against "both fit", and against a rule that
// looks at the names of groups alone, on places whose truth is known to the model and hidden from the rule. Three sources, edges that differ in one of ten, some sources blind to a
// division; in places that nothing divides, some sources know the one part under a name of their own.
#include <catch2/catch.hpp>

#include <algorithm>
#include <iomanip>
#include <iostream>

#include "tests/chain/facts.h"
#include "tests/dice.h"

namespace {

using namespace chain;
using casebound::tests::Dice;

constexpr int makers = 3, months = 6;

struct Truth {
    bool divided{};
    int edge{};                      // from this month on the second part
    std::vector<int> part_of_group;  // 0 before, 1 after
    bool right(int group, int month) const {
        return !divided || part_of_group[static_cast<std::size_t>(group)] == (month >= edge ? 1 : 0);
    }
};

struct Place {
    World world;
    Truth truth;
    bool every_source_blind = true, edge_wrong{};
};

void say(World& world, int group, int from, int to, int source) {
    std::set<int> on;
    for (int month = from; month < to; ++month) on.insert(month);
    if (!on.empty()) world.statements.push_back({cover_place, Says::fits, group, {{made, on}}, 0, false, source});
}

// Groups 0 and 1 are the two parts as all call them; each source may have a name of its own for either.
int named(Place& place, Dice& dice, int part) {
    if (!dice.chance(15)) return part;
    place.world.groups.push_back({cover});
    place.truth.part_of_group.push_back(part);
    return static_cast<int>(place.world.groups.size()) - 1;
}

Place make_place(Dice& dice, unsigned divided_percent, unsigned blind_percent) {
    Place place;
    auto& [world, truth, every_blind, edge_wrong] = place;
    for (int month = 0; month < months; ++month) world.configurations.push_back({{0, month, 0}, 1, 1});
    world.groups = {{cover}, {cover}};
    truth.part_of_group = {0, 1};
    truth.divided = dice.chance(divided_percent);
    truth.edge = 2 + static_cast<int>(dice.below(3));
    for (int source = 1; source <= makers; ++source) {
        if (!truth.divided || dice.chance(blind_percent)) {
            say(world, named(place, dice, truth.divided ? static_cast<int>(dice.below(2)) : 0), 0, months, source);
            continue;
        }
        every_blind = false;
        const bool off = dice.chance(10);
        edge_wrong |= off;
        const int edge = truth.edge + (off ? (dice.chance(50) ? 1 : -1) : 0);
        say(world, named(place, dice, 0), 0, edge, source);
        say(world, named(place, dice, 1), edge, months, source);
    }
    return place;
}

struct Share {
    std::size_t places{}, wrong{}, held{}, ordinary{}, ordinary_held{}, all_blind{},
        edge_wrong{};  // ordinary: all say what is right
    double percent(std::size_t part, std::size_t of) const {
        return of ? 100.0 * static_cast<double>(part) / static_cast<double>(of) : 0;
    }
    double wrong_percent() const { return percent(wrong, places); }
    double ordinary_held_percent() const { return percent(ordinary_held, ordinary); }
};

// One of what is released is bought: whichever is on offer.
void take(Share& share, const Place& place, const std::vector<int>& said, const std::vector<int>& released, int month,
          Dice dice) {
    const bool ordinary = std::all_of(said.begin(), said.end(), [&](int g) { return place.truth.right(g, month); });
    ++share.places;
    share.ordinary += ordinary;
    share.held += released.empty();
    share.ordinary_held += ordinary && released.empty();
    if (released.empty() || place.truth.right(dice.any(released), month)) return;
    ++share.wrong;
    if (place.every_source_blind) ++share.all_blind;
    else if (place.edge_wrong) ++share.edge_wrong;
}

void print(const char* rule, unsigned divided, unsigned blind, const Share& share) {
    std::cout << std::setw(10) << rule << std::setw(9) << divided << " %" << std::setw(7) << blind << " %" << std::fixed
              << std::setprecision(2) << std::setw(9) << share.wrong_percent() << " %" << std::setw(9)
              << share.percent(share.all_blind, share.places) << " %" << std::setw(9)
              << share.percent(share.edge_wrong, share.places) << " %" << std::setw(9)
              << share.percent(share.held, share.places) << " %" << std::setw(9) << share.ordinary_held_percent()
              << " %\n";
}

}  // namespace

namespace {

std::vector<int> released_by(const World& told, int month, const Reading& reading) {
    const Facts facts(told, reading);
    std::vector<int> released;
    for (int g = 0; g < static_cast<int>(told.groups.size()); ++g)
        if (facts.right(cover_place, g, month)) released.push_back(g);
    return released;
}

std::vector<int> said_of(const World& told, int month) {
    std::set<int> said;
    for (const auto& one : told.statements)
        if (one.when.front().values.contains(month)) said.insert(one.group);
    return {said.begin(), said.end()};
}

}  // namespace

TEST_CASE("where sources differ, hardly a wrong part is released") {
    std::cout << "rule       divided   blind   wrong: all  all blind   an edge   held: all  needlessly\n";
    Dice dice(7);
    for (const unsigned divided : {10U, 30U})
        for (const unsigned blind : {0U, 10U, 20U, 40U}) {
            Share both_fit, by_names, rule;
            for (std::uint64_t i = 0; i < 4000; ++i) {
                const auto place = make_place(dice, divided, blind);
                const int month = static_cast<int>(dice.below(months));
                World told = place.world;
                told.told.push_back({made, {month}, 0, Known::measured});
                const auto said = said_of(told, month);
                take(both_fit, place, said, said, month, Dice(i));
                take(by_names, place, said, released_by(told, month, {false, true}), month, Dice(i));
                take(rule, place, said, released_by(told, month, {}), month, Dice(i));
            }
            print("both fit", divided, blind, both_fit);
            print("by names", divided, blind, by_names);
            print("the rule", divided, blind, rule);
            CHECK(rule.wrong_percent() < both_fit.wrong_percent());
            CHECK(rule.wrong <= by_names.wrong);
            CHECK(rule.ordinary_held_percent() < 0.5);
        }
}
