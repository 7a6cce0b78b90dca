// What is said of a pack: its faults, each with its place, and what it holds. Finds nothing itself.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace casebound {

struct PackFault {
    std::string file;      // inside the pack
    unsigned long line{};  // 0: the file as a whole
    unsigned cell{};       // 0: the row as a whole
    std::string column, what;
    std::string sheet{};        // of a workbook, which is `file` then
    std::string place() const;  // "applications.csv:41:5"; "mine.xlsx:applications:E41"
    std::string text() const;   // "applications.csv:41:5: condition: ..."
};

struct PackSummary {
    std::string name, title, version, folder;
    bool invented{};
    std::vector<std::pair<std::string, std::size_t>> rows;  // table, rows; tables with none left out
    bool unchanged{};                                       // load only: the same pack was already there
};

struct PackReport {
    PackSummary summary;
    std::vector<PackFault> faults;    // sorted by file, line, cell; at most 1,000, then a closing line
    std::vector<PackFault> warnings;  // looks damaged, but may be meant
};

}  // namespace casebound
