// Writes a workbook (.xlsx) whose cells are all text: a sheet a table, with a frozen header, what each column means as a
// note on it, and lists to choose from. The same sheets give the same file. Reads nothing; knows no trade.
#pragma once

#include <string>
#include <vector>

#include "core/book/book_sheet.h"

namespace casebound {

// Put in the place of `path` whole. Throws Error(cannot_write), or Error(usage) for what no workbook has room for.
void write_workbook(const std::string& path, const std::vector<BookSheet>& sheets);

}  // namespace casebound
