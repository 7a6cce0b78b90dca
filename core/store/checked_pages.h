// An SQLite file whose pages carry their checksum in eight bytes at their end, which SQLite leaves free for it: every
// page is checked when it is read, so that a damaged file is said to be damaged and never answers something else. What
// is not read is not checked and costs nothing. Files without the eight bytes are read and written as they are.
#pragma once

#include <cstdint>
#include <string_view>

struct sqlite3;

namespace casebound {

inline constexpr int checksum_bytes = 8;

// The SQLite "VFS" to open such a file with; registered when first asked for.
const char* checked_pages();

// Whether the file was opened with it and every page has room for its checksum.
bool has_checked_pages(sqlite3* database);

// Of a page without its last eight bytes, at its place in the file. A change in any one of its words changes it.
std::uint64_t page_checksum(std::string_view page, std::uint64_t place);

}  // namespace casebound
