// What every table of a pack looks like, derived from the SQL of core and of each domain: columns, kinds of cell,
// keys, references, closed lists, bounds, and the comments. Nothing about a table is written anywhere else.
// Reads only SQL that the confinement of domain_schema.h has accepted. Never reads a pack.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/host/plugin_host.h"
#include "core/store/sqlite.h"

namespace casebound {

enum class CellKind : std::uint8_t {
    text,
    key,        // letters, digits, . _ + / -
    number,     // REAL
    integer,    // INTEGER
    condition,  // the condition language; a column called `condition`
    findings,   // a condition about what was found out of a trouble: a column called `finding` or `..._condition`
    values,     // attribute=value; ...: a column called `attribute_values`
    word        // a role (`role`, `..._role`) or an item kind (`kind` of items and groups, `item_kind`)
};

enum class WordOf : std::uint8_t { nothing, role, item_kind };

struct Reference {
    std::string table, column;
};

struct Bound {
    double value{};
    bool exclusive{};
};

struct Column {
    std::string name, meaning;
    CellKind kind = CellKind::text;
    WordOf word = WordOf::nothing;
    bool required{}, unique{};
    std::vector<std::string> choices{};  // empty: open
    std::optional<Bound> least{}, most{};
    std::optional<Reference> refers{};

    bool is_number() const { return kind == CellKind::number || kind == CellKind::integer; }
};

struct Rule {
    std::string expression;  // a CHECK that the columns do not already say; SQLite judges it
    std::size_t column;      // where it is reported; columns.size() for the row as a whole
};

struct TableShape {
    std::string name, owner, meaning;                       // owner: "core" or the domain
    std::vector<Column> columns;                            // as in the file: without `origin`
    std::vector<std::vector<std::size_t>> unique_together;  // and single columns that are not keys
    std::vector<Rule> rules;

    std::size_t find(std::string_view column) const;  // columns.size() when there is none
    std::string file() const { return name + ".csv"; }
    std::vector<std::string> column_names() const;
};

class PackShape {
public:
    // Core's tables in the order of schema/core.sql, then each domain's. Throws Error(refused) for a domain's
    // SQL that core cannot store rows for.
    explicit PackShape(const Plugins& plugins);

    const std::vector<TableShape>& tables() const { return tables_; }
    const TableShape* find(std::string_view table) const;
    std::vector<std::string> table_names() const;
    bool has_domain(std::string_view domain) const;
    const std::vector<std::string>& domains() const { return domains_; }

    // CREATE statements of a domain, as SQLite keeps them: name and text.
    std::vector<std::pair<std::string, std::string>> statements_of(std::string_view domain) const;
    const Database& database() const { return *database_; }  // the tables, empty, in memory

private:
    void add_tables(const std::string& owner, std::string_view sql);

    std::unique_ptr<Database> database_;
    std::vector<TableShape> tables_;
    std::vector<std::string> domains_;
};

}  // namespace casebound
