// The whole chain against the oracle: thousands of worlds, each asked of the program and judged by the oracle. Every
// verdict of `list`, what may be ordered, what stands in, whether it is ready and on what it rests, what `buy` orders
// and what that costs. CASEBOUND_WORLDS says how many worlds; CASEBOUND_WORLD asks of one.
// A quarter of them is asked of `fits`, `why`, the sheets and the page as well, with CASEBOUND_EVERYWHERE all of them.
// CASEBOUND_SHOWN says how many of each kind of difference are made as small as they still differ and shown, of
// CASEBOUND_KIND alone where that is given; CASEBOUND_FIRST ends the run at the first pack with a difference.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <set>

#include "tests/chain/compare.h"
#include "tests/chain/generate.h"
#include "tests/dice.h"

namespace {

using namespace chain;

constexpr std::size_t usual_worlds = 4000, of_one_pack = 250;

std::size_t asked_for(const char* name, std::size_t otherwise) {
    const char* text = std::getenv(name);
    return text ? std::strtoull(text, nullptr, 10) : otherwise;
}

World world_of(std::size_t seed) {
    auto world = generate(seed);
    world.key = "w" + std::to_string(seed);
    return world;
}

std::vector<Difference> differ(const World& world) {
    if (left_of(world) == 0) return {};  // no such vehicle
    try {
        const std::vector<World> one{world};
        return differences(world, Subject(one).ask(0));
    } catch (const std::exception&) { return {}; }  // no world that a pack may hold
}

bool differs(const World& world, const std::string& kind) {
    for (const auto& one : differ(world))
        if (one.kind == kind) return true;
    return false;
}

void show(const World& world, const std::string& kind) {
    const auto small = shrunk(world, [&](const World& less) { return differs(less, kind); });
    const std::vector<World> one{small};
    std::cout << "\n==== " << world.key << ", made as small as it still differs (" << kind << ")\n" << rows_of(small);
    for (const auto& difference : differ(small))
        std::cout << "  " << difference.kind << ": " << difference.text << "\n";
    Subject subject(one);
    if (std::getenv("CASEBOUND_IN_WORDS")) std::cout << subject.told_in_text(0);
}

}  // namespace

namespace {

struct Tally {
    std::map<std::string, std::vector<std::string>> differ;  // kind, worlds
    std::map<std::string, std::size_t> asked;
    std::set<std::string> differing;
    std::vector<std::pair<World, std::string>> to_show;

    void take(const World& world, const Asked& said) {
        const auto right = judge(world);
        count(right, said);
        const auto found = differences(world, said);
        if (found.empty()) return;
        for (const auto& one : found) {
            add(world, one);
            asked["orders that are wrong"] += one.kind == "wrong order";
        }
        differing.insert(world.key);
    }
    void count(const Spoken& right, const Asked& said) {
        ++asked["worlds"], ++asked["buy: " + right.buy];
        asked["right only if"] += right.right_only_if;
        asked["asked everywhere"] += said.elsewhere.has_value();
        for (const auto& [place, line] : right.lines) ++asked["lines"], ++asked["lines: " + line.verdict];
        const bool safe = right.buy == "order", released = said.says.buy == "order";
        ++asked[safe && released ? "safe orders released"
                : safe           ? "safe orders refused"
                : released       ? "unsafe orders released"
                                 : "nothing ordered, rightly"];
        asked["costs compared"] += (safe && released) + (said.says.known_cents && right.known_cents) +
                                   (said.elsewhere && safe ? 2U : 0U);
    }
    void add(const World& world, const Difference& one) {
        const char* only = std::getenv("CASEBOUND_KIND");
        auto& worlds = differ[one.kind];
        if (worlds.size() < asked_for("CASEBOUND_SHOWN", std::getenv("CASEBOUND_FIRST") ? 0 : 1) &&
            (!only || one.kind == only))
            to_show.emplace_back(world, one.kind);
        worlds.push_back(world.key + ": " + one.text);
    }
    void print() const {
        for (const auto& [what, number] : asked) std::cout << what << ": " << number << "\n";
        std::cout << "differ: " << differing.size() << " of " << asked.at("worlds") << " worlds\n";
        for (const auto& [kind, worlds] : differ) {
            std::cout << "NEW " << kind << ": " << worlds.size() << "\n";
            for (std::size_t i = 0; i < std::min<std::size_t>(worlds.size(), 5); ++i)
                std::cout << "    " << worlds[i] << "\n";
        }
    }
};

}  // namespace

TEST_CASE("what is said and ordered of a world is what the oracle says") {
    const auto one = asked_for("CASEBOUND_WORLD", 0);
    const auto first = one ? one : 1, end = one ? one + 1 : asked_for("CASEBOUND_WORLDS", usual_worlds) + 1;
    const bool everywhere = one || std::getenv("CASEBOUND_EVERYWHERE");
    Tally tally;
    for (std::size_t from = first; from < end; from += of_one_pack) {
        std::vector<World> worlds;
        for (std::size_t i = from; i < std::min(end, from + of_one_pack); ++i) worlds.push_back(world_of(i));
        Subject subject(worlds);
        for (std::size_t i = 0; i < worlds.size(); ++i) tally.take(worlds[i], subject.ask(i, everywhere || i % 4 == 0));
        if (std::getenv("CASEBOUND_FIRST") && !tally.differ.empty()) break;
    }
    tally.print();
    for (const auto& [world, kind] : tally.to_show) show(world, kind);
    CHECK(tally.differ.empty());
}
