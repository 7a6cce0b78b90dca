// Applies a domain's SQL so that it can touch nothing but its own tables: it may CREATE TABLE and CREATE INDEX
// under names that begin with `<domain>_`, refer to its own tables and to core's pack tables, and nothing else.
// It guards against mistakes; a domain's code is trusted as much as this program's. Never reads a file.
#pragma once

#include <string_view>

#include "core/store/sqlite.h"

namespace casebound {

// Names that core has taken: of a pack table, or of core itself.
bool is_core_name(std::string_view name);

// Throws Error (refused) that names the statement's fault and what a domain may write.
// Leaves `database` without an authorizer; what was applied before the fault stays, so use a transaction.
void apply_domain_schema(Database& database, std::string_view domain, std::string_view sql);

// Applies it to a database in memory, looks at what its tables refer to, and drops it. Throws as above.
void check_domain_schema(std::string_view domain, std::string_view sql);

}  // namespace casebound
