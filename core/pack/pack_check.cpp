#include "core/pack/pack_check.h"

#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "core/contract/text.h"
#include "core/ground/utf8.h"
#include "core/pack/most_quantities.h"
#include "core/pack/pack_words.h"

namespace casebound {

namespace {

// A quantity above this is more likely in another unit: no pack or fill of a shop holds as much. Common practice, no source.

// Checks over one record or plain table, with its columns at hand.
class TableRules {
public:
    TableRules(RuleContext& context, std::string_view table) : in_(context), shape_(*context.shape.find(table)) {}

protected:
    std::size_t at(std::string_view column) const { return shape_.find(column); }
    void fault(std::uint32_t line, std::size_t column, std::string what) {
        in_.faults.at(shape_, line, column, std::move(what));
    }
    void warn(std::uint32_t line, std::size_t column, std::string what) {
        in_.faults.warn_at(shape_, line, column, std::move(what));
    }
    std::string shown_name(NameId name) const { return shown(in_.data.names.text(name)); }

    bool known_kind(NameId kind) const {
        return kind != 0 && in_.words.item_kind(in_.data.names.text(kind)) != nullptr;
    }

    void check_quantity(std::uint32_t line, std::size_t column, double quantity, NameId kind) {
        const auto& unit = unit_of(kind);
        if (unit == "each" && quantity != std::floor(quantity))
            fault(line, column, fmt::format("{} of something counted by the piece: write a whole number", quantity));
        if ((unit == "L" && quantity > most_litres) || (unit == "each" && quantity > most_each))
            warn(line, column,
                 fmt::format("{} {}: is it in another unit? {} is wanted", quantity, unit,
                             unit == "L" ? "litres" : "a number of pieces"));
    }

private:
    const std::string& unit_of(NameId kind) {
        if (kind >= units_.size()) units_.resize(in_.data.names.size(), nullptr);
        auto& unit = units_[kind];
        if (!unit) {
            const auto* known = in_.words.item_kind(in_.data.names.text(kind));
            unit = known ? &known->unit : &none_;
        }
        return *unit;
    }

protected:
    RuleContext& in_;
    const TableShape& shape_;

private:
    std::vector<const std::string*> units_;
    const std::string none_;
};

class ItemRules : public TableRules {
public:
    explicit ItemRules(RuleContext& context) : TableRules(context, "items") {}
    void check() {
        const auto quantity = at("pack_quantity");
        for (const auto& row : in_.data.items) check_quantity(row.line, quantity, row.pack_quantity, row.kind);
    }
};

class MemberRules : public TableRules {
public:
    explicit MemberRules(RuleContext& context) : TableRules(context, "group_members") {}
    void check() {
        const auto item = at("item");
        for (const auto& row : in_.data.members) {
            const auto wanted = in_.kinds.of_group(row.group), found = in_.kinds.of_item(row.item);
            if (wanted != found && known_kind(wanted) && known_kind(found))
                fault(row.line, item,
                      fmt::format("{} is of kind {}, but group {} is of kind {}: a group holds one kind",
                                  shown_name(row.item), shown_name(found), shown_name(row.group), shown_name(wanted)));
        }
    }
};

class ApplicationRules : public TableRules {
public:
    explicit ApplicationRules(RuleContext& context) : TableRules(context, "applications") {}

    void check() {
        for (const auto& row : in_.data.applications) {
            if (row.says == PackApplication::none_needed) {
                if (row.group != 0)
                    fault(row.line, group_,
                          "none_needed says that there is no such place: take the group out, or write fits");
                if (row.quantity > 0) fault(row.line, quantity_, "none_needed takes nothing: leave the quantity empty");
                continue;
            }
            if (row.group == 0 && row.says < PackApplication::none_needed)
                fault(row.line, group_, "empty: name the group that fits or does not, or write none_needed");
            check_kind(row);
        }
    }

private:
    void check_kind(const PackApplication& row) {
        const auto kind = in_.kinds.of_group(row.group);
        const auto* role = role_of(row.role);
        if (role && in_.data.names.text(kind) != role->item_kind && known_kind(kind))
            fault(row.line, group_,
                  fmt::format("{} is of kind {}, but the role {} takes {}: correct the group or the role",
                              shown_name(row.group), shown_name(kind), role->name, role->item_kind));
        if (row.quantity > 0) check_quantity(row.line, quantity_, row.quantity, kind);
    }

    const Role* role_of(NameId name) {
        if (name != last_) {
            last_ = name;
            role_ = in_.words.role(in_.data.names.text(name));
        }
        return role_;
    }

    const std::size_t group_ = at("group_key"), quantity_ = at("quantity");
    NameId last_ = 0;
    const Role* role_ = nullptr;
};

class StandInRules : public TableRules {
public:
    StandInRules(RuleContext& context, const PlainTable& table) : TableRules(context, "stand_ins"), table_(table) {}

    void check() {
        for (std::size_t row = 0; row < table_.rows(); ++row) {
            const auto line = table_.lines[row];
            const auto relation = table_.cell(row, relation_);
            if (relation == "bolts_up_but" && table_.cell(row, difference_).empty())
                fault(line, difference_, "empty: bolts_up_but must say what works differently");
            if (relation == "stands_in_if" && table_.cell(row, condition_).empty() &&
                table_.cell(row, requirement_).empty())
                warn(line, requirement_,
                     "stands_in_if without a condition or a requirement: state it, or write supersedes if there is "
                     "none");
            check_also(row);
            const auto a = in_.kinds.of_group(table_.name(row, offered_)),
                       b = in_.kinds.of_group(table_.name(row, wanted_));
            if (relation != "excludes" && a != 0 && b != 0 && a != b)
                warn(line, offered_,
                     fmt::format("{} is of kind {}, {} of kind {}: no role takes both",
                                 shown_name(table_.name(row, offered_)), shown_name(a),
                                 shown_name(table_.name(row, wanted_)), shown_name(b)));
        }
    }

private:
    void check_also(std::size_t row) {
        std::string_view rest = table_.cell(row, also_);
        while (!rest.empty()) {
            const auto bar = rest.find('|');
            const auto key = rest.substr(0, bar);
            rest = bar == std::string_view::npos ? std::string_view{} : rest.substr(bar + 1);
            const auto name = in_.data.names.id(key);
            if (key.empty()) fault(table_.lines[row], also_, "an empty key between two |: delete one");
            else if (!in_.keys.known("groups", "group_key", name))
                fault(table_.lines[row], also_, in_.keys.unknown("groups", "group_key", name));
            else if (name == table_.name(row, offered_) || name == table_.name(row, wanted_))
                fault(table_.lines[row], also_,
                      fmt::format("{} is one of the two itself: name what goes beside them, or leave it empty",
                                  shown_name(name)));
        }
    }

    const PlainTable& table_;
    const std::size_t relation_ = at("relation"), difference_ = at("difference"), condition_ = at("condition"),
                      requirement_ = at("requirement"), also_ = at("also_requires"), offered_ = at("offered"),
                      wanted_ = at("wanted");
};

class KitRules : public TableRules {
public:
    KitRules(RuleContext& context, const PlainTable& table) : TableRules(context, "kit_contents"), table_(table) {}

    void check() {
        const auto kit_column = at("kit"), group_column = at("group_key"), quantity_column = at("quantity");
        for (std::size_t row = 0; row < table_.rows(); ++row) {
            const auto kit = table_.name(row, kit_column);
            const auto kind = in_.kinds.of_item(kit);
            if (kind != 0 && in_.data.names.text(kind) != "kit")
                fault(table_.lines[row], kit_column,
                      fmt::format("{} is of kind {}: only an item of kind kit has contents", shown_name(kit),
                                  shown_name(kind)));
            const auto cell = table_.cell(row, quantity_column);
            double quantity = 0;
            std::from_chars(cell.data(), cell.data() + cell.size(), quantity);
            check_quantity(table_.lines[row], quantity_column, quantity,
                           in_.kinds.of_group(table_.name(row, group_column)));
        }
    }

private:
    const PlainTable& table_;
};

// What a row of imitators would be bought for: places, all of one domain, which speaks of them.
class ImitatorRules : public TableRules {
public:
    ImitatorRules(RuleContext& context, const PlainTable& table) : TableRules(context, "imitators"), table_(table) {}

    void check() {
        for (std::size_t row = 0; row < table_.rows(); ++row) {
            std::string first, owner;
            for (const auto& part : split_at(table_.cell(row, parts_), '|')) {
                const auto of = in_.words.owner_of_role(part);
                if (of.empty()) fault(table_.lines[row], parts_, unknown_role(in_.words, part));
                else if (owner.empty()) first = part, owner = of;
                else if (of != owner)
                    fault(table_.lines[row], parts_,
                          fmt::format("{} is a place of {}, {} one of {}: write a row for each domain", first, owner,
                                      part, of));
            }
        }
    }

private:
    const PlainTable& table_;
    const std::size_t parts_ = at("parts");
};

}  // namespace

ItemKinds::ItemKinds(PackData& data, LoadedPacks& others)
    : data_(data), others_(others), items_(data.names.size(), unasked), groups_(data.names.size(), unasked) {
    for (const auto& row : data.items) items_[row.item] = row.kind;
    for (const auto& row : data.groups) groups_[row.group] = row.kind;
    items_[0] = groups_[0] = 0;
}

NameId ItemKinds::of(std::vector<NameId>& kinds, std::string_view table, NameId key) {
    if (key >= kinds.size()) kinds.resize(data_.names.size(), unasked);
    auto& kind = kinds[key];
    if (kind == unasked) kind = data_.names.id(others_.kind_of(table, data_.names.text(key)));
    return kind;
}

void check_core_rules(RuleContext& context) {
    ItemRules(context).check();
    MemberRules(context).check();
    ApplicationRules(context).check();
    if (const auto* table = context.data.find("stand_ins")) StandInRules(context, *table).check();
    if (const auto* table = context.data.find("kit_contents")) KitRules(context, *table).check();
    if (const auto* table = context.data.find("imitators")) ImitatorRules(context, *table).check();
}

void check_invented(const PackData& data, bool invented, FaultList& faults) {
    const auto* table = data.find("sources");
    if (!table || invented) return;
    const auto kind = table->shape->find("kind");
    for (std::size_t row = 0; row < table->rows(); ++row)
        if (table->cell(row, kind) == "invented")
            faults.at(*table->shape, table->lines[row], kind,
                      "the pack holds invented data: write \"invented\": true into datapackage.json, so that every "
                      "output says so");
}

}  // namespace casebound
