// The catalog's file, opened to be written: made when missing, refused when it is another's or of another version,
// with the tables of the loaded domains in it. Never reads a pack.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/pack/pack_shape.h"
#include "core/store/sqlite.h"

namespace casebound {

inline constexpr std::int64_t catalog_application_id = 0x43534244;  // "CSBD"

// Its pages are checked as they are read; a damaged one throws Damaged, which says how to rebuild it.
Database open_catalog_file(const std::string& path, Database::Mode mode);

// user_version of a catalog: follows from the text of schema/core.sql and schema/catalog.sql.
std::int64_t catalog_version();

// Throws Error(bad_data) for a file that is no catalog, or one of another version, and says to rebuild it.
void require_catalog(const Database& catalog);

// A load that was killed leaves a journal beside the catalog, which only a writer may roll back: call this before
// opening the catalog read-only. Does nothing when there is none.
void finish_interrupted_load(const std::string& path);

// Checked as above; with `make`, a missing one is made, else Error(no_input).
Database open_catalog_to_write(const std::string& path, bool make);

// Inside the caller's transaction. A domain whose tables have changed gets new ones when the old ones are empty;
// else throws Error(bad_data) that says to rebuild the catalog.
void add_domain_tables(Database& catalog, const PackShape& shape);

// Tables that hold rows of packs, plain ones only (`items` and the other three are views).
std::vector<std::string> plain_tables(const Database& catalog);

// Domains that the catalog knows of, loaded today or not.
std::vector<std::string> domains_in(const Database& catalog);

}  // namespace casebound
