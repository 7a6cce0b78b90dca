// A row of the table book as a person reads it. Renders only.
#pragma once

#include <string>

#include "core/verdict/catalog.h"
#include "core/verdict/reference_tables.h"

namespace casebound {

inline constexpr std::size_t table_rows_in_short = 12;  // of those found by what is in the hand

// "AS568; size 214; inside diameter 24.99 mm": what is stated, in the table's own order; a text that comes first needs no
// word before it. Conditions about findings, which the program alone reads, are left out.
std::string row_words(const Catalog& catalog, const ReferenceTable& table, const Row& row);

}  // namespace casebound
