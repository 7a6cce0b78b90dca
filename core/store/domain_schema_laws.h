// What every table of a domain must be, so that a pack's rows can be stored in it and shown with their source: the
// first column `origin INTEGER PRIMARY KEY`, STRICT, TEXT, REAL or INTEGER, a comment on every column, a `source`.
// Reads only SQL that domain_schema.h has confined. Changes nothing.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// Every break of the laws, with what to write instead; empty when there is none.
// Throws Error (refused) for SQL that is not confined.
std::vector<std::string> schema_faults(std::string_view domain, std::string_view sql);

// Columns by table: core's pack tables and the domain's own. Throws as above.
using TableColumns = std::map<std::string, std::set<std::string, std::less<>>, std::less<>>;
TableColumns readable_columns(std::string_view domain, std::string_view sql);

}  // namespace casebound
