// The oracle's reading of one world: which configurations may be true, and what is right where. One configuration at a
// time, nothing kept but the answers. Part of the oracle; its rules stand in oracle.h.
#pragma once

#include <functional>
#include <map>
#include <optional>

#include "world.h"

namespace chain {

// What is said of one group in one place on one configuration.
struct Standing {
    bool on{};        // statements say so, and nothing below takes it away
    bool waits{};     // not yet: look first, or show that it is equal
    bool disputed{};  // sources disagree
    bool out{};       // denied, or ruled out by the domain
    bool denied{};    // a statement that counts says no, whoever says yes
    bool vetoed{};    // by the domain
    bool recorded{};  // statements name it for the place, here or elsewhere
    bool right() const { return on && !waits; }
};

// On a line that nobody has listed, beside the values that its rows speak of: a value that none of them speaks of; and
// that of an attribute that no row tells apart. Both agree with no condition.
inline constexpr int something_else = -1, no_matter = -2;

// Its configurations: every value that a row of the line or of the job speaks of, and every value told of such an
// attribute, with each other.
World listed(World world);

struct Reading {
    bool without_memory{};  // as if nobody remembered anything
    // The rule on divisions as it was first: sources that divide are of one mind only where they name one group.
    bool by_names{};
};

class Facts {
public:
    explicit Facts(const World& world, Reading reading = {});

    const std::vector<int>& left() const { return left_; }
    const std::vector<std::vector<int>>& doubts() const { return doubts_; }  // each with what is left
    std::vector<int> left_by_firm() const;                                   // had nothing been said or assumed
    const Tell* standing(int attribute) const;

    bool holds(const When& when, int configuration) const;  // told attributes by what was told
    bool none_needed(int place, int configuration) const { return none_[at(place, 0, configuration)]; }
    const Standing& recorded(int place, int group, int configuration) const;
    bool right(int place, int group, int configuration) const;  // recorded or standing in
    bool stands_in(int place, int offered, int wanted, int configuration) const;
    bool item_right(int place, int item, int configuration) const;
    bool barred(int place, int item, int group, int configuration) const;  // by another group of it
    bool excluded(int a, int b) const;
    // The most that is wanted there for a group that is right, or has something standing in for it, and is `asked`.
    double quantity(int place, int configuration, const std::function<bool(int)>& asked) const;
    // Of what is poured: nobody says how much. A piece is one where nothing is said.
    bool amount_open(int place, int configuration, const std::function<bool(int)>& asked) const;
    // The groups that any way to it there needs beside it; nothing where there is no way.
    std::optional<std::set<int>> way_together(int place, int offered, int wanted, int configuration) const;
    bool way(int offered, int wanted, int configuration, const std::function<bool(int)>& closed) const;

private:
    struct Given {  // what one source says: group, configurations
        std::map<int, std::set<int>> by_group;
    };
    bool passable(const StandIn& one, int offered, int wanted, int configuration) const;
    bool agrees(const Tell& tell, int configuration) const;
    bool counts(const Statement& statement) const;
    bool says_yes(const Statement& statement, int configuration) const;
    bool says_no(const Statement& statement, int group, int configuration) const;
    void narrow();
    void weigh(int place);
    void find_none(int place);
    void object(int place);
    void exclude(int place);
    void divide(int place);
    void compare_amounts(int place);
    void dispute(int place, int configuration, const std::set<int>& groups);
    std::vector<Given> dividing(int place) const;
    bool divides(const Given& given, const std::function<bool(int)>& within) const;
    bool one_side(const Given& one, int group, const Given& other, int other_group) const;
    bool crosses(const Given& given, int place, int group) const;
    bool equal_here(int a, int b, int configuration) const;
    bool closed(int place, int group, int configuration) const;  // no way passes through it there
    int colour_holds(const Term& term) const;                    // -1 not told, 0 no, 1 yes, 2 open
    std::size_t at(int place, int group, int configuration) const;

    const World& world_;
    Reading reading_;
    std::vector<int> left_;
    std::vector<std::vector<int>> doubts_;
    std::vector<Standing> standing_;
    std::vector<char> none_;
};

}  // namespace chain
