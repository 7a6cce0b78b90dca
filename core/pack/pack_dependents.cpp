#include "core/pack/pack_dependents.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ground/utf8.h"
#include "core/pack/catalog_file.h"

namespace casebound {

namespace {

struct ReferringColumn {
    std::string table, column;
};

constexpr std::size_t most = 1000;

// `word` stands in `text` as a whole attribute name.
bool mentions(std::string_view text, std::string_view word) {
    const auto part = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        const auto end = at + word.size();
        if ((at == 0 || !part(text[at - 1])) && (end == text.size() || !part(text[end]))) return true;
    }
    return false;
}

class Search {
public:
    explicit Search(DependentsContext& context) : in_(context) {}

    std::vector<Dependent> find() {
        find_removed_keys();
        find_also_required();
        find_changed_kinds();
        find_changed_attributes();
        find_changed_lines();
        return std::move(found_);
    }

private:
    bool full() const { return found_.size() >= most; }

    void add(std::string_view table, std::string what) {
        if (!full()) found_.push_back({std::string(table), std::move(what)});
    }

    Statement ours(const std::string& sql) const {  // ?1 and ?2: this pack's origins
        Statement rows(in_.catalog, sql);
        rows.bind(1, in_.others.first_origin()).bind(2, in_.others.last_origin());
        return rows;
    }

    // Every column that refers to a key, by the key's table and column; of tables of absent domains too.
    std::map<std::pair<std::string, std::string>, std::vector<ReferringColumn>> references() const {
        std::map<std::pair<std::string, std::string>, std::vector<ReferringColumn>> found;
        for (const auto& table : in_.shape.tables())
            for (const auto& column : table.columns)
                if (column.refers)
                    found[{column.refers->table, column.refers->column}].push_back({table.name, column.name});
        for (const auto& table : plain_tables(in_.catalog)) {
            if (in_.shape.find(table)) continue;
            Statement rows(in_.catalog, "SELECT \"table\", \"to\", \"from\" FROM pragma_foreign_key_list(?1)");
            rows.bind(1, table);
            while (rows.step()) found[{rows.str(0), rows.str(1)}].push_back({table, rows.str(2)});
        }
        return found;
    }

    void find_removed_keys() {
        in_.catalog.execute("CREATE TEMP TABLE IF NOT EXISTS removed_key (key TEXT PRIMARY KEY)");
        for (const auto& [parent, columns] : references()) {
            const auto& [table, key] = parent;
            in_.catalog.execute("DELETE FROM temp.removed_key");
            Statement put(in_.catalog, "INSERT OR IGNORE INTO temp.removed_key VALUES (?1)");
            auto rows = ours(
                fmt::format("SELECT {} FROM {} WHERE origin BETWEEN ?1 AND ?2", sql_name(key), sql_name(table)));
            bool any = false;
            while (rows.step()) {
                if (in_.keys.here(table, key, in_.data.names.find(rows.text(0)))) continue;
                put.bind(1, rows.text(0)).run();
                any = true;
            }
            for (std::size_t i = 0; i < columns.size() && any; ++i) find_referring(table, columns[i]);
        }
        in_.catalog.execute("DROP TABLE temp.removed_key");
    }

    void find_referring(const std::string& parent, const ReferringColumn& from) {
        auto rows = ours(
            fmt::format("SELECT t.{0}, t.origin FROM {1} t WHERE t.origin NOT BETWEEN ?1 AND ?2 AND t.{0} IN (SELECT "
                        "key FROM temp.removed_key) ORDER BY t.origin LIMIT {2}",
                        sql_name(from.column), sql_name(from.table), most));
        while (!full() && rows.step())
            add(parent, fmt::format("`{}` is still needed by {} ({})", shown(rows.text(0)),
                                    in_.others.place(from.table, rows.integer(1)), from.column));
    }

    bool was_ours(std::string_view table, std::string_view column, std::string_view key) const {
        auto row = ours(fmt::format("SELECT 1 FROM {} WHERE {} = ?3 AND origin BETWEEN ?1 AND ?2", sql_name(table),
                                    sql_name(column)));
        return row.bind(3, key).step();
    }

    void find_also_required() {
        auto rows = ours(
            "SELECT also_requires, origin FROM stand_ins WHERE also_requires IS NOT NULL AND origin NOT BETWEEN ?1 AND "
            "?2");
        while (!full() && rows.step()) {
            auto rest = rows.text(0);
            while (!rest.empty()) {
                const auto bar = rest.find('|');
                const auto key = rest.substr(0, bar);
                rest = bar == std::string_view::npos ? std::string_view{} : rest.substr(bar + 1);
                if (was_ours("groups", "group_key", key) &&
                    !in_.keys.here("groups", "group_key", in_.data.names.find(key)))
                    add("groups", fmt::format("`{}` is still needed by {} (also_requires)", shown(key),
                                              in_.others.place("stand_ins", rows.integer(1))));
            }
        }
    }

    // A group or item that stays, but of another kind, which other packs count on.
    void find_changed_kinds() {
        auto groups = ours("SELECT g.group_key, g.kind FROM groups g WHERE g.origin BETWEEN ?1 AND ?2");
        while (!full() && groups.step()) {
            const auto name = in_.data.names.find(groups.text(0));
            if (!in_.keys.here("groups", "group_key", name) ||
                in_.data.names.text(in_.kinds.of_group(name)) == groups.text(1))
                continue;
            for (const auto& [table, column] : {std::pair("group_members", "group_key"), {"applications", "group_key"}})
                tell_kind("groups", groups.text(0), groups.text(1), table, column);
        }
        auto items = ours("SELECT i.item, i.kind FROM items i WHERE i.origin BETWEEN ?1 AND ?2");
        while (!full() && items.step()) {
            const auto name = in_.data.names.find(items.text(0));
            if (!in_.keys.here("items", "item", name) || in_.data.names.text(in_.kinds.of_item(name)) == items.text(1))
                continue;
            for (const auto& [table, column] : {std::pair("group_members", "item"), {"kit_contents", "kit"}})
                tell_kind("items", items.text(0), items.text(1), table, column);
        }
    }

    void tell_kind(std::string_view parent, std::string_view key, std::string_view kind, std::string_view table,
                   std::string_view column) {
        auto rows = ours(
            fmt::format("SELECT origin FROM {} WHERE origin NOT BETWEEN ?1 AND ?2 AND {} = ?3 ORDER BY origin LIMIT 3",
                        sql_name(table), sql_name(column)));
        rows.bind(3, key);
        while (rows.step())
            add(parent, fmt::format("`{}` must stay of kind {}: {} counts on it", shown(key), shown(kind),
                                    in_.others.place(table, rows.integer(0))));
    }

    // Attributes that this pack declared and that will be gone or mean something else.
    void find_changed_attributes() {
        auto rows = ours("SELECT attribute, kind, unit FROM attributes WHERE origin BETWEEN ?1 AND ?2");
        while (rows.step()) {
            const auto* now = in_.words.attribute(rows.text(0));
            if (now && value_kind_name(now->kind) == rows.text(1) && now->unit == rows.text(2)) continue;
            changed_attributes_.push_back(rows.str(0));
        }
        if (changed_attributes_.empty()) return;
        touch_lines("SELECT line, attribute_values FROM configurations WHERE origin NOT BETWEEN ?1 AND ?2", true);
        for (const auto& table : in_.shape.tables())
            for (const auto& column : table.columns)
                if (column.kind == CellKind::findings || (column.kind == CellKind::condition && !line_column(table)))
                    recheck_without_line(table.name, column);
    }

    bool mentions_changed(std::string_view text) const {
        return std::any_of(changed_attributes_.begin(), changed_attributes_.end(),
                           [&](const std::string& name) { return mentions(text, name); });
    }

    void touch_lines(const std::string& sql, bool only_changed) {
        auto rows = ours(sql);
        while (rows.step())
            if (!only_changed || mentions_changed(rows.text(1))) touched_.insert(rows.str(0));
    }

    static const Column* line_column(const TableShape& table) {
        const auto at = std::find_if(table.columns.begin(), table.columns.end(),
                                     [](const Column& c) { return c.refers && c.refers->table == "lines"; });
        return at == table.columns.end() ? nullptr : &*at;
    }

    void recheck_without_line(const std::string& table, const Column& column) {
        auto rows = ours(
            fmt::format("SELECT {0}, origin FROM {1} WHERE {0} IS NOT NULL AND origin NOT BETWEEN ?1 AND ?2",
                        sql_name(column.name), sql_name(table)));
        while (!full() && rows.step()) {
            if (!mentions_changed(rows.text(0))) continue;
            const auto fault = column.kind == CellKind::findings
                                   ? in_.conditions.fault_of_findings(rows.text(0))
                                   : in_.conditions.fault_anywhere(in_.data.names.id(rows.text(0)));
            if (!fault.empty())
                add("attributes",
                    fmt::format("{} would no longer hold: {}", in_.others.place(table, rows.integer(1)), fault));
        }
    }

    // Lines whose configurations this pack gives or gave: others' conditions on them are asked again.
    void find_changed_lines() {
        touch_lines("SELECT DISTINCT line FROM configurations WHERE origin BETWEEN ?1 AND ?2", false);
        if (const auto* table = in_.data.find("configurations"))
            for (std::size_t row = 0; row < table->rows(); ++row)
                touched_.emplace(table->cell(row, table->shape->find("line")));
        touched_.erase("");
        if (touched_.empty()) return;
        recheck_configurations();
        for (const auto& table : in_.shape.tables()) {
            const auto* line = line_column(table);
            for (const auto& column : table.columns)
                if (column.kind == CellKind::condition && line) recheck_conditions(table.name, line->name, column.name);
        }
    }

    void recheck_configurations() {
        if (!in_.others.has_rows("configurations")) return;
        for (const auto& line : touched_)
            for (const auto& fault : in_.conditions.faults_of_line(in_.data.names.id(line)))
                if (fault.substr(0, 5) == "pack ") add("configurations", fault);
    }

    void recheck_conditions(const std::string& table, const std::string& line, const std::string& column) {
        if (!in_.others.has_rows(table)) return;
        if (table == "applications") return recheck_applications();
        auto rows = ours(
            fmt::format("SELECT {0}, {1}, origin FROM {2} WHERE {0} IS NOT NULL AND {1} IS NOT NULL AND origin NOT "
                        "BETWEEN ?1 AND ?2 ORDER BY origin",
                        sql_name(column), sql_name(line), sql_name(table)));
        while (!full() && rows.step()) {
            if (touched_.contains(rows.text(1))) recheck(rows.text(1), rows.text(0), table, rows.integer(2));
        }
    }

    // Line by line, as they lie in the catalog.
    void recheck_applications() {
        auto rows = ours(
            "SELECT c.text, a.origin FROM application a JOIN name c ON c.id = a.condition WHERE a.id BETWEEN (SELECT "
            "id FROM name WHERE text = ?3) << 20 "
            "AND ((SELECT id FROM name WHERE text = ?3) << 20) + 1048575 AND a.origin NOT BETWEEN ?1 AND ?2 ORDER BY "
            "a.id");
        for (const auto& line : touched_) {
            rows.reset().bind(3, line);
            while (!full() && rows.step()) recheck(line, rows.text(0), "applications", rows.integer(1));
        }
    }

    void recheck(std::string_view line, std::string_view condition, std::string_view table, std::int64_t origin) {
        const auto fault = in_.conditions.fault_on(in_.data.names.id(line), in_.data.names.id(condition));
        if (!fault.empty())
            add("configurations",
                fmt::format("the condition of {} would no longer hold: {}", in_.others.place(table, origin), fault));
    }

    DependentsContext& in_;
    std::vector<Dependent> found_;
    std::vector<std::string> changed_attributes_;
    std::set<std::string, std::less<>> touched_;
};

}  // namespace

std::vector<Dependent> dependents_of(DependentsContext& context) {
    if (context.others.empty() || !context.others.replaces()) return {};
    return Search(context).find();
}

}  // namespace casebound
