// How much of what is loaded rests on what: the rows of every table by the kind of their source. Reads only.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "core/contract/facts.h"
#include "core/pack/pack_shape.h"

namespace casebound {

// Law, standard, maker, measured, common practice, memory, invented: as Evidence counts them.
using RowsByKind = std::array<std::size_t, 7>;

struct TableShares {
    const TableShape* table;
    RowsByKind rows{};
    std::size_t all() const;
};

// Tables whose rows name a source and that have any, in the order of the shape.
std::vector<TableShares> shares_of(const Facts& facts, const PackShape& shape);
RowsByKind summed(const std::vector<TableShares>& tables);

}  // namespace casebound
