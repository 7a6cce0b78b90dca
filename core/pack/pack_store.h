// Puts a checked pack into the catalog, in place of what was there of it, inside the caller's transaction. The four
// large tables are written in key order into clustered tables. Never checks; never commits.
#pragma once

#include <cstdint>
#include <string>

#include "core/pack/loaded_packs.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"

namespace casebound {

struct PackRecord {
    std::int64_t id{};
    std::string name, title, version, digest, folder;
    bool invented{};
};

// Rows that SQLite itself refuses become faults; the caller must then roll back.
void store_pack(Database& catalog, const PackRecord& record, PackData& data, const PackShape& shape,
                LoadedPacks& others, FaultList& faults);

// Takes out every row of a pack, not the pack itself. When no other pack is there, names go too.
void delete_rows(Database& catalog, const LoadedPacks& others);

// Takes out names that nothing refers to any more.
void delete_stale_names(Database& catalog);

}  // namespace casebound
