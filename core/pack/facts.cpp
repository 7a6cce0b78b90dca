#include "core/pack/facts.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>
#include <unordered_map>

#include <fmt/format.h>

#include "core/book/workbook.h"
#include "core/ground/error.h"
#include "core/pack/loaded_packs.h"
#include "core/reason/vocabulary.h"
#include "core/store/domain_schema_laws.h"
#include "core/store/pack_tables.h"

namespace casebound {

namespace {

// What core stores itself under names with a `_` (schema/catalog.sql): no domain's, whatever the domain is called.
constexpr std::array<std::string_view, 4> core_stores{"item_group", "known_role", "known_item_kind", "known_attribute"};

template <std::size_t N> bool among(const std::array<std::string_view, N>& names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

struct SeenTable {
    struct Seen {
        std::string name;
        bool real{};
        int at{};  // in SELECT *
    };
    std::vector<Seen> columns;  // without origin
    std::string select;
    int origin = -1;         // where it stands; -1: none, it is no table of packs
    std::size_t source = 0;  // columns.size() when there is none
    bool in_catalog() const { return origin >= 0; }
};

// `reads`: tables of other domains that it has named.
bool allowed(std::string_view table, std::string_view domain, const std::vector<std::string>& reads) {
    if (is_pack_table(table)) return true;
    if (among(core_stores, table)) return false;
    return domain.empty() || (table.substr(0, domain.size()) == domain && table.substr(domain.size(), 1) == "_") ||
           std::find(reads.begin(), reads.end(), table) != reads.end();
}

struct SeenPack {
    std::string name, folder;
};

struct SeenSource {
    std::string title;
    Evidence evidence = Evidence::invented;
};

}  // namespace

std::string cited_file(std::string_view pack, std::string_view table) {
    if (!names_workbook(pack)) return fmt::format("{}.csv", table);
    return fmt::format("{}:{}", std::filesystem::path(pack).filename().string(), table);
}

struct CatalogFacts::Reader {
    explicit Reader(const Database& database_) : database(database_) {
        Statement rows(database, "SELECT id, name, folder FROM pack");
        while (rows.step()) packs[rows.integer(0)] = {rows.str(1), rows.str(2)};
        Statement names(database, "SELECT name FROM sqlite_schema WHERE type IN ('table', 'view')");
        while (names.step()) in_file.insert(names.str(0));
    }

    // `column`: by which it will be asked, "" when by none.
    const SeenTable& table(std::string_view name, std::string_view column, const Viewer& viewer) {
        const bool may = allowed(name, viewer.domain, viewer.reads);
        if (const auto found = tables.find(name); found != tables.end() && may) return found->second;
        std::optional<SeenTable> seen;
        if (may) seen = in_catalog(name, column);
        if (may && !seen) seen = declared_only(name, viewer);
        if (!seen)
            throw std::invalid_argument(
                fmt::format("rows of `{}`: not a table that {} may see: its own are called {}_..., core's are in "
                            "schema/core.sql, those of another domain it names in reads()",
                            name, viewer.domain.empty() ? "anyone" : viewer.domain,
                            viewer.domain.empty() ? "<domain>" : viewer.domain));
        return tables.emplace(std::string(name), std::move(*seen)).first->second;
    }

    // Nothing when it is no table of packs.
    std::optional<SeenTable> in_catalog(std::string_view name, std::string_view column) {
        if (in_file.find(name) == in_file.end()) return std::nullopt;
        SeenTable seen;
        seen.select = fmt::format("SELECT * FROM {}", sql_name(name));
        const auto* prepared = rows_of(seen, column);
        if (!prepared) return std::nullopt;
        const auto& rows = *prepared;  // not stepped: its columns are those of the table
        for (int at = 0; at < rows.columns(); ++at) {
            if (rows.name(at) == "origin") seen.origin = at;
            else seen.columns.push_back({std::string(rows.name(at)), rows.declared_type(at) == "REAL", at});
        }
        if (!seen.in_catalog()) return std::nullopt;
        const auto at = std::find_if(seen.columns.begin(), seen.columns.end(),
                                     [](const auto& c) { return c.name == "source"; });
        seen.source = static_cast<std::size_t>(at - seen.columns.begin());
        return seen;
    }

    // Null when it is no table of packs, which all have an origin.
    const Statement* rows_of(const SeenTable& seen, std::string_view column) {
        for (const auto by_column : {column, std::string_view{}}) {
            try {
                return &by(seen, by_column);
            } catch (const Error&) {}  // most likely it has no such column, which is said with what it has
        }
        return nullptr;
    }

    // No load has made it: it is of a domain that is not loaded, or nothing was loaded since the domain is here.
    static std::optional<SeenTable> declared_only(std::string_view name, const Viewer& viewer) {
        SeenTable seen;
        if (std::find(viewer.reads.begin(), viewer.reads.end(), name) != viewer.reads.end()) return seen;
        if (!viewer.schema) return std::nullopt;
        const auto declared = readable_columns(viewer.domain, viewer.schema());
        const auto table = declared.find(name);
        if (table == declared.end()) return std::nullopt;
        for (const auto& column : table->second) seen.columns.push_back({column, false, 0});
        return seen;
    }

    const SeenSource& source(std::string_view key) {
        if (const auto found = sources.find(key); found != sources.end()) return found->second;
        SeenSource seen;
        auto& row = statement("SELECT kind, title, edition FROM sources WHERE source = ?1");
        if (row.bind(1, key).step()) {
            seen.evidence = evidence_from(row.text(0));
            seen.title = row.text(2).empty() ? row.str(1) : fmt::format("{}, {}", row.text(1), row.text(2));
        }
        row.reset();
        return sources.emplace(std::string(key), std::move(seen)).first->second;
    }

    Row row(const Statement& from, std::string_view table, const SeenTable& seen) {
        Row row;
        row.cells.reserve(seen.columns.size());
        for (const auto& [name, real, at] : seen.columns) {
            if (real && !from.is_null(at))
                row.cells.emplace_back(name, fmt::format("{}", from.real(at)), from.real(at));
            else row.cells.emplace_back(name, from.str(at));
        }
        const auto origin = from.integer(seen.origin);
        const auto pack = packs.find(origin >> 32);
        const auto from_pack = pack == packs.end() ? SeenPack{} : pack->second;
        row.origin = {from_pack.name, cited_file(from_pack.folder, table),
                      static_cast<std::uint32_t>(origin & 0xffffffff), "", Evidence::invented};
        if (table == "sources" || seen.source < seen.columns.size()) {
            const auto& found = source(table == "sources" ? row.text("source")
                                                          : std::string_view(row.cells[seen.source].text));
            row.origin.source = found.title;
            row.origin.evidence = found.evidence;
        }
        return row;
    }

    Statement& statement(const std::string& sql) {
        auto& prepared = statements[sql];
        if (!prepared) prepared = std::make_unique<Statement>(database, sql);
        return *prepared;
    }

    Statement& by(const SeenTable& seen, std::string_view column) {
        return statement(column.empty()
                             ? seen.select + " ORDER BY origin"
                             : fmt::format("{} WHERE {} = ?1 ORDER BY origin", seen.select, sql_name(column)));
    }

    const Database& database;
    std::map<std::string, std::unique_ptr<Statement>> statements;
    std::unordered_map<std::string, std::optional<std::vector<Row>>> kept;
    std::map<std::int64_t, SeenPack> packs;
    std::set<std::string, std::less<>> in_file;
    std::map<std::string, SeenTable, std::less<>> tables;
    std::map<std::string, SeenSource, std::less<>> sources;
};

CatalogFacts::CatalogFacts(const Database& database) : reader_(std::make_shared<Reader>(database)) {}
CatalogFacts::CatalogFacts(const CatalogFacts& shared, std::string domain, std::vector<std::string> reads,
                           std::function<std::string()> schema)
    : reader_(shared.reader_), viewer_{std::move(domain), std::move(reads), std::move(schema)} {}

const std::vector<Row>& CatalogFacts::rows(std::string_view table, std::string_view column,
                                           std::string_view value) const {
    static const std::vector<Row> nothing;
    const auto& seen = reader_->table(table, column, viewer_);
    const bool known = std::any_of(seen.columns.begin(), seen.columns.end(),
                                   [&](const auto& c) { return c.name == column; });
    if (!column.empty() && !known && !seen.columns.empty())
        throw std::invalid_argument(fmt::format("rows of {} by `{}`: it has no such column", table, column));
    if (!seen.in_catalog()) return nothing;
    // A domain asks the same of every candidate: each answer is read once.
    std::string asked(table);
    asked.append(1, '\x1f').append(column).append(1, '\x1f').append(value);
    auto& kept = reader_->kept[std::move(asked)];
    if (kept) return *kept;
    kept.emplace();
    auto& query = reader_->by(seen, column);
    if (!column.empty()) query.bind(1, value);
    while (query.step()) kept->push_back(reader_->row(query, table, seen));
    query.reset();
    return *kept;
}

}  // namespace casebound
