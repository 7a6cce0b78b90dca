// The whole shop file as a Data Package, version 2 (a CSV file a table), and back. An export is the shop at one moment,
// made whole beside the folder and put in its place; its descriptor has the rows, bytes and sha256 of every file.
// An import goes only into a shop file that is still empty, all of it or nothing; exports of every older version of
// the shop file are read, and brought up to date as such a file would be. An empty cell is NULL where the column
// allows it. The files of the photos go with it, in a folder of their own.
#pragma once

#include <string>
#include <vector>

#include "core/store/sqlite.h"

namespace casebound {

struct MovedTable {
    std::string name;
    std::int64_t rows{};
};

// Throws Error: 73 for a folder that holds anything but an earlier export, which would be lost; 74 when it cannot be
// written.
std::vector<MovedTable> export_shop(Database& shop, const std::string& folder);
// Checks everything before it writes. Throws Error: 65 for files that are not a shop's export, were changed since, or
// are of a newer version, with every fault; 64 when the shop file is not empty; 74 when the disk is full.
std::vector<MovedTable> import_shop(Database& shop, const std::string& folder);

}  // namespace casebound
