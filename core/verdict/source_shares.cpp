#include "core/verdict/source_shares.h"

#include <numeric>

namespace casebound {

std::size_t TableShares::all() const { return std::accumulate(rows.begin(), rows.end(), std::size_t{}); }

std::vector<TableShares> shares_of(const Facts& facts, const PackShape& shape) {
    std::vector<TableShares> tables;
    for (const auto& table : shape.tables()) {
        if (table.find("source") == table.columns.size() || table.name == "sources") continue;
        TableShares shares{&table};
        for (const auto& row : facts.rows(table.name)) ++shares.rows[static_cast<std::size_t>(row.origin.evidence)];
        if (shares.all() > 0) tables.push_back(shares);
    }
    return tables;
}

RowsByKind summed(const std::vector<TableShares>& tables) {
    RowsByKind sum{};
    for (const auto& table : tables)
        for (std::size_t kind = 0; kind < sum.size(); ++kind) sum[kind] += table.rows[kind];
    return sum;
}

}  // namespace casebound
