#include "core/work/statement.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/column_units.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/verdict/part_number.h"

namespace casebound {

namespace {

constexpr std::array<std::string_view, 6> kinds{"maker", "standard", "law", "measured", "common_practice", "memory"};

// What stands behind the last underscore of a column's name, and the unit it means.
std::string underscored(std::string_view typed) {
    std::string key(typed);
    std::replace_if(
        key.begin(), key.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
    return key;
}

std::string unit_of_kind(Session& session, std::string_view kind) {
    const auto* known = session.catalog().vocabularies().item_kind(kind);
    return known ? known->unit : "";
}

// "5.3 L" in the unit as a plain number; what is no number stays as it is, for the check of the pack to say so.
std::string in_unit(const std::string& column, const std::string& text, const std::string& unit) {
    try {
        return plain_number(quantity_in(text, unit == "each" ? "" : unit));
    } catch (const UnitFault& fault) { throw Error(Exit::usage, fmt::format("{}: {}", column, fault.what())); }
}

// One statement while it is put together.
class Making {
public:
    Making(Session& session, const Situation& vehicle, const Saying& saying)
        : session_(session), vehicle_(vehicle), saying_(saying) {
        fact_.vehicle = vehicle.name();
        fact_.date = today();
        fact_.note = saying.note;
        fact_.kind = source_kind_meant(saying.kind);
        fact_.title = saying.who;
        if (saying.who.empty())
            faults_.emplace_back(
                "says: who says so? Write --says \"WHO, WHERE, WHEN\", such as --says \"the seller's list, 2026\"");
    }

    void fault(std::string what) { faults_.push_back(std::move(what)); }
    template <class Do> void collecting(Do make) {
        try {
            make();
        } catch (const Error& error) {
            if (error.exit() != Exit::usage) throw;
            for (const auto& one : error.all()) faults_.push_back(one);
        }
    }
    void require_sound() const {
        if (!faults_.empty()) throw Error(Exit::usage, faults_);
    }
    OwnFact take(const std::string& table, OwnCells cells) {
        std::erase_if(cells, [](const auto& cell) { return cell.second.empty(); });
        fact_.rows.emplace_back(table, std::move(cells));
        require_sound();
        return std::move(fact_);
    }

    // The group that is meant; of a part that no pack has, its own, with the rows that make it. `kind` "": not known.
    std::string group(const std::string& typed, const std::string& kind) {
        const auto& catalog = session_.catalog();
        const auto part = number_as_key(item_meant(catalog, typed));
        if (catalog.group(part)) return part;
        const auto groups = catalog.groups_of(part);
        if (groups.size() == 1) return groups.front();
        if (groups.size() > 1)
            throw Error(Exit::usage,
                        fmt::format("{}: it is in several groups: name one of {}", typed, fmt::join(groups, ", ")));
        if (catalog.item(part))
            throw Error(Exit::usage,
                        fmt::format("{}: it is in no group of its own, as a kit is: name the part in it", typed));
        if (kind.empty())
            throw Error(Exit::usage, fmt::format("{0}: no pack has it: write down first where it goes: casebound note "
                                                 "{1} PLACE \"{0}\" --says WHO",
                                                 typed, vehicle_.name()));
        return own_group(part, kind);
    }

    std::string kit(const std::string& typed) {
        const auto key = number_as_key(item_meant(session_.catalog(), typed));
        if (!session_.catalog().item(key)) item(key, "kit");
        return key;
    }

    std::string kind_of_group(const std::string& typed) const {
        const auto key = item_meant(session_.catalog(), typed);
        if (const auto group = session_.catalog().group(key)) return group->kind;
        const auto item = session_.catalog().item(key);
        return item ? item->kind : "";
    }

private:
    bool already(const std::string& table, const std::string& column, const std::string& key) const {
        return std::any_of(fact_.rows.begin(), fact_.rows.end(),
                           [&](const auto& row) { return row.first == table && cell_of(row.second, column) == key; });
    }

    std::string label(const std::string& part, const std::string& kind) const {
        if (!saying_.title.empty()) return saying_.title;
        const auto* known = session_.catalog().vocabularies().item_kind(kind);
        return fmt::format("{} {}", known ? known->title : spaced(kind), part);
    }

    void item(const std::string& part, const std::string& kind) {
        if (already("items", "item", part)) return;
        const auto pack = saying_.pack.empty() ? "1" : in_unit("pack", saying_.pack, unit_of_kind(session_, kind));
        fact_.rows.push_back(
            {"items", {{"item", part}, {"kind", kind}, {"title", label(part, kind)}, {"pack_quantity", pack}}});
    }

    std::string own_group(const std::string& part, const std::string& kind) {
        const auto group = "own-" + part;
        const bool known = session_.catalog().group(group) || already("groups", "group_key", group);
        // What is poured is ordered by the pack: no pack of it is on record until somebody says how much one holds.
        const auto unit = unit_of_kind(session_, kind);
        const bool no_pack = saying_.pack.empty() && !unit.empty() && unit != "each";
        if (!no_pack) item(part, kind);
        if (!known)
            fact_.rows.push_back({"groups", {{"group_key", group}, {"kind", kind}, {"title", label(part, kind)}}});
        if (!no_pack && !already("group_members", "item", part))
            fact_.rows.push_back({"group_members", {{"group_key", group}, {"item", part}, {"basis", "same"}}});
        return group;
    }

    Session& session_;
    const Situation& vehicle_;
    const Saying& saying_;
    OwnFact fact_;
    std::vector<std::string> faults_;
};

// A row of any table, cell by cell.
class TableMaking {
public:
    TableMaking(Session& session, const Situation& vehicle, const TableShape& table, const OwnCells& typed,
                const Saying& saying)
        : session_(session), vehicle_(vehicle), table_(table), making_(session, vehicle, saying) {
        for (const auto& [name, text] : typed) take_typed(name, text);
        fill("line", vehicle.line());
        if (!saying.where.empty() && !has("condition")) making_.fault("where: a row of this table holds everywhere");
        fill("condition", saying.where);
        fill("note", saying.note);
    }

    OwnFact fact() {
        OwnCells cells;
        for (const auto& column : table_.columns) {
            if (column.name == "source") continue;
            const auto text = cell_of(typed_, column.name);
            if (text.empty() && column.required)
                making_.fault(fmt::format("{}: it is needed: {}", column.name, wanted(column)));
            making_.collecting([&] { cells.emplace_back(column.name, text.empty() ? "" : cell(column, text)); });
        }
        return making_.take(table_.name, std::move(cells));
    }

private:
    bool has(std::string_view column) const { return table_.find(column) < table_.columns.size(); }

    void take_typed(const std::string& name, const std::string& text) {
        auto column = underscored(name);
        if ((column == "part" || column == "item") && !has(column) && has("group_key")) column = "group_key";
        if (has(column) && column != "source") return typed_.emplace_back(column, text), void();
        const auto near = nearest(column, table_.column_names());
        making_.fault(fmt::format("{}: no such column of {}{}", name, table_.name,
                                  near.empty() || near == "source"
                                      ? fmt::format(": use {}", fmt::join(table_.column_names(), ", "))
                                      : fmt::format(": did you mean {}?", near)));
    }

    // Unless it is said, or is what the row itself is called.
    void fill(std::string_view column, const std::string& text) {
        const auto at = table_.find(column);
        if (text.empty() || at == table_.columns.size() || table_.columns[at].unique ||
            !cell_of(typed_, column).empty())
            return;
        typed_.emplace_back(column, text);
    }

    static std::string wanted(const Column& column) {
        return column.choices.empty() ? column.meaning
                                      : fmt::format("{}: {}", column.meaning, fmt::join(column.choices, ", "));
    }

    std::string cell(const Column& column, const std::string& text) {
        if (column.refers && column.refers->table == "groups") return making_.group(text, kind_for(column.name));
        if (column.refers && column.refers->table == "items")
            return table_.name == "kit_contents" ? making_.kit(text) : item_meant(session_.catalog(), text);
        if (column.name == "also_requires") return groups_in(text);
        if (column.word == WordOf::role) return role_meant(session_, text);
        if (column.kind == CellKind::number || column.kind == CellKind::integer)
            return in_unit(column.name, text, unit_of(column));
        if (!column.choices.empty()) return choice(column, text);
        return text;
    }

    // A stand-in is of the kind of what it stands in for; a place says its kind.
    std::string kind_for(std::string_view column) {
        if (table_.name == "stand_ins")
            return making_.kind_of_group(cell_of(typed_, column == "offered" ? "wanted" : "offered"));
        const auto role = cell_of(typed_, "role");
        const auto* known = role.empty() ? nullptr : session_.catalog().vocabularies().role(role_meant(session_, role));
        return known ? known->item_kind : "";
    }

    std::string groups_in(const std::string& text) {
        std::string all;
        for (std::size_t from = 0; from <= text.size();) {
            const auto bar = std::min(text.find('|', from), text.size());
            all += (all.empty() ? "" : "|") + making_.group(text.substr(from, bar - from), "");
            from = bar + 1;
        }
        return all;
    }

    std::string unit_of(const Column& column) {
        if (column.name != "quantity") return unit_of_column(column.name);
        return unit_of_kind(session_, making_.kind_of_group(cell_of(typed_, "group_key")));
    }

    static std::string choice(const Column& column, const std::string& text) {
        const auto key = underscored(text);
        return std::find(column.choices.begin(), column.choices.end(), key) == column.choices.end() ? text : key;
    }

    Session& session_;
    const Situation& vehicle_;
    const TableShape& table_;
    Making making_;
    OwnCells typed_;
};

}  // namespace

std::string source_kind_meant(std::string typed) {
    const auto kind = underscored(typed);
    if (std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) return kind;
    throw Error(Exit::usage,
                fmt::format("kind: {}: how good is it? Write maker (its own text), standard, law, measured "
                            "(by you, on the part), common-practice or memory",
                            typed));
}

std::string role_meant(Session& session, std::string_view typed) {
    std::string key = number_as_key(typed);
    for (auto& c : key) c = c == '_' ? '-' : static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    const auto& words = session.catalog().vocabularies();
    if (words.role(key)) return key;
    std::vector<std::string> roles;
    for (const auto& [role, owned] : words.roles()) {
        if (capitalised(owned.word.title) == capitalised(std::string(typed))) return role;
        roles.push_back(role);
    }
    const auto near = nearest(key, roles);
    throw Error(Exit::usage,
                fmt::format("role: {}: no such place{}", typed,
                            near.empty() ? ": see casebound pack words" : fmt::format(": did you mean {}?", near)));
}

std::string unit_of_column(std::string_view column) {
    const auto unit = column_unit(column).unit;
    return known_unit(unit) ? std::string(unit) : std::string();
}

std::string column_words(std::string_view column) {
    const auto [stem, unit] = column_unit(column);
    auto words = spaced(known_unit(unit) ? stem : column);
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

std::vector<const TableShape*> tables_with_source(const PackShape& shape) {
    std::vector<const TableShape*> all;
    for (const auto& table : shape.tables())
        if (table.name != "sources" && table.find("source") < table.columns.size()) all.push_back(&table);
    return all;
}

const TableShape* table_meant(const PackShape& shape, std::string_view typed) {
    const auto key = underscored(typed);
    std::vector<const TableShape*> found;
    for (const auto* table : tables_with_source(shape)) {
        if (table->name == key) return table;
        if (table->name.ends_with("_" + key)) found.push_back(table);
    }
    if (found.size() < 2) return found.empty() ? nullptr : found.front();
    std::vector<std::string> names;
    for (const auto* table : found) names.push_back(table->name);
    throw Error(Exit::usage, fmt::format("{}: it may be {}: write one of them", typed, fmt::join(names, " or ")));
}

OwnFact place_statement(Session& session, const Situation& vehicle, const PlaceSaid& said, const Saying& saying) {
    Making making(session, vehicle, saying);
    const bool no_place = said.part == "none";
    OwnCells cells{{"line", vehicle.line()},
                   {"says", no_place    ? "none_needed"
                            : said.fits ? "fits"
                                        : "does_not_fit"},
                   {"condition", saying.where},
                   {"note", saying.note}};
    if (no_place && !said.fits) making.fault("none: there is no such place, or a part does not fit: not both");
    making.collecting([&] {
        const auto role = role_meant(session, said.role);
        const auto& kind = session.catalog().vocabularies().role(role)->item_kind;
        cells.emplace_back("role", role);
        if (!said.quantity.empty())
            cells.emplace_back("quantity", in_unit("quantity", said.quantity, unit_of_kind(session, kind)));
        if (!no_place) cells.emplace_back("group_key", making.group(said.part, kind));
    });
    return making.take("applications", std::move(cells));
}

OwnFact table_statement(Session& session, const Situation& vehicle, const std::string& table, const OwnCells& cells,
                        const Saying& saying) {
    const PackShape shape(session.plugins());
    return TableMaking(session, vehicle, *shape.find(table), cells, saying).fact();
}

OwnFact corrected_statement(Session& session, const Situation& vehicle, const OwnStatement& old, const OwnCells& cells,
                            const Saying& saying) {
    const auto* main = old.main();
    if (!main) throw Error(Exit::usage, fmt::format("{}: it only names a part or a vehicle line", old.number));
    OwnCells merged = cells;
    for (const auto& [column, text] : main->cells) {
        const bool anew = std::any_of(
            cells.begin(), cells.end(), [&, name = std::string_view(column)](const auto& one) {
                const auto key = underscored(one.first);
                return key == name || (name == "group_key" && (key == "part" || key == "item"));
            });
        const bool where = column == "condition" && !saying.where.empty();
        if (!anew && !where && column != "source" && column != "withdrawn" && !text.empty())
            merged.emplace_back(column, text);
    }
    auto anew = saying;
    if (anew.who.empty()) anew.who = old.title;
    if (anew.kind.empty()) anew.kind = old.kind;
    return table_statement(session, vehicle, main->table, merged, anew);
}

}  // namespace casebound
