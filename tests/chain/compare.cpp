#include "tests/chain/compare.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace chain {

namespace {

class Comparison {
public:
    Comparison(const World& world, const Asked& program, const Lesser& lesser)
        : world_(world), lesser_(lesser), oracle_(judge(world, lesser)), program_(program) {}

    std::vector<Difference> all() {
        if (!program_.fault.empty()) return {{"failed", program_.fault}};
        compare_lines();
        compare_list();
        compare_order();
        check_order();
        for (const auto& [pair, verdict] : oracle_.swaps) compare_swap(pair, verdict);
        return std::move(found_);
    }

private:
    void add(const std::string& kind, const std::string& text) { found_.push_back({kind, text}); }

    void compare_swap(const std::pair<int, int>& pair, const std::string& right) {
        const auto& said = program_.says.swaps.at(pair);
        if ((said == "yes") == (right == "yes")) return;
        if (right == "yes" && said == "yes_if") return;  // by one way here and another there
        add(right == "yes" ? "stand-in refused" : "stand-in released",
            fmt::format("g{} by g{}: oracle {}, program {}", pair.first, pair.second, right, said));
    }

    void compare_lines() {
        for (const auto& [place, right] : oracle_.lines) {
            const auto said = program_.says.lines.find(place);
            if (said == program_.says.lines.end()) {
                add("line missing", name_of(place));
                continue;
            }
            if (said->second.verdict != right.verdict)
                add("verdict",
                    fmt::format("{}: oracle {}, program {}", name_of(place), right.verdict, said->second.verdict));
            if (said->second.blocks != right.blocks)
                add(right.blocks ? "line not held" : "line held",
                    fmt::format("{}: oracle {}, program {}", name_of(place), right.blocks, said->second.blocks));
            if (right.needed && !right.blocks && right.verdict == "fits") compare_parts(place, right, said->second);
        }
        for (const auto& [place, said] : program_.says.lines)
            if (!oracle_.lines.contains(place)) add("line too many", name_of(place));
    }

    void compare_parts(int place, const LineSays& right, const LineSays& said) {
        for (const int item : said.items)
            if (!right.items.contains(item)) add("unsafe part listed", fmt::format("i{} as {}", item, name_of(place)));
        for (const int group : said.stand_ins)
            if (!right.stand_ins.contains(group))
                add("unsafe stand-in", fmt::format("g{} as {}", group, name_of(place)));
        std::set<int> shown = said.items;
        for (const auto& member : world_.members)
            if (said.stand_ins.contains(member.group)) shown.insert(member.item);
        for (const int item : right.items)
            if (!shown.contains(item)) add("safe part not listed", fmt::format("i{} as {}", item, name_of(place)));
    }

    void compare_list() {
        if (program_.says.ready != oracle_.ready)
            add(oracle_.ready ? "not ready" : "ready",
                fmt::format("oracle {}, program {}", oracle_.ready, program_.says.ready));
        if (!oracle_.ready || !program_.says.ready) return;
        if (oracle_.right_only_if && !program_.says.right_only_if)
            add("no caveat", "list: right only if something is true, unsaid");
        if (oracle_.right_only_if && !program_.says.right_only_if_bought)
            add("no caveat", "buy: right only if something is true, unsaid");
        if (program_.says.weakest < oracle_.weakest)
            add("evidence too firm", fmt::format("oracle {}, program {}", static_cast<int>(oracle_.weakest),
                                                 static_cast<int>(program_.says.weakest)));
    }

    void compare_order() {
        const auto& said = program_.says;
        const bool released = said.buy == "order", may = oracle_.buy == "order";
        if (released && !may)
            add("released", fmt::format("oracle {}, program an order of {}", oracle_.buy, said.cents));
        else if (may && !released)
            add("refused", fmt::format("program {}, oracle an order of {}", said.buy, oracle_.cents));
        else if (said.buy != oracle_.buy) add("buy", fmt::format("oracle {}, program {}", oracle_.buy, said.buy));
        else if (released && said.cents > oracle_.cents)
            add("too dear", fmt::format("oracle {}, program {}", oracle_.cents, said.cents));
        else if (released && said.cents < oracle_.cents)
            add("too cheap", fmt::format("oracle {}, program {}", oracle_.cents, said.cents));
    }

    // What is ordered serves every place on everything that may be true.
    void check_order() {
        const bool firm = program_.says.buy == "order" || program_.says.buy == "nothing";
        if (!firm && !program_.unsure.order) return;
        const auto& order = firm ? program_.says.order : program_.unsure.right_in_every;
        for (const int c : may_be_true(world_))
            if (!serves(world_, order, c, lesser_)) {
                add(firm ? "wrong order" : "wrong in some", fmt::format("it does not serve configuration {}", c + 1));
                return;
            }
    }

    const World& world_;
    Lesser lesser_;
    Spoken oracle_;
    const Asked& program_;
    std::vector<Difference> found_;
};

template <class Rows> bool drop_one(World& world, Rows World::*rows, const std::function<bool(const World&)>& still) {
    if ((world.*rows).empty()) return false;
    World none = world;
    (none.*rows).clear();
    if (still(none)) {
        world = std::move(none);
        return true;
    }
    bool any = false;
    for (std::size_t i = (world.*rows).size() == 1 ? 0 : (world.*rows).size(); i > 0; --i) {
        World less = world;
        (less.*rows).erase((less.*rows).begin() + static_cast<std::ptrdiff_t>(i - 1));
        if (!still(less)) continue;
        world = std::move(less);
        any = true;
    }
    return any;
}

bool simplify(World& world, const std::function<bool(const World&)>& still) {
    bool any = false;
    const auto attempt = [&](World less) {
        if (!still(less)) return;
        world = std::move(less);
        any = true;
    };
    for (std::size_t i = 0; i < world.statements.size(); ++i) {
        World less = world;
        if (!std::exchange(less.statements[i].when, {}).empty()) attempt(less);
        less = world;
        if (std::exchange(less.statements[i].quantity, 0) > 0) attempt(less);
    }
    for (std::size_t i = 0; i < world.sellers.size(); ++i) {
        World less = world;
        less.sellers[i] = {};
        if (world.sellers[i].carriage + world.sellers[i].minimum + world.sellers[i].free_from > 0) attempt(less);
    }
    for (std::size_t i = 0; i < world.stand_ins.size(); ++i) {
        World less = world;
        if (!std::exchange(less.stand_ins[i].when, {}).empty()) attempt(less);
    }
    return any;
}

}  // namespace

std::vector<Difference> differences(const World& world, const Asked& program, const Lesser& lesser) {
    return Comparison(world, program, lesser).all();
}

World shrunk(World world, const std::function<bool(const World&)>& still) {
    for (bool any = true; any;) {
        any = drop_one(world, &World::bought, still) | drop_one(world, &World::shelf, still) |
              drop_one(world, &World::offers, still) | drop_one(world, &World::kit_contents, still) |
              drop_one(world, &World::held_back, still) | drop_one(world, &World::single_use, still) |
              drop_one(world, &World::objections, still) | drop_one(world, &World::opinions, still) |
              drop_one(world, &World::told, still) | drop_one(world, &World::stand_ins, still) |
              drop_one(world, &World::job, still) | drop_one(world, &World::statements, still) |
              drop_one(world, &World::members, still) | drop_one(world, &World::configurations, still) |
              drop_one(world, &World::swaps, still) | simplify(world, still);
    }
    return world;
}

}  // namespace chain
