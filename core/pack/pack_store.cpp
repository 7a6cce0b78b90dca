#include "core/pack/pack_store.h"

#include <algorithm>
#include <charconv>
#include <numeric>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/utf8.h"
#include "core/pack/catalog_file.h"

namespace casebound {

namespace {

constexpr int ordinal_bits = 20;  // as in schema/catalog.sql
constexpr std::int64_t most_ordinals = std::int64_t{1} << ordinal_bits;

// Rows of a record table in the order of a key's id, file order within it.
template <class Row, class Key>
std::vector<std::uint32_t> in_key_order(const std::vector<Row>& rows, const std::vector<std::int64_t>& ids, Key key) {
    std::vector<std::uint32_t> order(rows.size());
    std::iota(order.begin(), order.end(), 0u);
    const auto before = [&](std::uint32_t a, std::uint32_t b) {
        const auto left = ids[key(rows[a])], right = ids[key(rows[b])];
        return left != right ? left < right : rows[a].line < rows[b].line;
    };
    if (!std::is_sorted(order.begin(), order.end(), before)) std::sort(order.begin(), order.end(), before);
    return order;
}

class PackStore {
public:
    PackStore(Database& catalog, const PackRecord& record, PackData& data, const PackShape& shape, LoadedPacks& others,
              FaultList& faults)
        : catalog_(catalog), record_(record), data_(data), shape_(shape), others_(others), faults_(faults),
          ids_(data.names.size()) {}

    void store() {
        store_names();
        for (const auto& table : data_.plain)
            if (table.rows() > 0) store_plain(table);
        store_items();
        store_groups();
        store_members();
        store_applications();
        Statement pack(
            catalog_,
            "INSERT OR REPLACE INTO pack (id, name, title, version, invented, digest, folder) VALUES (?,?,?,?,?,?,?)");
        pack.bind(1, record_.id)
            .bind(2, record_.name)
            .bind(3, record_.title)
            .bind(4, record_.version)
            .bind(5, std::int64_t{record_.invented});
        pack.bind(6, record_.digest).bind(7, record_.folder).run();
    }

private:
    std::int64_t origin(std::uint32_t line) const { return (record_.id << 32) | line; }

    // Names are needed for all that the record tables refer to, for lines and for sources.
    std::vector<bool> used_names() const {
        std::vector<bool> used(data_.names.size());
        for (const auto& view : data_.views(shape_))
            for (std::size_t i = 0; i < view.names.size(); ++i) {
                const auto& column = view.shape->columns[i];
                if (!view.names[i] ||
                    (view.plain && !(column.unique && (column.name == "line" || column.name == "source"))))
                    continue;
                for (std::size_t row = 0; row < view.rows; ++row) used[view.names[i][row]] = true;
            }
        used[0] = false;
        return used;
    }

    // New names are added in the order of their text, so that both the table and its index grow at their ends.
    void store_names() {
        const auto used = used_names();
        std::vector<NameId> fresh;
        Statement find(catalog_, "SELECT id FROM name WHERE text = ?1");
        const bool none = catalog_.integer("SELECT count(*) FROM (SELECT 1 FROM name LIMIT 1)") == 0;
        for (NameId name = 1; name < used.size(); ++name) {
            if (!used[name]) continue;
            if (!none && find.reset().bind_view(1, data_.names.text(name)).step()) ids_[name] = find.integer(0);
            else fresh.push_back(name);
        }
        find.reset();
        std::sort(fresh.begin(), fresh.end(),
                  [&](NameId a, NameId b) { return data_.names.text(a) < data_.names.text(b); });
        std::int64_t next = catalog_.integer("SELECT max(id) FROM name");
        Statement add(catalog_, "INSERT INTO name (id, text) VALUES (?,?)");
        for (const auto name : fresh) {
            ids_[name] = ++next;
            add.bind(1, next).bind_view(2, data_.names.text(name)).run();
        }
    }

    void store_plain(const PlainTable& table) {
        const auto& columns = table.shape->columns;
        std::string names = "origin", marks = "?1";
        for (std::size_t i = 0; i < columns.size(); ++i) {
            names += ", " + sql_name(columns[i].name);
            marks += fmt::format(", ?{}", i + 2);
        }
        Statement add(catalog_,
                      fmt::format("INSERT INTO {} ({}) VALUES ({})", sql_name(table.shape->name), names, marks));
        for (std::size_t row = 0; row < table.rows(); ++row) {
            add.reset().bind(1, origin(table.lines[row]));
            for (std::size_t i = 0; i < columns.size(); ++i)
                bind_cell(add, static_cast<int>(i + 2), columns[i], table.cell(row, i));
            try {
                add.run();
            } catch (const Error& error) {
                if (error.exit() != Exit::bad_data) throw;
                faults_.at(*table.shape, table.lines[row], columns.size(),
                           fmt::format("the catalog refuses the row: {}", error.what()));
            }
        }
    }

    static void bind_cell(Statement& statement, int index, const Column& column, std::string_view cell) {
        if (cell.empty()) {
            statement.bind_null(index);
        } else if (column.kind == CellKind::number) {
            double value = 0;
            std::from_chars(cell.data(), cell.data() + cell.size(), value);
            statement.bind(index, value);
        } else if (column.kind == CellKind::integer) {
            std::int64_t value = 0;
            std::from_chars(cell.data(), cell.data() + cell.size(), value);
            statement.bind(index, value);
        } else {
            statement.bind_view(index, cell);
        }
    }

    void bind_text(Statement& statement, int index, NameId text) {
        if (text == 0) statement.bind_null(index);
        else statement.bind_view(index, data_.texts.text(text));
    }

    static void bind_id(Statement& statement, int index, std::int64_t id) {
        if (id == 0) statement.bind_null(index);
        else statement.bind(index, id);
    }

    void store_items() {
        Statement add(
            catalog_,
            "INSERT INTO item (id, kind, title, pack_quantity, withdrawn, source, origin) VALUES (?,?,?,?,?,?,?)");
        for (const auto at : in_key_order(data_.items, ids_, [](const PackItem& row) { return row.item; })) {
            const auto& row = data_.items[at];
            add.bind(1, ids_[row.item])
                .bind(2, ids_[row.kind])
                .bind_view(3, data_.texts.text(row.title))
                .bind(4, row.pack_quantity);
            bind_text(add, 5, row.withdrawn);
            add.bind(6, ids_[row.source]).bind(7, origin(row.line)).run();
        }
    }

    void store_groups() {
        Statement add(catalog_, "INSERT INTO item_group (id, kind, title, source, origin) VALUES (?,?,?,?,?)");
        for (const auto at : in_key_order(data_.groups, ids_, [](const PackGroup& row) { return row.group; })) {
            const auto& row = data_.groups[at];
            add.bind(1, ids_[row.group])
                .bind(2, ids_[row.kind])
                .bind_view(3, data_.texts.text(row.title))
                .bind(4, ids_[row.source])
                .bind(5, origin(row.line))
                .run();
        }
    }

    // Calls `add(row, id)` in key order; ids continue after those that other packs have under the same key.
    template <class Row, class Key, class Add>
    void clustered(const std::vector<Row>& rows, std::string_view stored, std::string_view what, Key key, Add add) {
        Statement last(catalog_, fmt::format("SELECT max(id) FROM {} WHERE id BETWEEN ?1 AND ?2", stored));
        const bool none = catalog_.integer(fmt::format("SELECT count(*) FROM (SELECT 1 FROM {} LIMIT 1)", stored)) == 0;
        std::int64_t at_key = 0, next = 0;
        for (const auto at : in_key_order(rows, ids_, key)) {
            const auto id = ids_[key(rows[at])];
            if (id != at_key) {
                at_key = id;
                next = id << ordinal_bits;
                if (!none && last.reset().bind(1, next).bind(2, next + most_ordinals - 1).step() && !last.is_null(0))
                    next = last.integer(0) + 1;
            }
            if (next >> ordinal_bits != id)
                throw Error(Exit::bad_data, fmt::format("{} has more than {} {}: split it",
                                                        shown(data_.names.text(key(rows[at]))), most_ordinals, what));
            add(rows[at], next++);
        }
        last.reset();
    }

    void store_members() {
        Statement add(catalog_, "INSERT INTO member (id, item, basis, source, origin) VALUES (?,?,?,?,?)");
        clustered(
            data_.members, "member", "members", [](const PackMember& row) { return row.group; },
            [&](const PackMember& row, std::int64_t id) {
                add.bind(1, id)
                    .bind(2, ids_[row.item])
                    .bind(3, std::int64_t{row.basis})
                    .bind(4, ids_[row.source])
                    .bind(5, origin(row.line))
                    .run();
            });
    }

    void store_applications() {
        Statement add(catalog_,
                      "INSERT INTO application (id, role, says, item_group, condition, quantity, source, origin, note, "
                      "withdrawn) VALUES (?,?,?,?,?,?,?,?,?,?)");
        clustered(
            data_.applications, "application", "applications",
            [](const PackApplication& row) { return row.vehicle_line; },
            [&](const PackApplication& row, std::int64_t id) {
                add.bind(1, id).bind(2, ids_[row.role]).bind(3, std::int64_t{row.says});
                bind_id(add, 4, ids_[row.group]);
                bind_id(add, 5, ids_[row.condition]);
                if (row.quantity > 0) add.bind(6, row.quantity);
                else add.bind_null(6);
                add.bind(7, ids_[row.source]).bind(8, origin(row.line));
                bind_text(add, 9, row.note);
                bind_text(add, 10, row.withdrawn);
                add.run();
            });
    }

    Database& catalog_;
    const PackRecord& record_;
    PackData& data_;
    const PackShape& shape_;
    LoadedPacks& others_;
    FaultList& faults_;
    std::vector<std::int64_t> ids_;  // of each name in the catalog
};

}  // namespace

void store_pack(Database& catalog, const PackRecord& record, PackData& data, const PackShape& shape,
                LoadedPacks& others, FaultList& faults) {
    delete_rows(catalog, others);
    PackStore(catalog, record, data, shape, others, faults).store();
}

void delete_rows(Database& catalog, const LoadedPacks& others) {
    auto tables = plain_tables(catalog);
    for (const char* stored : {"application", "member", "item_group", "item"}) tables.emplace_back(stored);
    if (others.empty()) {
        for (const auto& table : tables) catalog.execute(fmt::format("DELETE FROM {}", sql_name(table)));
        catalog.execute("DELETE FROM name");
        return;
    }
    if (!others.replaces()) return;
    for (const auto& table : tables) {
        Statement remove(catalog, fmt::format("DELETE FROM {} WHERE origin BETWEEN ?1 AND ?2", sql_name(table)));
        remove.bind(1, others.first_origin()).bind(2, others.last_origin()).run();
    }
}

void delete_stale_names(Database& catalog) {
    catalog.execute(
        "DELETE FROM name WHERE id NOT IN (SELECT id FROM item UNION SELECT kind FROM item UNION SELECT source FROM "
        "item "
        "UNION SELECT id FROM item_group UNION SELECT kind FROM item_group UNION SELECT source FROM item_group "
        "UNION SELECT id >> 20 FROM member UNION SELECT item FROM member UNION SELECT source FROM member "
        "UNION SELECT id >> 20 FROM application UNION SELECT role FROM application UNION SELECT source FROM "
        "application "
        "UNION SELECT item_group FROM application WHERE item_group IS NOT NULL UNION SELECT condition FROM application "
        "WHERE condition IS NOT NULL) "
        "AND text NOT IN (SELECT line FROM lines UNION SELECT source FROM sources)");
}

}  // namespace casebound
