#include "core/pack/catalog_file.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/pack/loaded_packs.h"
#include "core/store/domain_schema.h"
#include "core/store/schema_sql.h"

namespace casebound {

namespace {

std::vector<std::string> texts(const Database& database, std::string_view sql) {
    std::vector<std::string> found;
    Statement rows(database, sql);
    while (rows.step()) found.push_back(rows.str(0));
    return found;
}

void make_catalog(Database& catalog) {
    Transaction transaction(catalog);
    if (catalog.integer("SELECT count(*) FROM sqlite_master") != 0) return;  // another process was faster
    catalog.execute(core_sql);
    catalog.execute(catalog_sql);
    catalog.execute(
        fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", catalog_application_id, catalog_version()));
    transaction.commit();
}

bool empty(const Database& catalog, const std::string& table) {
    return catalog.integer(fmt::format("SELECT count(*) FROM (SELECT 1 FROM {} LIMIT 1)", sql_name(table))) == 0;
}

// The catalog holds nothing but what its packs say.
std::string how_to_rebuild(const std::string& path) {
    return fmt::format(
        "rebuild it: `rm '{}'`, then `casebound pack load --reference`, and `casebound pack load FOLDER` "
        "for each pack of your own; the shop file has no part in it",
        path);
}

}  // namespace

// FNV-1a over the texts, for it is asked at every start; 31 bits, as user_version is signed.
std::int64_t catalog_version() {
    std::uint32_t hash = 2166136261u;
    for (const std::string_view text :
         {std::string_view(core_sql), std::string_view(catalog_sql), std::string_view("pages with checksums")})
        for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
    return hash & 0x7fffffff;
}

Database open_catalog_file(const std::string& path, Database::Mode mode) {
    Database catalog(path, mode, Database::Pages::checked);
    catalog.when_damaged(how_to_rebuild(path));
    return catalog;
}

void require_catalog(const Database& catalog) {
    const auto& path = catalog.path();
    if (catalog.integer("PRAGMA application_id") != catalog_application_id)
        throw Error(Exit::bad_data, fmt::format("{}: not a catalog of casebound: name another file", path));
    if (catalog.integer("PRAGMA user_version") != catalog_version())
        throw Error(Exit::bad_data,
                    fmt::format("{}: made by another version of casebound: {}", path, how_to_rebuild(path)));
    if (!catalog.pages_are_checked()) catalog.fail_as_damaged("its pages have no checksums");
}

void finish_interrupted_load(const std::string& path) {
    std::error_code ignored;
    if (!std::filesystem::exists(path + "-journal", ignored)) return;
    open_catalog_file(path, Database::Mode::read_write).integer("SELECT count(*) FROM sqlite_master");
}

Database open_catalog_to_write(const std::string& path, bool make) {
    if (!make && !std::filesystem::exists(path))
        throw Error(Exit::no_input,
                    fmt::format("{}: there is no catalog yet: `casebound pack load --reference` loads what every "
                                "domain ships, `casebound pack load FOLDER` a pack of your own",
                                path));
    Database catalog = open_catalog_file(path, make ? Database::Mode::create : Database::Mode::read_write);
    // Four pack tables are views here, so SQLite cannot check references: the pack check does, with better words.
    // Rows come in the order in which they are stored: pages are written once and then seldom asked for again, so a small
    // cache that uses its memory again is faster than a large one that takes more for every page.
    catalog.execute(
        "PRAGMA foreign_keys = OFF; PRAGMA temp_store = MEMORY; PRAGMA cache_size = -8192; PRAGMA synchronous = "
        "EXTRA");
    if (catalog.integer("SELECT count(*) FROM sqlite_master") == 0) make_catalog(catalog);
    require_catalog(catalog);
    return catalog;
}

void add_domain_tables(Database& catalog, const PackShape& shape) {
    for (const auto& domain : shape.domains()) {
        const auto wanted = shape.statements_of(domain);
        std::vector<std::string> there, stale;
        for (const auto& [name, sql] : wanted) {
            Statement row(catalog, "SELECT sql FROM sqlite_master WHERE name = ?1");
            if (!row.bind(1, name).step()) continue;
            there.push_back(name);
            if (row.text(0) != sql) stale.push_back(name);
        }
        if (stale.empty() && there.size() == wanted.size()) continue;
        for (const auto& table : plain_tables(catalog)) {
            const bool of_domain = shape.find(table) ? shape.find(table)->owner == domain
                                                     : table.substr(0, domain.size() + 1) == domain + "_";
            if (!of_domain) continue;
            if (!empty(catalog, table))
                throw Error(Exit::bad_data,
                            fmt::format("{}: domain {} has changed its tables, and {} holds rows of the old shape: "
                                        "delete the catalog and rebuild it from its packs",
                                        catalog.path(), domain, table));
            catalog.execute(fmt::format("DROP TABLE {}", sql_name(table)));
        }
        for (const auto& [name, sql] : wanted) catalog.execute(sql);  // already confined, when the shape was made
    }
}

std::vector<std::string> plain_tables(const Database& catalog) {
    return texts(
        catalog,
        "SELECT m.name FROM sqlite_master m WHERE m.type = 'table' AND m.name NOT IN ('item', 'item_group', 'member', "
        "'application') "
        "AND EXISTS (SELECT 1 FROM pragma_table_info(m.name) WHERE name = 'origin' AND pk = 1) ORDER BY m.rowid");
}

std::vector<std::string> domains_in(const Database& catalog) {
    return texts(catalog,
                 "SELECT domain FROM known_role UNION SELECT domain FROM known_item_kind UNION SELECT domain FROM "
                 "known_attribute "
                 "EXCEPT SELECT 'core' ORDER BY 1");
}

}  // namespace casebound
