// The stand-ins on record as a graph: groups are nodes, stand-ins one-way edges with conditions and a source. Reads the
// catalog; judges no vehicle and no path.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

enum class Relation : std::uint8_t { supersedes, stands_in_if, bolts_up_but, excludes };

struct Edge {
    std::string offered, wanted;
    Relation relation = Relation::supersedes;
    std::string condition, requirement, also_requires, difference, withdrawn;
    Origin origin;
};

std::string_view relation_words(Relation relation);
std::string_view relation_name(Relation relation);  // for JSON

class StandInGraph {
public:
    explicit StandInGraph(const Catalog& catalog) : catalog_(catalog) {}

    const std::vector<Edge>& edges_to(const std::string& wanted) const;  // kept once read
    const std::vector<Edge>& edges_from(const std::string& offered) const;
    // Whether a statement that counts excludes one with the other, either way round; adds them to `statements`.
    bool excluded(const std::string& a, const std::string& b, std::vector<Edge>* statements) const;
    // Every group from which edges that count lead to `wanted`.
    std::vector<std::string> reachable(const std::string& wanted) const;

private:
    const Catalog& catalog_;
    mutable std::map<std::string, std::vector<Edge>> to_, from_;
};

}  // namespace casebound
