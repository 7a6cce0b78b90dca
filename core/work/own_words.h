// A statement of the person's own pack as it is read aloud: places, attributes and parts by their titles, keys only where
// they are asked for. Renders only; JSON takes the cells as they stand.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/catalog.h"
#include "core/work/own_pack.h"

namespace casebound {

// "pan gasket: PG-1 fits, on Harbour Van 2.2 where pan depth, rail to floor 38 mm"; of any other table its columns.
std::string statement_words(const Catalog& catalog, std::string_view table, const OwnCells& cells);

// Of a row that says what fits a place: what is poured is ordered by how much the place takes and how much a pack holds,
// and neither is guessed. A sentence for each that is not said.
std::vector<std::string> amounts_missing(const Catalog& catalog, const OwnCells& cells);

}  // namespace casebound
