#include "core/pack/pack_shape.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/store/domain_schema.h"
#include "core/store/schema_sql.h"
#include "core/store/sql_text.h"

namespace casebound {

namespace {

[[noreturn]] void refuse(std::string_view owner, const std::string& what) {
    throw Error(Exit::refused, fmt::format("schema of {}: {}", owner, what));
}

bool ends_with(std::string_view text, std::string_view end) {
    return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

// Reads one table that the database in memory holds.
class TableReader {
public:
    TableReader(const Database& database, std::string name, std::string owner) : database_(database) {
        table_.name = std::move(name);
        table_.owner = std::move(owner);
    }

    TableShape read(std::string_view create, std::string_view whole_sql) {
        table_.meaning = comment_above(whole_sql, table_.name);
        read_columns();
        read_unique();
        read_references();
        read_definitions(create);
        for (auto& column : table_.columns) name_kind(column);
        for (std::size_t i = 0; i < table_.columns.size(); ++i)
            if (table_.columns[i].unique && table_.columns[i].kind != CellKind::key)
                table_.unique_together.push_back({i});
        return std::move(table_);
    }

private:
    void read_columns() {
        Statement rows(database_, "SELECT name, type, \"notnull\", pk FROM pragma_table_xinfo(?1)");
        rows.bind(1, table_.name);
        bool origin = false;
        while (rows.step()) {
            if (rows.text(0) == "origin") {
                origin = rows.text(1) == "INTEGER" && rows.integer(3) == 1;
                continue;
            }
            Column column;
            column.name = rows.str(0);
            column.kind = kind_of(rows.text(1), column.name);
            column.required = rows.integer(2) != 0;
            table_.columns.push_back(std::move(column));
        }
        if (!origin)
            refuse(table_.owner,
                   fmt::format(
                       "{} has no `origin INTEGER PRIMARY KEY`: every table of a pack needs it, as its first column",
                       table_.name));
        if (table_.columns.empty())
            refuse(table_.owner, fmt::format("{} has no column that a pack could fill: add one", table_.name));
    }

    CellKind kind_of(std::string_view type, std::string_view column) const {
        if (type == "TEXT") return CellKind::text;
        if (type == "REAL") return CellKind::number;
        if (type == "INTEGER") return CellKind::integer;
        refuse(table_.owner, fmt::format("{}.{} has the type `{}`: use TEXT, REAL or INTEGER, and STRICT", table_.name,
                                         column, type));
    }

    void read_unique() {
        Statement indexes(database_,
                          "SELECT name FROM pragma_index_list(?1) WHERE \"unique\" AND partial = 0 ORDER BY seq DESC");
        indexes.bind(1, table_.name);
        while (indexes.step()) {
            Statement parts(database_, "SELECT name FROM pragma_index_info(?1) ORDER BY seqno");
            parts.bind(1, indexes.text(0));
            std::vector<std::size_t> together;
            while (parts.step()) together.push_back(table_.find(parts.text(0)));
            if (together.size() == 1) table_.columns.at(together[0]).unique = true;
            else table_.unique_together.push_back(std::move(together));
        }
    }

    void read_references() {
        Statement rows(database_, "SELECT \"from\", \"table\", \"to\", seq FROM pragma_foreign_key_list(?1)");
        rows.bind(1, table_.name);
        while (rows.step()) {
            if (rows.integer(3) != 0 || rows.is_null(2))
                refuse(table_.owner, fmt::format("{} refers to {} by more than one column or none: write REFERENCES "
                                                 "table (key) beside one column",
                                                 table_.name, rows.text(1)));
            table_.columns.at(table_.find(rows.text(0))).refers = Reference{rows.str(1), rows.str(2)};
        }
    }

    void read_definitions(std::string_view create) {
        for (const auto& definition : definitions_in(create)) {
            const auto at = table_.find(definition.name);
            if (at < table_.columns.size()) table_.columns[at].meaning = definition.comment;
            for (const auto& check : checks_in(definition.text)) read_check(check, at);
        }
    }

    void read_check(const std::string& check, std::size_t at) {
        if (at < table_.columns.size()) {
            auto& column = table_.columns[at];
            if (auto choices = choices_in(check, column.name); !choices.empty()) {
                column.choices = std::move(choices);
                return;
            }
            const auto bounds = bounds_in(check, column.name);
            for (const auto& bound : bounds)
                (bound.minimum ? column.least : column.most) = Bound{bound.value, bound.exclusive};
            if (!bounds.empty()) return;
        }
        table_.rules.push_back({check, at});
    }

    void name_kind(Column& column) const {
        if (column.kind != CellKind::text) return;
        const bool of_things = table_.name == "items" || table_.name == "groups";
        if (column.name == "role" || ends_with(column.name, "_role")) column.word = WordOf::role;
        if (column.name == "item_kind" || (of_things && column.name == "kind")) column.word = WordOf::item_kind;
        if (column.word != WordOf::nothing) column.kind = CellKind::word;
        else if (column.unique || column.refers) column.kind = CellKind::key;
        else if (column.name == "condition") column.kind = CellKind::condition;
        else if (column.name == "finding" || ends_with(column.name, "_condition")) column.kind = CellKind::findings;
        else if (column.name == "attribute_values") column.kind = CellKind::values;
    }

    const Database& database_;
    TableShape table_;
};

}  // namespace

std::size_t TableShape::find(std::string_view column) const {
    const auto at = std::find_if(columns.begin(), columns.end(), [&](const Column& c) { return c.name == column; });
    return static_cast<std::size_t>(at - columns.begin());
}

std::vector<std::string> TableShape::column_names() const {
    std::vector<std::string> names;
    for (const auto& column : columns) names.push_back(column.name);
    return names;
}

PackShape::PackShape(const Plugins& plugins)
    : database_(std::make_unique<Database>(":memory:", Database::Mode::create)) {
    database_->execute(core_sql);
    add_tables("core", core_sql);
    for (const auto& loaded : plugins.domains) {
        const auto asked = loaded.domain.schema();
        if (!asked) continue;  // its tables are not there: its rows are refused, every other domain's are read
        const auto& sql = *asked;
        apply_domain_schema(*database_, loaded.name, sql);
        domains_.push_back(loaded.name);
        add_tables(loaded.name, sql);
    }
    for (const auto& table : tables_)
        for (const auto& column : table.columns) {
            if (!column.refers) continue;
            const auto* target = find(column.refers->table);
            const auto at = target ? target->find(column.refers->column) : 0;
            if (!target || at >= target->columns.size() || !target->columns[at].unique)
                refuse(
                    table.owner,
                    fmt::format("{}.{} refers to {} ({}), which is not a key: refer to a UNIQUE column of a pack table",
                                table.name, column.name, column.refers->table, column.refers->column));
        }
}

void PackShape::add_tables(const std::string& owner, std::string_view sql) {
    Statement rows(*database_, "SELECT name, sql FROM sqlite_master WHERE type = 'table' ORDER BY rowid");
    std::vector<TableShape> added;
    while (rows.step())
        if (!find(rows.text(0))) added.push_back(TableReader(*database_, rows.str(0), owner).read(rows.text(1), sql));
    std::move(added.begin(), added.end(), std::back_inserter(tables_));
}

const TableShape* PackShape::find(std::string_view table) const {
    const auto at = std::find_if(tables_.begin(), tables_.end(), [&](const TableShape& t) { return t.name == table; });
    return at == tables_.end() ? nullptr : &*at;
}

std::vector<std::string> PackShape::table_names() const {
    std::vector<std::string> names;
    for (const auto& table : tables_) names.push_back(table.name);
    return names;
}

bool PackShape::has_domain(std::string_view domain) const {
    return std::find(domains_.begin(), domains_.end(), domain) != domains_.end();
}

std::vector<std::pair<std::string, std::string>> PackShape::statements_of(std::string_view domain) const {
    std::vector<std::pair<std::string, std::string>> statements;
    Statement rows(*database_, "SELECT name, tbl_name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY rowid");
    while (rows.step()) {
        const auto* table = find(rows.text(1));
        if (table && table->owner == domain) statements.emplace_back(rows.str(0), rows.str(2));
    }
    return statements;
}

}  // namespace casebound
