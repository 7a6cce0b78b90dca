// Brings a precious SQLite file up to the newest version of its schema, and makes it when it is not there.
//
// The schema text is cut at its "-- version N" lines; PRAGMA user_version is the last section applied. Before an
// older file is changed, a checked and fsynced copy is left beside it: shop-v1-20261125T140507.sqlite.
// All missing sections are applied in one transaction, or none. A new file is made whole beside its name. Never touches
// a file of another program, nor an empty one.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/sqlite.h"

namespace casebound {

struct MigratedKind {
    std::string_view what;          // "shop file", for messages
    std::int32_t application_id{};  // PRAGMA application_id: says whose file it is
    std::string_view schema;
};

// Foreign keys are on and the rollback journal is in use (no WAL); what was committed outlives a power cut, because the
// removal of the journal is synced too. Throws Error: 65 for a file that is something
// else, damaged, or of a newer version; 73 or 74 when it cannot be made or written; 75 when busy.
Database open_migrated(const std::string& path, const MigratedKind& kind);

// The sections, version 1 first. Throws std::logic_error when they are not numbered 1, 2, 3, ...
std::vector<std::string> schema_versions(std::string_view schema);

}  // namespace casebound
