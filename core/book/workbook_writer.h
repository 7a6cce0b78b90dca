// Writes a workbook (.xlsx) whose cells are all text: a sheet a table, with a frozen header, what each column means as a
// note on it, and lists to choose from. The same sheets give the same file. Reads nothing; knows no trade.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct BookColumn {
    std::string name, meaning;           // meaning: the note on it; none when empty
    std::vector<std::string> choices{};  // the words a cell may be; empty: open
    std::string choices_from{};          // instead: the cells that hold them, such as words!$A$2:$A$9
    bool only_these = true;              // false: they are offered, anything else may be written
    unsigned width = 18;                 // characters
};

struct BookSheet {
    std::string name;                 // at most 31 characters
    std::vector<BookColumn> columns;  // none: a sheet without a header
    std::vector<std::vector<std::string>> rows;
    std::vector<BookColumn> beside{};  // lists for single cells of column B of a sheet without a header, by row
    std::vector<unsigned> widths{};    // of a sheet without a header
};

// Put in the place of `path` whole. Throws Error(cannot_write), or Error(usage) for what no workbook has room for.
void write_workbook(const std::string& path, const std::vector<BookSheet>& sheets);

}  // namespace casebound
