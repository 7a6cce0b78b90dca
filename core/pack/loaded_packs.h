// What the catalog holds of every pack but one: the one that is being checked, replaced or dropped.
// Only reads, and only inside the caller's transaction.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/sqlite.h"

namespace casebound {

class LoadedPacks {
public:
    // `pack` 0: no pack is left out.
    LoadedPacks(const Database& database, std::int64_t pack);

    const Database& database() const { return database_; }
    bool empty() const { return names_.empty(); }
    std::int64_t first_origin() const { return pack_ << 32; }
    std::int64_t last_origin() const { return (pack_ << 32) | 0xffffffff; }
    bool replaces() const { return pack_ != 0; }

    // Where another pack has this key of a table.
    std::optional<std::int64_t> origin_of(std::string_view table, std::string_view column, std::string_view key);
    // Keys of other packs, at most `most`.
    std::vector<std::string> keys(std::string_view table, std::string_view column, int most) const;
    bool has_rows(std::string_view table);
    // Item kind of an item or a group of another pack, "" when there is none.
    std::string kind_of(std::string_view table, std::string_view key);

    // "pack demo-fleet, items.csv:41"
    std::string place(std::string_view table, std::int64_t origin) const;

    // A statement kept for reuse. ?8 and ?9 are bound to the origins to leave out: write `AND origin NOT BETWEEN ?8 AND ?9`.
    Statement& prepared(const std::string& sql);

private:
    const Database& database_;
    std::int64_t pack_;
    std::map<std::int64_t, std::string> names_;
    std::map<std::string, Statement, std::less<>> statements_;
    std::map<std::string, bool, std::less<>> has_rows_;
};

// The table that stores rows of a pack table: `item` for items, and so on; others are their own.
std::string_view stored_as(std::string_view pack_table);

// For identifiers that come from SQLite's own schema.
std::string sql_name(std::string_view identifier);

}  // namespace casebound
