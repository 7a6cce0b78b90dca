// What a spreadsheet has made of a cell of a workbook: a number where a key is wanted, a date, an error.
// Only recognizes; never repairs, because the original is lost.
#pragma once

#include <string>

#include "core/book/workbook.h"
#include "core/pack/pack_shape.h"

namespace casebound {

// "" when the cell may be taken as its text; else what it is now and what to do. A number in a column that is no key is
// taken as the file stores it.
std::string wrong_in_sheet(const Column& column, const BookCell& cell);

}  // namespace casebound
