// The SQL of schema/core.sql and schema/catalog.sql, put into the program by the build. Never changed at run time.
#pragma once

namespace casebound {

extern const char* const core_sql;     // what a pack may hold
extern const char* const catalog_sql;  // how the catalog stores it

}  // namespace casebound
