// A statement of the person's own pack as it is read aloud: places, attributes and parts by their titles, keys only where
// they are asked for. Renders only; JSON takes the cells as they stand.
#pragma once

#include <string>
#include <string_view>

#include "core/verdict/catalog.h"
#include "core/work/own_pack.h"

namespace casebound {

// "pan gasket: PG-1 fits, on Harbour Van 2.2 where pan depth, rail to floor 38 mm"; of any other table its columns.
std::string statement_words(const Catalog& catalog, std::string_view table, const OwnCells& cells);

}  // namespace casebound
