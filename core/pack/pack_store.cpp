#include "core/pack/pack_store.h"

#include <algorithm>
#include <charconv>
#include <numeric>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/utf8.h"
#include "core/pack/catalog_file.h"
#include "core/store/given_rows.h"

namespace casebound {

namespace {

constexpr int ordinal_bits = 20;  // as in schema/catalog.sql
constexpr std::int64_t most_ordinals = std::int64_t{1} << ordinal_bits;

// Rows of a record table in the order of a key's id, file order within it.
template <class Row, class Key>
LargeVector<std::uint32_t> in_key_order(const LargeVector<Row>& rows, const LargeVector<std::int64_t>& ids, Key key) {
    LargeVector<std::uint32_t> order(rows.size());
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
        for (const auto name : fresh) ids_[name] = ++next;
        given("name", "id, text", fresh.size(), [&](std::size_t at, int column, GivenCell cell) {
            if (column == 0) cell.set(ids_[fresh[at]]);
            else cell.set_view(data_.names.text(fresh[at]));
        });
    }

    // `cell(row, column, into)` is asked for each cell.
    template <class Cell>
    void given(const std::string& table, const std::string& columns, std::size_t count, Cell cell) {
        struct Rows final : GivenRows {
            Rows(std::size_t rows, Cell& asked) : end(rows), each(asked) {}
            bool next() override { return ++next_row <= end; }
            void cell(int column, GivenCell into) const override { each(next_row - 1, column, into); }
            std::size_t end, next_row = 0;
            Cell& each;
        } rows(count, cell);
        insert_rows(catalog_, table, columns, rows);
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

    void give_text(GivenCell cell, NameId text) const {
        if (text == 0) cell.set_null();
        else cell.set_view(data_.texts.text(text));
    }
    void give_id(GivenCell cell, NameId name) const {
        if (name == 0) cell.set_null();
        else cell.set(ids_[name]);
    }

    void store_items() {
        const auto order = in_key_order(data_.items, ids_, [](const PackItem& row) { return row.item; });
        given("item", "id, kind, title, pack_quantity, withdrawn, source, origin", order.size(),
              [&](std::size_t at, int column, GivenCell cell) {
                  const auto& row = data_.items[order[at]];
                  switch (column) {
                      case 0: return cell.set(ids_[row.item]);
                      case 1: return cell.set(ids_[row.kind]);
                      case 2: return cell.set_view(data_.texts.text(row.title));
                      case 3: return cell.set(row.pack_quantity);
                      case 4: return give_text(cell, row.withdrawn);
                      case 5: return cell.set(ids_[row.source]);
                      default: return cell.set(origin(row.line));
                  }
              });
    }

    void store_groups() {
        const auto order = in_key_order(data_.groups, ids_, [](const PackGroup& row) { return row.group; });
        given("item_group", "id, kind, title, source, origin", order.size(),
              [&](std::size_t at, int column, GivenCell cell) {
                  const auto& row = data_.groups[order[at]];
                  switch (column) {
                      case 0: return cell.set(ids_[row.group]);
                      case 1: return cell.set(ids_[row.kind]);
                      case 2: return cell.set_view(data_.texts.text(row.title));
                      case 3: return cell.set(ids_[row.source]);
                      default: return cell.set(origin(row.line));
                  }
              });
    }

    // In key order; column 0 is the id, which continues after those that other packs have under the same key.
    template <class Row, class Key, class Cell> class Clustered final : public GivenRows {
    public:
        Clustered(PackStore& store, const LargeVector<Row>& rows, std::string_view stored, std::string_view what,
                  Key key, Cell cell)
            : store_(store), rows_(rows), what_(what), key_(key), cell_(cell),
              order_(in_key_order(rows, store.ids_, key)),
              last_(store.catalog_, fmt::format("SELECT max(id) FROM {} WHERE id BETWEEN ?1 AND ?2", stored)),
              none_(store.catalog_.integer(fmt::format("SELECT count(*) FROM (SELECT 1 FROM {} LIMIT 1)", stored)) ==
                    0) {}

        bool next() override {
            if (next_ == order_.size()) return false;
            row_ = &rows_[order_[next_++]];
            const auto key = store_.ids_[key_(*row_)];
            ++id_;
            if (key != at_key_) {
                at_key_ = key;
                id_ = key << ordinal_bits;
                if (!none_ && last_.reset().bind(1, id_).bind(2, id_ + most_ordinals - 1).step() && !last_.is_null(0))
                    id_ = last_.integer(0) + 1;
                last_.reset();
            }
            if (id_ >> ordinal_bits != key)
                throw Error(Exit::bad_data,
                            fmt::format("{} has more than {} {}: split it", shown(store_.data_.names.text(key_(*row_))),
                                        most_ordinals, what_));
            return true;
        }
        void cell(int column, GivenCell into) const override {
            if (column == 0) into.set(id_);
            else cell_(*row_, column, into);
        }

    private:
        PackStore& store_;
        const LargeVector<Row>& rows_;
        std::string_view what_;
        Key key_;
        Cell cell_;
        LargeVector<std::uint32_t> order_;
        Statement last_;
        bool none_;
        std::size_t next_ = 0;
        const Row* row_ = nullptr;
        std::int64_t at_key_ = 0, id_ = 0;
    };

    void store_members() {
        Clustered rows(
            *this, data_.members, "member", "members", [](const PackMember& row) { return row.group; },
            [this](const PackMember& row, int column, GivenCell cell) {
                switch (column) {
                    case 1: return cell.set(ids_[row.item]);
                    case 2: return cell.set(std::int64_t{row.basis});
                    case 3: return cell.set(ids_[row.source]);
                    default: return cell.set(origin(row.line));
                }
            });
        insert_rows(catalog_, "member", "id, item, basis, source, origin", rows);
    }

    void store_applications() {
        Clustered rows(
            *this, data_.applications, "application", "applications",
            [](const PackApplication& row) { return row.vehicle_line; },
            [this](const PackApplication& row, int column, GivenCell cell) {
                switch (column) {
                    case 1: return cell.set(ids_[row.role]);
                    case 2: return cell.set(std::int64_t{row.says});
                    case 3: return give_id(cell, row.group);
                    case 4: return give_id(cell, row.condition);
                    case 5: return row.quantity > 0 ? cell.set(row.quantity) : cell.set_null();
                    case 6: return cell.set(ids_[row.source]);
                    case 7: return cell.set(origin(row.line));
                    case 8: return give_text(cell, row.note);
                    default: return give_text(cell, row.withdrawn);
                }
            });
        insert_rows(catalog_, "application",
                    "id, role, says, item_group, condition, quantity, source, origin, note, withdrawn", rows);
    }

    Database& catalog_;
    const PackRecord& record_;
    PackData& data_;
    const PackShape& shape_;
    LoadedPacks& others_;
    FaultList& faults_;
    LargeVector<std::int64_t> ids_;  // of each name in the catalog
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
