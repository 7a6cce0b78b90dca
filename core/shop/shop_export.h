// The whole shop file as a Data Package, version 2 (a CSV file a table), and back. An import goes only into a shop
// file that is still empty, in one transaction. An empty cell is NULL where the column allows it.
#pragma once

#include <string>
#include <vector>

#include "core/store/sqlite.h"

namespace casebound {

struct MovedTable {
    std::string name;
    std::int64_t rows{};
};

// The folder is made when missing; files of the same names are replaced. Throws Error(cannot_create or cannot_write).
std::vector<MovedTable> export_shop(const Database& shop, const std::string& folder);
// Throws Error: 65 for files that are not a shop's export, with every fault; 64 when the shop file is not empty.
std::vector<MovedTable> import_shop(Database& shop, const std::string& folder);

}  // namespace casebound
