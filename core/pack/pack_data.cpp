#include "core/pack/pack_data.h"

#include <algorithm>
#include <array>

namespace casebound {

namespace {

// Names of one table: the row above often holds the same ones.
class NameMemo {
public:
    NameMemo(Interner& names, std::size_t columns) : names_(names), last_(columns, 0) {}
    NameId id(std::size_t column, std::string_view text) {
        const auto last = names_.text(last_[column]);
        const bool again = last.size() == text.size() && (text.empty() || last.back() == text.back()) &&
                           last == text;  // keys mostly differ at their ends
        if (!again) last_[column] = names_.id(text);
        return last_[column];
    }

private:
    Interner& names_;
    std::vector<NameId> last_;
};

class RecordTaker : public RowTaker {
public:
    RecordTaker(PackData& data, const TableShape& table)
        : data_(data), table_(table), memo_(data.names, table.columns.size()) {}

protected:
    std::size_t at(std::string_view column) const { return table_.find(column); }
    std::uint8_t choice(std::size_t column, std::string_view text) const {
        const auto& choices = table_.columns[column].choices;
        return static_cast<std::uint8_t>(std::find(choices.begin(), choices.end(), text) - choices.begin());
    }

    PackData& data_;
    const TableShape& table_;
    NameMemo memo_;
};

class ItemTaker final : public RecordTaker {
public:
    using RecordTaker::RecordTaker;
    void expect(std::size_t rows) override { data_.items.reserve(rows); }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells,
              const std::vector<double>& numbers) override {
        data_.items.push_back({memo_.id(item_, cells[item_]), memo_.id(kind_, cells[kind_]),
                               memo_.id(source_, cells[source_]), data_.texts.id(cells[title_]),
                               data_.texts.id(cells[withdrawn_]), line, numbers[quantity_]});
    }

private:
    const std::size_t item_ = at("item"), kind_ = at("kind"), title_ = at("title"), quantity_ = at("pack_quantity"),
                      withdrawn_ = at("withdrawn"), source_ = at("source");
};

class GroupTaker final : public RecordTaker {
public:
    using RecordTaker::RecordTaker;
    void expect(std::size_t rows) override { data_.groups.reserve(rows); }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells, const std::vector<double>&) override {
        data_.groups.push_back({memo_.id(group_, cells[group_]), memo_.id(kind_, cells[kind_]),
                                memo_.id(source_, cells[source_]), data_.texts.id(cells[title_]), line});
    }

private:
    const std::size_t group_ = at("group_key"), kind_ = at("kind"), title_ = at("title"), source_ = at("source");
};

class MemberTaker final : public RecordTaker {
public:
    using RecordTaker::RecordTaker;
    void expect(std::size_t rows) override { data_.members.reserve(rows); }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells, const std::vector<double>&) override {
        data_.members.push_back({memo_.id(group_, cells[group_]), memo_.id(item_, cells[item_]),
                                 memo_.id(source_, cells[source_]), line, choice(basis_, cells[basis_])});
    }

private:
    const std::size_t group_ = at("group_key"), item_ = at("item"), basis_ = at("basis"), source_ = at("source");
};

class ApplicationTaker final : public RecordTaker {
public:
    using RecordTaker::RecordTaker;
    void expect(std::size_t rows) override { data_.applications.reserve(rows); }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells,
              const std::vector<double>& numbers) override {
        PackApplication row;
        row.quantity = numbers[quantity_];
        row.vehicle_line = memo_.id(line_, cells[line_]);
        row.role = memo_.id(role_, cells[role_]);
        row.group = memo_.id(group_, cells[group_]);
        row.condition = memo_.id(condition_, cells[condition_]);
        row.source = memo_.id(source_, cells[source_]);
        row.note = data_.texts.id(cells[note_]);
        row.withdrawn = data_.texts.id(cells[withdrawn_]);
        row.line = line;
        row.says = choice(says_, cells[says_]);
        data_.applications.push_back(row);
    }

private:
    const std::size_t line_ = at("line"), role_ = at("role"), says_ = at("says"), group_ = at("group_key"),
                      condition_ = at("condition"), quantity_ = at("quantity"), note_ = at("note"),
                      withdrawn_ = at("withdrawn"), source_ = at("source");
};

bool holds_names(const Column& column) {
    return column.kind == CellKind::key || column.kind == CellKind::word || column.kind == CellKind::condition ||
           column.kind == CellKind::findings || column.kind == CellKind::values;
}

template <class Row> Strided strided(const LargeVector<Row>& rows, std::uint32_t Row::*field) {
    return rows.empty() ? Strided() : Strided(&(rows[0].*field), sizeof(Row));
}

template <class Row>
TableView record_view(const TableShape& table, const LargeVector<Row>& rows,
                      std::initializer_list<std::pair<std::string_view, std::uint32_t Row::*>> fields) {
    TableView view{&table, rows.size(), std::vector<Strided>(table.columns.size()), strided(rows, &Row::line), nullptr};
    for (const auto& [column, field] : fields) view.names[table.find(column)] = strided(rows, field);
    return view;
}

TableView plain_view(const PlainTable& table) {
    const std::size_t width = table.shape->columns.size();
    TableView view{table.shape, table.rows(), std::vector<Strided>(width),
                   Strided(table.lines.data(), sizeof(std::uint32_t)), &table};
    for (std::size_t i = 0; i < width; ++i)
        if (holds_names(table.shape->columns[i]) && !table.names.empty())  // of no row there is nothing to point to
            view.names[i] = Strided(table.names.data() + i, width * sizeof(NameId));
    return view;
}

}  // namespace

class PlainTaker final : public RowTaker {
public:
    PlainTaker(PackData& data, PlainTable& table)
        : data_(data), table_(table), memo_(data.names, table.shape->columns.size()) {}
    void expect(std::size_t rows) override {
        table_.names.reserve(rows * table_.shape->columns.size());
        table_.cells.reserve(rows * table_.shape->columns.size());
        table_.lines.reserve(rows);
    }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells, const std::vector<double>&) override {
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const bool name = holds_names(table_.shape->columns[i]);
            table_.names.push_back(name ? memo_.id(i, cells[i]) : 0);
            table_.cells.push_back(name ? data_.names.text(table_.names.back()) : data_.cells_.keep(cells[i]));
        }
        table_.lines.push_back(line);
    }

private:
    PackData& data_;
    PlainTable& table_;
    NameMemo memo_;
};

std::unique_ptr<RowTaker> PackData::taker(const TableShape& table) {
    if (table.name == "items") return std::make_unique<ItemTaker>(*this, table);
    if (table.name == "groups") return std::make_unique<GroupTaker>(*this, table);
    if (table.name == "group_members") return std::make_unique<MemberTaker>(*this, table);
    if (table.name == "applications") return std::make_unique<ApplicationTaker>(*this, table);
    plain.emplace_back();
    plain.back().shape = &table;
    return std::make_unique<PlainTaker>(*this, plain.back());
}

std::vector<TableView> PackData::views(const PackShape& shape) const {
    std::vector<TableView> views;
    const auto add = [&](TableView view) {
        if (view.rows > 0) views.push_back(std::move(view));
    };
    using I = PackItem;
    using G = PackGroup;
    using M = PackMember;
    using A = PackApplication;
    add(record_view<I>(*shape.find("items"), items, {{"item", &I::item}, {"kind", &I::kind}, {"source", &I::source}}));
    add(record_view<G>(*shape.find("groups"), groups,
                       {{"group_key", &G::group}, {"kind", &G::kind}, {"source", &G::source}}));
    add(record_view<M>(*shape.find("group_members"), members,
                       {{"group_key", &M::group}, {"item", &M::item}, {"source", &M::source}}));
    add(record_view<A>(*shape.find("applications"), applications,
                       {{"line", &A::vehicle_line},
                        {"role", &A::role},
                        {"group_key", &A::group},
                        {"condition", &A::condition},
                        {"source", &A::source}}));
    for (const auto& table : plain) add(plain_view(table));
    return views;
}

const PlainTable* PackData::find(std::string_view table) const {
    const auto at = std::find_if(plain.begin(), plain.end(),
                                 [&](const PlainTable& t) { return t.shape->name == table; });
    return at == plain.end() ? nullptr : &*at;
}

std::size_t PackData::rows(const TableShape& table) const {
    if (table.name == "items") return items.size();
    if (table.name == "groups") return groups.size();
    if (table.name == "group_members") return members.size();
    if (table.name == "applications") return applications.size();
    const auto* found = find(table.name);
    return found ? found->rows() : 0;
}

bool PackData::readable(const TableShape& table) const {
    return std::find(unreadable.begin(), unreadable.end(), &table) == unreadable.end();
}

}  // namespace casebound
