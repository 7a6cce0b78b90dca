#include "core/verdict/stand_in_graph.h"

#include <algorithm>
#include <array>
#include <deque>
#include <set>

namespace casebound {

namespace {

constexpr std::array<std::string_view, 4> relations{"supersedes", "stands_in_if", "bolts_up_but", "excludes"};
constexpr std::array<std::string_view, 4> relations_said{"supersedes", "stands in, on a condition, for",
                                                         "bolts up in place of, but differs from,",
                                                         "is excluded as a stand-in for"};

Relation relation_from(std::string_view text) {
    return static_cast<Relation>(std::find(relations.begin(), relations.end(), text) - relations.begin());
}

Edge edge_from(const Row& row) {
    const auto cell = [&](std::string_view column) { return std::string(row.text(column)); };
    return {cell("offered"),    cell("wanted"),      relation_from(row.text("relation")),
            cell("condition"),  cell("requirement"), cell("also_requires"),
            cell("difference"), cell("withdrawn"),   row.origin};
}

}  // namespace

std::string_view relation_name(Relation relation) { return relations.at(static_cast<std::size_t>(relation)); }
std::string_view relation_words(Relation relation) { return relations_said.at(static_cast<std::size_t>(relation)); }

const std::vector<Edge>& StandInGraph::edges_to(const std::string& wanted) const {
    const auto [found, fresh] = to_.try_emplace(wanted);
    if (fresh)
        for (const auto& row : catalog_.facts().rows("stand_ins", "wanted", wanted))
            found->second.push_back(edge_from(row));
    return found->second;
}

const std::vector<Edge>& StandInGraph::edges_from(const std::string& offered) const {
    const auto [found, fresh] = from_.try_emplace(offered);
    if (fresh)
        for (const auto& row : catalog_.facts().rows("stand_ins", "offered", offered))
            found->second.push_back(edge_from(row));
    return found->second;
}

// An `excludes` counts both ways.
bool StandInGraph::excluded(const std::string& a, const std::string& b, std::vector<Edge>* statements) const {
    bool found = false;
    const auto look = [&](const std::vector<Edge>& edges, const std::string& other, bool to) {
        for (const auto& edge : edges) {
            if (edge.relation != Relation::excludes || !edge.withdrawn.empty() ||
                (to ? edge.offered : edge.wanted) != other)
                continue;
            found = true;
            if (statements) statements->push_back(edge);
        }
    };
    look(edges_to(a), b, true);
    look(edges_from(a), b, false);
    return found;
}

std::vector<std::string> StandInGraph::reachable(const std::string& wanted) const {
    std::set<std::string> seen{wanted};
    std::deque<std::string> open{wanted};
    while (!open.empty()) {
        const auto at = open.front();
        open.pop_front();
        for (const auto& edge : edges_to(at)) {
            if (edge.relation == Relation::excludes || !edge.withdrawn.empty() || seen.count(edge.offered)) continue;
            if (excluded(edge.offered, wanted, nullptr) || excluded(edge.offered, edge.wanted, nullptr)) continue;
            seen.insert(edge.offered);
            open.push_back(edge.offered);
        }
    }
    seen.erase(wanted);
    return {seen.begin(), seen.end()};
}

}  // namespace casebound
