// Random interchange graphs as plain data, and other searches over them: Boost.Graph breadth first, a recursive SQL
// query, and every simple path written out. Uses nothing of core's interchange but its names of relations and verdicts.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <boost/graph/filtered_graph.hpp>

#include "core/verdict/interchange.h"
#include "tests/verdict/oracle_generate.h"

namespace casebound::tests {

struct PlainEdge {
    std::size_t offered = 0, wanted = 0;
    Relation relation = Relation::supersedes;
    std::string condition, requirement, also_requires, difference;
    bool withdrawn = false;
    std::size_t source = 0;
    Where on;  // configurations on which the condition holds
    Evidence evidence() const { return plain_sources()[source].evidence; }
};

struct Graph {
    std::size_t groups = 0;
    std::vector<PlainEdge> edges;
};

inline std::string group_name(std::size_t group) { return "group-" + std::to_string(group); }

inline Graph some_graph(Dice& dice, std::size_t groups, unsigned exclusions, const PlainCatalog* plain = nullptr) {
    Graph graph{groups, {}};
    for (auto count = dice.between(groups, 3 * groups); count > 0; --count) {
        PlainEdge edge;
        edge.offered = dice.below(groups);
        edge.wanted = (edge.offered + 1 + dice.below(groups - 1)) % groups;
        edge.relation = dice.chance(exclusions) ? Relation::excludes : static_cast<Relation>(dice.below(3));
        edge.source = dice.below(plain_sources().size());
        edge.withdrawn = dice.chance(8);
        const auto number = std::to_string(graph.edges.size());
        if (edge.relation == Relation::stands_in_if && dice.chance(70)) edge.requirement = "requirement " + number;
        if (edge.relation == Relation::bolts_up_but) edge.difference = "difference " + number;
        if (edge.relation != Relation::excludes && dice.chance(25))
            edge.also_requires = "also-" + number + "|also-" + std::to_string(dice.below(3));
        if (plain) {
            if (edge.relation != Relation::excludes && dice.chance(40))
                edge.condition = some_live_condition(dice, *plain, edge.on);
            else edge.on.assign(plain->configurations.size(), true);
        }
        graph.edges.push_back(std::move(edge));
    }
    return graph;
}

inline void put_graph(Bench& bench, const Graph& graph) {
    for (std::size_t g = 0; g < graph.groups; ++g)
        bench.put_group(group_name(g), "widget", static_cast<std::uint32_t>(g) + 2);
    std::vector<std::vector<Cell>> rows;
    for (const auto& edge : graph.edges)
        rows.push_back({test_pack + 2 + static_cast<std::int64_t>(rows.size()), group_name(edge.offered),
                        std::string(relation_name(edge.relation)), group_name(edge.wanted), or_null(edge.condition),
                        or_null(edge.requirement), or_null(edge.also_requires), or_null(edge.difference),
                        or_null(edge.withdrawn ? std::string("replaced") : ""), plain_sources()[edge.source].key});
    put(bench.database(), "INSERT INTO stand_ins VALUES (?,?,?,?,?,?,?,?,?,?)", rows);
}

// ---------------------------------------------------------------- the other searches

inline bool excluded(const Graph& graph, std::size_t a, std::size_t b) {
    return std::any_of(graph.edges.begin(), graph.edges.end(), [&](const PlainEdge& e) {
        return e.relation == Relation::excludes && !e.withdrawn &&
               ((e.offered == a && e.wanted == b) || (e.offered == b && e.wanted == a));
    });
}

inline bool positive(const PlainEdge& edge) { return edge.relation != Relation::excludes && !edge.withdrawn; }

inline std::vector<std::string> reached_by_boost(const Graph& graph, std::size_t wanted) {
    using Net = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;
    Net net(graph.groups);
    for (const auto& edge : graph.edges)
        if (positive(edge) && !excluded(graph, edge.offered, edge.wanted))
            boost::add_edge(edge.wanted, edge.offered, net);
    const auto allowed = [&](std::size_t group) { return group == wanted || !excluded(graph, group, wanted); };
    const boost::filtered_graph<Net, boost::keep_all, std::function<bool(std::size_t)>> filtered(net, boost::keep_all{},
                                                                                                 allowed);
    std::set<std::string> found;
    struct Visitor : boost::default_bfs_visitor {
        std::set<std::string>* found;
        explicit Visitor(std::set<std::string>* into) : found(into) {}
        void discover_vertex(
            std::size_t group,
            const boost::filtered_graph<Net, boost::keep_all, std::function<bool(std::size_t)>>&) const {
            found->insert(group_name(group));
        }
    };
    boost::breadth_first_search(filtered, wanted, boost::visitor(Visitor(&found)));
    found.erase(group_name(wanted));
    return {found.begin(), found.end()};
}

inline std::vector<std::string> reached_by_sql(const Database& database, std::size_t wanted) {
    Statement rows(database,
                   "WITH RECURSIVE reached(node) AS (VALUES (?1) UNION SELECT s.offered FROM stand_ins s JOIN reached "
                   "r ON s.wanted = r.node "
                   "WHERE s.relation <> 'excludes' AND s.withdrawn IS NULL AND NOT EXISTS (SELECT 1 FROM stand_ins x "
                   "WHERE x.relation = 'excludes' AND x.withdrawn IS NULL "
                   "AND ((x.offered = s.offered AND x.wanted IN (s.wanted, ?1)) OR (x.wanted = s.offered AND x.offered "
                   "IN (s.wanted, ?1))))) "
                   "SELECT node FROM reached WHERE node <> ?1 ORDER BY node");
    rows.bind(1, std::string_view(group_name(wanted)));
    std::vector<std::string> found;
    while (rows.step()) found.push_back(rows.str(0));
    return found;
}

// How good a path is: its verdict, whether something must be fitted beside it, firmest evidence, fewest steps.
using Rank = std::tuple<SwapVerdict, bool, Evidence, std::size_t>;
inline Evidence evidence_of(const Rank& rank) { return std::get<2>(rank); }
using Path = std::vector<const PlainEdge*>;

inline bool open_on(const PlainEdge& edge, const Where& left) {
    return !edge.condition.empty() && (left.empty() || !all_of_left(left, edge.on));
}

inline Rank rank_of(const Path& path, const Where& left = {}) {
    Rank rank{SwapVerdict::yes, false, Evidence::law, path.size()};
    for (const auto* edge : path) {
        const bool conditional = open_on(*edge, left) || !edge->requirement.empty();
        const auto gives = edge->relation == Relation::bolts_up_but ? SwapVerdict::differs
                           : conditional                            ? SwapVerdict::yes_if
                                                                    : SwapVerdict::yes;
        std::get<0>(rank) = std::max(std::get<0>(rank), gives);
        std::get<1>(rank) |= !edge->also_requires.empty();
        std::get<2>(rank) = std::max(std::get<2>(rank), edge->evidence());
    }
    return rank;
}

// Every simple path, from wanted back to offered, that crosses no exclusion; with `left`, whose conditions can all hold.
inline void walk(const Graph& graph, std::size_t wanted, std::size_t offered, const Where& left, Path& path,
                 std::set<std::size_t>& seen, std::vector<Path>& all) {
    const std::size_t at = path.empty() ? wanted : path.back()->offered;
    if (at == offered) {
        all.push_back(path);
        return;
    }
    for (const auto& edge : graph.edges) {
        if (edge.wanted != at || !positive(edge) || seen.count(edge.offered) ||
            excluded(graph, edge.offered, edge.wanted))
            continue;
        if (excluded(graph, edge.offered, wanted) ||
            (edge.offered != offered && excluded(graph, edge.offered, offered)))
            continue;
        Where rest = left;
        for (std::size_t c = 0; c < rest.size(); ++c) rest[c] = rest[c] && edge.on[c];
        if (!left.empty() && std::find(rest.begin(), rest.end(), true) == rest.end()) continue;
        path.push_back(&edge);
        seen.insert(edge.offered);
        walk(graph, wanted, offered, rest, path, seen, all);
        seen.erase(edge.offered);
        path.pop_back();
    }
}

inline std::vector<Path> paths(const Graph& graph, std::size_t wanted, std::size_t offered, const Where& left = {}) {
    std::vector<Path> all;
    Path path;
    std::set<std::size_t> seen{wanted};
    walk(graph, wanted, offered, left, path, seen, all);
    return all;
}

// Does another source say yes about just these two, which the exclusion does not outrank?
inline bool disputed(const Graph& graph, std::size_t wanted, std::size_t offered, const Where& left) {
    for (const auto& yes : graph.edges)
        for (const auto& no : graph.edges) {
            if (!positive(yes) || yes.offered != offered || yes.wanted != wanted || no.relation != Relation::excludes ||
                no.withdrawn)
                continue;
            if (!((no.offered == offered && no.wanted == wanted) || (no.offered == wanted && no.wanted == offered)))
                continue;
            if (!left.empty() && !any_of_left(left, yes.on)) continue;
            const bool outranked = yes.evidence() == Evidence::memory && no.evidence() != Evidence::memory;
            if (yes.source != no.source && !outranked) return true;
        }
    return false;
}

}  // namespace casebound::tests
