#include "core/store/domain_schema_laws.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/store/domain_schema.h"
#include "core/store/schema_sql.h"
#include "core/store/sql_text.h"
#include "core/store/sqlite.h"

namespace casebound {

namespace {

std::vector<std::string> tables_in(const Database& database) {
    std::vector<std::string> names;
    Statement rows(database, "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY rowid");
    while (rows.step()) names.push_back(rows.str(0));
    return names;
}

// Core's pack tables first, then the domain's own.
Database tables_of(std::string_view domain, std::string_view sql) {
    Database database(":memory:", Database::Mode::create);
    database.execute(core_sql);
    apply_domain_schema(database, domain, sql);
    return database;
}

// The laws for one table, each break with what to write.
class TableLaws {
public:
    TableLaws(const Database& database, std::string table, std::vector<std::string>& faults)
        : database_(database), table_(std::move(table)), faults_(faults) {}

    void check() {
        check_form();
        check_columns();
        check_references();
    }

private:
    void fault(std::string_view what) { faults_.push_back(fmt::format("schema: table {} {}", table_, what)); }

    void check_form() {
        Statement row(database_, "SELECT strict FROM pragma_table_list WHERE schema = 'main' AND name = ?1");
        if (row.bind(1, table_).step() && row.integer(0) == 0) fault("is not STRICT: write `) STRICT;`");
    }

    void check_columns() {
        Statement rows(database_, "SELECT name, type, pk, cid, \"notnull\" FROM pragma_table_xinfo(?1) ORDER BY cid");
        rows.bind(1, table_);
        bool origin = false, source = false;
        std::size_t others = 0;
        while (rows.step()) {
            if (rows.text(0) == "origin") {
                origin = rows.text(1) == "INTEGER" && rows.integer(2) == 1 && rows.integer(3) == 0;
                continue;
            }
            ++others;
            source |= rows.text(0) == "source" && rows.integer(4) != 0;
            check_type(rows.text(0), rows.text(1));
        }
        if (!origin) fault("has no `origin INTEGER PRIMARY KEY` as its first column: add it, it names the row");
        if (!source) fault("has no source: add `source TEXT NOT NULL REFERENCES sources (source)`");
        if (others == 0) fault("has no column that a pack could fill: add one");
        check_comments();
    }

    void check_type(std::string_view column, std::string_view type) {
        if (type != "TEXT" && type != "REAL" && type != "INTEGER")
            fault(fmt::format("has a column {} of the type `{}`: use TEXT, REAL or INTEGER", column, type));
    }

    void check_comments() {
        Statement row(database_, "SELECT sql FROM sqlite_master WHERE type = 'table' AND name = ?1");
        if (!row.bind(1, table_).step()) return;
        for (const auto& definition : definitions_in(row.text(0)))
            if (definition.comment.empty() && definition.name != "origin" && is_column(definition.name))
                fault(fmt::format("does not say what its column {} is: write `-- ...` beside it", definition.name));
    }

    bool is_column(std::string_view name) const {
        Statement row(database_, "SELECT 1 FROM pragma_table_xinfo(?1) WHERE name = ?2");
        return row.bind(1, table_).bind(2, name).step();
    }

    // A row refers to another by one key, which is UNIQUE there.
    void check_references() {
        Statement rows(database_, "SELECT \"from\", \"table\", \"to\", seq FROM pragma_foreign_key_list(?1)");
        rows.bind(1, table_);
        bool sources = false;
        while (rows.step()) {
            sources |= rows.text(0) == "source" && rows.text(1) == "sources";
            if (rows.integer(3) != 0 || rows.is_null(2) || !is_key(rows.text(1), rows.text(2)))
                fault(fmt::format("refers to {} by {}: refer by one column to one that is UNIQUE there", rows.text(1),
                                  rows.text(0)));
        }
        if (!sources && is_column("source")) fault("has a source that does not refer to sources (source)");
    }

    bool is_key(std::string_view table, std::string_view column) const {
        Statement row(database_,
                      "SELECT 1 FROM pragma_index_list(?1) l WHERE l.\"unique\" AND l.partial = 0 AND "
                      "(SELECT group_concat(name) FROM pragma_index_info(l.name)) = ?2");
        return row.bind(1, table).bind(2, column).step();
    }

    const Database& database_;
    std::string table_;
    std::vector<std::string>& faults_;
};

}  // namespace

std::vector<std::string> schema_faults(std::string_view domain, std::string_view sql) {
    Database core(":memory:", Database::Mode::create);
    core.execute(core_sql);
    const auto of_core = tables_in(core);
    const auto database = tables_of(domain, sql);
    std::vector<std::string> faults;
    for (const auto& table : tables_in(database))
        if (std::find(of_core.begin(), of_core.end(), table) == of_core.end())
            TableLaws(database, table, faults).check();
    return faults;
}

TableColumns readable_columns(std::string_view domain, std::string_view sql) {
    const auto database = tables_of(domain, sql);
    TableColumns columns;
    for (const auto& table : tables_in(database)) {
        auto& of_table = columns[table];
        Statement rows(database, "SELECT name FROM pragma_table_xinfo(?1)");
        rows.bind(1, table);
        while (rows.step()) of_table.insert(rows.str(0));
    }
    return columns;
}

}  // namespace casebound
