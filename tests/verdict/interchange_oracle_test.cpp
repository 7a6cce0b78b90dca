// Interchange on generated graphs against three other searches: Boost.Graph breadth first, a recursive SQL query,
// and every simple path written out. One way never makes the other; an exclusion never helps; claims do not chain.
#include <iostream>

#include "core/verdict/open_worlds.h"
#include "tests/must.h"
#include "tests/verdict/interchange_graph.h"
#include "tests/verdict/oracle_engine.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

// A catalog of the graph alone, and an interchange that knows no vehicle.
class OpenGraph {
public:
    OpenGraph(Bench& bench, const Graph& graph) : bench_(bench) {
        bench_.clear();
        put_graph(bench_, graph);
        open();
    }
    // As it is in the bench already.
    explicit OpenGraph(Bench& bench) : bench_(bench) { open(); }
    ~OpenGraph() { bench_.close(std::move(catalog_)); }
    OpenGraph(const OpenGraph&) = delete;
    OpenGraph& operator=(const OpenGraph&) = delete;
    Catalog& catalog() { return *catalog_; }
    SwapAnswer swap(std::size_t wanted, std::size_t offered) const {
        return interchange_->swap(group_name(wanted), group_name(offered));
    }
    const Interchange& interchange() const { return *interchange_; }

private:
    void open() {
        catalog_ = bench_.open();
        plugins_.domains.emplace_back("toy", "", toy_, Vocabulary{});
        interchange_ = std::make_unique<Interchange>(*catalog_, plugins_, engine_);
    }
    Bench& bench_;
    ToyDomain toy_;
    Plugins plugins_;
    Engine engine_;
    std::unique_ptr<Catalog> catalog_;
    std::unique_ptr<Interchange> interchange_;
};

bool yes_like(SwapVerdict verdict) {
    return verdict == SwapVerdict::yes || verdict == SwapVerdict::yes_if || verdict == SwapVerdict::differs;
}

int how_bad(SwapVerdict verdict) {
    return verdict == SwapVerdict::yes       ? 0
           : verdict == SwapVerdict::yes_if  ? 1
           : verdict == SwapVerdict::differs ? 2
                                             : 3;
}

Path path_of(const Graph& graph, const SwapAnswer& answer) {
    Path path;
    for (const auto& edge : answer.path) path.push_back(&graph.edges.at(edge.origin.line - 2));
    std::reverse(path.begin(), path.end());
    return path;
}

template <class List> bool holds_once(const List& list, const std::string& text) {
    return std::count(list.begin(), list.end(), text) == 1;
}

// The whole answer against every path written out; "" when they agree. `may`: what open doubts allow beside `left`, where
// a path may lead as well.
std::string difference(const Graph& graph, std::size_t wanted, std::size_t offered, const SwapAnswer& answer,
                       const Where& left = {}, const Where& may = {}) {
    if (excluded(graph, wanted, offered)) {
        const bool both = disputed(graph, wanted, offered, may);
        return answer.verdict == (both ? SwapVerdict::disagree : SwapVerdict::no)
                   ? ""
                   : "an excluded pair is no, or disputed by another source";
    }
    const auto all = paths(graph, wanted, offered, may);
    if (all.empty())
        return answer.verdict == SwapVerdict::not_recorded && answer.path.empty() ? "" : "no path is not recorded";
    if (!yes_like(answer.verdict)) return "a path is a yes of some kind";
    const auto path = path_of(graph, answer);
    if (std::find(all.begin(), all.end(), path) == all.end()) return "the path is none of those there are";
    for (const auto& other : all)
        if (rank_of(other, left) < rank_of(path, left)) return "there is a better path";
    if (answer.weakest != evidence_of(rank_of(path, left))) return "the weakest evidence is the weakest of the path";
    std::set<std::string> also;
    for (const auto* edge : path) {
        if (open_on(*edge, left) != holds_once(answer.conditions, edge->condition))
            return "a condition is listed, once, when it is not known to hold";
        if (!edge->requirement.empty() && !holds_once(answer.requirements, edge->requirement))
            return "requirements accumulate";
        if (!edge->difference.empty() && !holds_once(answer.differences, edge->difference))
            return "differences accumulate";
        for (const auto& group : split_at(edge->also_requires, "|"))
            if (!group.empty()) also.insert(group);
    }
    const std::set<std::string> required(answer.also_requires.begin(), answer.also_requires.end());
    if (required != also || also.size() != answer.also_requires.size())
        return "what is also required accumulates, once each";
    return answer.verdict == std::get<0>(rank_of(path, left)) ? "" : "the verdict follows from the path";
}

std::string story(const Graph& graph) {
    std::string text;
    for (const auto& e : graph.edges)
        text += fmt::format("{} {} {} by {}{} {}\n", group_name(e.offered), relation_name(e.relation),
                            group_name(e.wanted), plain_sources()[e.source].key, e.withdrawn ? " withdrawn" : "",
                            e.condition);
    return text;
}

template <class Each> void every_pair(const Graph& graph, Each each) {
    for (std::size_t wanted = 0; wanted < graph.groups; ++wanted)
        for (std::size_t offered = 0; offered < graph.groups; ++offered)
            if (wanted != offered) each(wanted, offered);
}

}  // namespace

TEST_CASE("what is reachable agrees with Boost's breadth-first search and with a recursive SQL query") {
    Bench bench;
    std::size_t reached = 0, asked = 0;
    for (int n = 0; n < 1500; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 20000000);
        const auto graph = some_graph(dice, dice.between(3, 14), 15);
        OpenGraph open(bench, graph);
        for (std::size_t wanted = 0; wanted < graph.groups; ++wanted) {
            const auto found = open.interchange().graph().reachable(group_name(wanted));
            auto by_boost = reached_by_boost(graph, wanted);
            ++asked;
            reached += found.size();
            const auto about = [&] { return story(graph) + group_name(wanted); };
            must(found == by_boost, "what is reachable is what Boost reaches", about);
            must(found == reached_by_sql(open.catalog().database(), wanted), "what is reachable is what SQL reaches",
                 about);
        }
    }
    std::cout << "reachable: " << asked << " searches, " << reached << " groups reached\n";
    CHECK(reached > 10000);
}

TEST_CASE("a swap agrees with every path written out, in verdict, path, conditions and evidence") {
    Bench bench;
    std::map<SwapVerdict, std::size_t> verdicts;
    for (int n = 0; n < 250; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 21000000);
        const auto graph = some_graph(dice, dice.between(3, 7), 12);
        OpenGraph open(bench, graph);
        every_pair(graph, [&](std::size_t wanted, std::size_t offered) {
            const auto answer = open.swap(wanted, offered);
            ++verdicts[answer.verdict];
            const auto differs = difference(graph, wanted, offered, answer);
            must(differs == "", differs, [&] {
                return story(graph) +
                       fmt::format("{} for {}: {}", group_name(offered), group_name(wanted), swap_name(answer.verdict));
            });
        });
    }
    std::cout << "swap:";
    for (const auto& [verdict, count] : verdicts) std::cout << " " << swap_name(verdict) << " " << count;
    std::cout << "\n";
    for (const auto verdict : {SwapVerdict::yes, SwapVerdict::yes_if, SwapVerdict::differs, SwapVerdict::no,
                               SwapVerdict::disagree, SwapVerdict::not_recorded})
        CHECK(verdicts[verdict] > 20);
}

TEST_CASE("on a vehicle, a path whose conditions cannot all hold is no path, and those that hold are not asked for") {
    Bench bench;
    std::size_t yes = 0, lost = 0;
    for (int n = 0; n < 250; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 22000000);
        Sizes sizes;
        sizes.applications_high = 0;
        const auto plain = some_catalog(dice, sizes);
        const auto graph = some_graph(dice, dice.between(3, 6), 8, &plain);
        bench.put_catalog(plain);
        put_graph(bench, graph);
        const auto facts = some_facts(dice, plain, 3, dice.below(plain.configurations.size()));
        const auto left = left_by(plain, facts);
        OpenGraph open(bench);
        const auto* line = open.catalog().line("oracle-line");
        const auto narrowing = narrow(*line, open.catalog().vocabularies(), told_facts(facts));
        Where may(plain.configurations.size());
        const auto order = plain_order(plain, *line);
        for (std::size_t i = 0; i < order.size(); ++i) may[order[i]] = may_be_true(narrowing).test(i);
        ToyDomain toy;
        Plugins plugins;
        plugins.domains.emplace_back("toy", "", toy, Vocabulary{});
        const NoVehicle view;
        const Engine engine;
        const Judge judge(open.catalog(), plugins, *line, narrowing, view, engine);
        const Interchange interchange(open.catalog(), plugins, engine, &judge);
        every_pair(graph, [&](std::size_t wanted, std::size_t offered) {
            const auto answer = interchange.swap(group_name(wanted), group_name(offered));
            yes += yes_like(answer.verdict);
            lost += !yes_like(answer.verdict) && !excluded(graph, wanted, offered) &&
                    !paths(graph, wanted, offered).empty();
            const auto differs = difference(graph, wanted, offered, answer, left, may);
            must(differs == "", differs, [&] {
                return story(graph) +
                       fmt::format("{} for {}: {}", group_name(offered), group_name(wanted), swap_name(answer.verdict));
            });
        });
    }
    CHECK(yes > 500);
    CHECK(lost > 50);
}

TEST_CASE("one way does not make the other: without exclusions a swap is a yes exactly where it is reachable") {
    Bench bench;
    std::size_t one_way = 0, both = 0;
    for (int n = 0; n < 200; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 23000000);
        const auto graph = some_graph(dice, dice.between(3, 8), 0);
        OpenGraph open(bench, graph);
        std::set<std::pair<std::size_t, std::size_t>> yes;
        for (std::size_t wanted = 0; wanted < graph.groups; ++wanted) {
            const auto reachable = open.interchange().graph().reachable(group_name(wanted));
            for (std::size_t offered = 0; offered < graph.groups; ++offered) {
                if (offered == wanted) continue;
                const bool may = yes_like(open.swap(wanted, offered).verdict);
                if (may) yes.emplace(wanted, offered);
                const bool there = std::find(reachable.begin(), reachable.end(), group_name(offered)) !=
                                   reachable.end();
                must(may == there, "a yes is a reachable group",
                     [&] { return story(graph) + group_name(offered) + " for " + group_name(wanted); });
            }
        }
        for (const auto& [wanted, offered] : yes) ++(yes.count({offered, wanted}) ? both : one_way);
    }
    std::cout << "swap: " << one_way << " one way only, " << both << " both ways\n";
    CHECK(one_way > 500);
    CHECK(both > 100);
}

TEST_CASE("adding an exclusion never makes any answer better") {
    Bench bench;
    std::size_t taken = 0;
    for (int n = 0; n < 200; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 24000000);
        const auto before = some_graph(dice, dice.between(3, 6), 8);
        auto after = before;
        PlainEdge exclusion;
        exclusion.relation = Relation::excludes;
        exclusion.offered = dice.below(before.groups);
        exclusion.wanted = (exclusion.offered + 1) % before.groups;
        exclusion.source = dice.below(plain_sources().size());
        after.edges.push_back(exclusion);
        std::map<std::pair<std::size_t, std::size_t>, SwapVerdict> was;
        {
            OpenGraph open(bench, before);
            every_pair(before, [&](std::size_t wanted, std::size_t offered) {
                was[{wanted, offered}] = open.swap(wanted, offered).verdict;
            });
        }
        OpenGraph open(bench, after);
        every_pair(after, [&](std::size_t wanted, std::size_t offered) {
            const auto now = open.swap(wanted, offered).verdict;
            taken += how_bad(now) > how_bad(was[{wanted, offered}]);
            must(how_bad(now) >= how_bad(was[{wanted, offered}]), "an exclusion never helps",
                 [&] { return story(after) + group_name(offered) + " for " + group_name(wanted); });
        });
    }
    CHECK(taken > 100);
}

TEST_CASE("weaker evidence for a stand-in never makes any answer better or firmer") {
    Bench bench;
    std::size_t weakened = 0;
    for (int n = 0; n < 400; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 25000000);
        const auto before = some_graph(dice, dice.between(3, 6), 8);
        auto after = before;
        auto& edge = after.edges[dice.below(after.edges.size())];
        if (!positive(edge)) continue;
        const auto firmness = edge.evidence();
        edge.source = dice.below(plain_sources().size());
        if (edge.evidence() <= firmness) continue;
        std::map<std::pair<std::size_t, std::size_t>, SwapAnswer> was;
        {
            OpenGraph open(bench, before);
            every_pair(before, [&](std::size_t wanted, std::size_t offered) {
                was[{wanted, offered}] = open.swap(wanted, offered);
            });
        }
        OpenGraph open(bench, after);
        every_pair(after, [&](std::size_t wanted, std::size_t offered) {
            const auto now = open.swap(wanted, offered);
            const auto& then = was[{wanted, offered}];
            const bool better = how_bad(now.verdict) < how_bad(then.verdict);
            const bool firmer = yes_like(now.verdict) && yes_like(then.verdict) && now.weakest < then.weakest;
            weakened += yes_like(now.verdict) && now.weakest > then.weakest;
            must(!better && !firmer, "weaker evidence never helps",
                 [&] { return story(before) + "\n" + story(after); });
        });
    }
    CHECK(weakened > 20);
}

TEST_CASE("a seller's claim holds for its own group only and never chains") {
    Bench bench;
    bench.clear();
    Graph graph{3, {}};
    for (const auto& [offered, wanted] :
         {std::pair<std::size_t, std::size_t>(1, 0), std::pair<std::size_t, std::size_t>(2, 1)}) {
        PlainEdge edge;
        edge.offered = offered;
        edge.wanted = wanted;
        graph.edges.push_back(edge);
    }
    put_graph(bench, graph);
    const auto member = [&](std::size_t group, const std::string& item, int ordinal, std::int64_t basis) {
        put(bench.database(), "INSERT OR IGNORE INTO item VALUES (?,?,?,1,NULL,?,?)",
            {{bench.name(item), bench.name("widget"), item, bench.name("maker-book"), test_pack + 90}});
        put(bench.database(), "INSERT INTO member VALUES (?,?,?,?,?)",
            {{(bench.name(group_name(group)) << ordinal_bits) + ordinal, bench.name(item), basis,
              bench.name("practice"), test_pack + 90 + ordinal}});
    };
    member(1, "SAME-1", 1, 0);
    member(1, "APPROVED-1", 2, 1);
    member(1, "MEETS-1", 3, 2);
    member(1, "CLAIMED-1", 4, 3);
    OpenGraph open(bench);
    const auto verdict = [&](const std::string& wanted, const std::string& offered) {
        return open.interchange().swap(wanted, offered).verdict;
    };
    CHECK(verdict("group-1", "SAME-1") == SwapVerdict::yes);
    CHECK(verdict("group-1", "CLAIMED-1") == SwapVerdict::claimed_only);
    CHECK(verdict("SAME-1", "CLAIMED-1") == SwapVerdict::claimed_only);
    for (const auto* item : {"SAME-1", "APPROVED-1", "MEETS-1"}) CHECK(verdict("group-0", item) == SwapVerdict::yes);
    CHECK(verdict("group-0", "CLAIMED-1") == SwapVerdict::not_recorded);
    CHECK(verdict("CLAIMED-1", "group-2") ==
          SwapVerdict::not_recorded);  // what is wanted must be known by more than a claim
    CHECK(verdict("SAME-1", "group-2") == SwapVerdict::yes);
    CHECK(verdict("CLAIMED-1", "CLAIMED-1") == SwapVerdict::yes);  // an item is itself
    CHECK(verdict("group-0", "group-2") == SwapVerdict::yes);
    CHECK(verdict("group-2", "group-0") == SwapVerdict::not_recorded);
}
