// Whether a workbook that was written holds what it was to hold: for a library that does not say all that went wrong.
#pragma once

#include <string>
#include <vector>

#include "core/book/book_sheet.h"

namespace casebound {

// Every part is whole, and every cell of every sheet is the one that was given. Widths, notes and lists are not compared.
bool reads_back(const std::string& path, const std::vector<BookSheet>& sheets);

}  // namespace casebound
