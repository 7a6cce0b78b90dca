#include "core/pack/loaded_packs.h"

#include <array>
#include <utility>

#include <fmt/format.h>

namespace casebound {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 4> record_tables{
    {{"items", "item"}, {"groups", "item_group"}, {"group_members", "member"}, {"applications", "application"}}};

}  // namespace

std::string_view stored_as(std::string_view pack_table) {
    for (const auto& [table, stored] : record_tables)
        if (table == pack_table) return stored;
    return pack_table;
}

std::string sql_name(std::string_view identifier) {
    std::string text = "\"";
    for (const char c : identifier) text += c == '"' ? std::string("\"\"") : std::string(1, c);
    return text + '"';
}

LoadedPacks::LoadedPacks(const Database& database, std::int64_t pack) : database_(database), pack_(pack) {
    Statement rows(database_, "SELECT id, name FROM pack WHERE id <> ?1");
    rows.bind(1, pack);
    while (rows.step()) names_[rows.integer(0)] = rows.str(1);
}

Statement& LoadedPacks::prepared(const std::string& sql) {
    auto found = statements_.find(sql);
    if (found == statements_.end()) {
        found = statements_.emplace(sql, Statement(database_, sql)).first;
        found->second.bind(8, first_origin()).bind(9, last_origin());
    }
    return found->second.reset();
}

std::optional<std::int64_t> LoadedPacks::origin_of(std::string_view table, std::string_view column,
                                                   std::string_view key) {
    if (empty()) return std::nullopt;
    const auto stored = stored_as(table);
    const auto where = stored == table ? fmt::format("{} = ?1", sql_name(column))
                                       : std::string("id = (SELECT id FROM name WHERE text = ?1)");
    auto& row = prepared(
        fmt::format("SELECT origin FROM {} WHERE {} AND origin NOT BETWEEN ?8 AND ?9", sql_name(stored), where));
    row.bind(1, key);
    const auto origin = row.step() ? std::optional(row.integer(0)) : std::nullopt;
    row.reset();
    return origin;
}

std::vector<std::string> LoadedPacks::keys(std::string_view table, std::string_view column, int most) const {
    std::vector<std::string> found;
    if (empty()) return found;
    Statement rows(database_, fmt::format("SELECT {} FROM {} WHERE origin NOT BETWEEN ?1 AND ?2 LIMIT {}",
                                          sql_name(column), sql_name(table), most));
    rows.bind(1, first_origin()).bind(2, last_origin());
    while (rows.step()) found.push_back(rows.str(0));
    return found;
}

bool LoadedPacks::has_rows(std::string_view table) {
    if (empty()) return false;
    const auto found = has_rows_.find(table);
    if (found != has_rows_.end()) return found->second;
    auto& row = prepared(
        fmt::format("SELECT 1 FROM {} WHERE origin NOT BETWEEN ?8 AND ?9 LIMIT 1", sql_name(stored_as(table))));
    const bool any = row.step();
    row.reset();
    return has_rows_[std::string(table)] = any;
}

std::string LoadedPacks::kind_of(std::string_view table, std::string_view key) {
    if (empty()) return {};
    auto& row = prepared(fmt::format(
        "SELECT k.text FROM {} t JOIN name k ON k.id = t.kind WHERE t.id = (SELECT id FROM name WHERE text = ?1) "
        "AND t.origin NOT BETWEEN ?8 AND ?9",
        sql_name(stored_as(table))));
    row.bind(1, key);
    std::string kind = row.step() ? row.str(0) : std::string();
    row.reset();
    return kind;
}

std::string LoadedPacks::place(std::string_view table, std::int64_t origin) const {
    const auto name = names_.find(origin >> 32);
    return fmt::format("pack {}, {}.csv:{}", name == names_.end() ? "?" : name->second, table, origin & 0xffffffff);
}

}  // namespace casebound
