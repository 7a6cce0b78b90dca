// A sheet as it is to be written: cells of text, and what each column means and may hold.
#pragma once

#include <string>
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

}  // namespace casebound
