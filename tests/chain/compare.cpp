#include "tests/chain/compare.h"

#include <algorithm>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "tests/chain/rows.h"

namespace chain {

namespace {

class Comparison {
public:
    Comparison(const World& world, const Asked& program) : world_(world), oracle_(judge(world)), program_(program) {}

    std::vector<Difference> all() {
        if (!program_.fault.empty()) return {{"failed", program_.fault}};
        compare_lines();
        compare_list();
        compare_order();
        check_order();
        for (const auto& [pair, verdict] : oracle_.swaps) compare_swap(pair, verdict);
        compare_once_known();
        if (!program_.elsewhere) return std::move(found_);
        compare_fits(*program_.elsewhere);
        compare_sheets(*program_.elsewhere);
        compare_page(*program_.elsewhere);
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
            if (right.needed && !right.blocks && right.verdict == "fits") {
                compare_parts(place, right, said->second);
                compare_evidence(place, right, said->second);
            }
        }
        for (const auto& [place, said] : program_.says.lines)
            if (!oracle_.lines.contains(place)) add("line too many", name_of(place));
    }

    void compare_evidence(int place, const LineSays& right, const LineSays& said) {
        const auto names = [&](Evidence wanted) {
            return fmt::format("{}: oracle {}, program {}", name_of(place), static_cast<int>(wanted),
                               static_cast<int>(said.weakest));
        };
        if (said.weakest < right.firmest) add("line evidence too firm", names(right.firmest));
        if (said.weakest > right.weakest) add("line evidence too weak", names(right.weakest));
    }

    void compare_once_known() {
        const auto& said = program_.says;
        if (!said.known_cents_said || oracle_.buy != "refused" || may_be_true(world_).size() != left_of(world_)) return;
        const auto words = [](const std::optional<long>& cents) {
            return cents ? fmt::format("{}", *cents) : "nothing";
        };
        const bool same = said.known_cents.has_value() == oracle_.known_cents.has_value() &&
                          std::abs(said.known_cents.value_or(0) - oracle_.known_cents.value_or(0)) <= 1;
        if (!same)
            add("cost once known",
                fmt::format("oracle {}, program {}", words(oracle_.known_cents), words(said.known_cents)));
    }

    void compare_fits(const Elsewhere& said) {
        static const std::set<int> none;
        const auto of = [](const std::map<int, std::set<int>>& all, int place) -> const std::set<int>& {
            const auto found = all.find(place);
            return found == all.end() ? none : found->second;
        };
        for (const auto& [place, verdict] : said.fits) {
            const auto right = oracle_.fits.find(place);
            if (right == oracle_.fits.end()) add("fits", fmt::format("{}: nothing is recorded", name_of(place)));
            else if (right->second != verdict)
                add("fits", fmt::format("{}: oracle {}, program {}", name_of(place), right->second, verdict));
        }
        for (const auto& [place, groups] : said.groups)
            for (const int group : groups)
                if (!of(oracle_.groups_right, place).contains(group))
                    add("fits: unsafe group", fmt::format("g{} as {}", group, name_of(place)));
        for (const auto& [item, by_place] : said.why) {
            if (world_.items[static_cast<std::size_t>(item)].part == kit) continue;
            for (const auto& [place, fits] : by_place)
                if (fits && !of(oracle_.items_right, place).contains(item))
                    add("why: unsafe part", fmt::format("i{} as {}", item, name_of(place)));
            for (const auto& [place, items] : oracle_.items_recorded)
                if (const auto found = by_place.find(place);
                    items.contains(item) && (found == by_place.end() || !found->second))
                    add("why: safe part refused", fmt::format("i{} as {}", item, name_of(place)));
        }
    }

    void compare_cents(const char* where, const std::optional<long>& said) {
        if (oracle_.buy == "order" && !said) add("refused", fmt::format("{}: no order", where));
        else if (oracle_.buy != "order" && said.value_or(0) > 0)
            add("released", fmt::format("{}: oracle {}, an order of {}", where, oracle_.buy, *said));
        else if (said && *said != oracle_.cents)
            add(*said > oracle_.cents ? "too dear" : "too cheap",
                fmt::format("{}: oracle {}, program {}", where, oracle_.cents, *said));
    }

    void compare_sheets(const Elsewhere& said) {
        for (const auto& [place, line] : oracle_.lines) {
            const bool there = said.in_the_way.contains(place);
            if (there != line.blocks)
                add(there ? "line held" : "line not held", fmt::format("job sheet: {}", name_of(place)));
        }
        if (oracle_.right_only_if && !said.sheet_only_if) add("no caveat", "job sheet");
        if (oracle_.buy == "refused" && !said.order_sheet_not_ready) add("ready", "order sheet: nothing in the way");
        if (oracle_.buy == "order" && said.order_sheet_not_ready) add("not ready", "order sheet");
        compare_cents("order sheet", said.sheet_cents);
    }

    void compare_page(const Elsewhere& said) {
        std::size_t blocks = 0;
        for (const auto& [place, line] : oracle_.lines) blocks += line.blocks;
        if (said.page_blocks != blocks)
            add(said.page_blocks > blocks ? "line held" : "line not held",
                fmt::format("page: oracle {} lines, program {}", blocks, said.page_blocks));
        if (said.page_ready != oracle_.ready) add(oracle_.ready ? "not ready" : "ready", "page");
        if (oracle_.right_only_if && !said.page_only_if) add("no caveat", "page");
        compare_cents("page", said.page_cents);
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
        if (right.items.empty() && said.items.empty() && right.together != said.together)
            add("parts together",
                fmt::format("{}: oracle {}, program {}", name_of(place), right.together.size(), said.together.size()));
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
            if (!serves(world_, order, c)) {
                add(firm ? "wrong order" : "wrong in some", fmt::format("it does not serve configuration {}", c + 1));
                return;
            }
    }

    const World& world_;
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

std::vector<Difference> differences(const World& world, const Asked& program) {
    return Comparison(world, program).all();
}

World shrunk(World world, const std::function<bool(const World&)>& still) {
    for (bool any = true; any;) {
        any = drop_one(world, &World::bought, still) | drop_one(world, &World::shelf, still) |
              drop_one(world, &World::offers, still) | drop_one(world, &World::kit_contents, still) |
              drop_one(world, &World::held_back, still) | drop_one(world, &World::single_use, still) |
              drop_one(world, &World::beside, still) | drop_one(world, &World::objections, still) |
              drop_one(world, &World::opinions, still) | drop_one(world, &World::told, still) |
              drop_one(world, &World::stand_ins, still) | drop_one(world, &World::job, still) |
              drop_one(world, &World::statements, still) | drop_one(world, &World::members, still) |
              drop_one(world, &World::configurations, still) | drop_one(world, &World::swaps, still) |
              simplify(world, still);
    }
    return world;
}

}  // namespace chain
