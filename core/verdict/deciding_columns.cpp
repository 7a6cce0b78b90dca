#include "core/verdict/deciding_columns.h"

#include <cmath>

#include <fmt/format.h>

namespace casebound {

namespace {

constexpr double same_number = 1e-9;  // "5" and "5.0" are one figure

bool same_cell(const Row& a, const Row& b, const DecidingColumn& deciding) {
    const auto one = a.number(deciding.column), other = b.number(deciding.column);
    return one && other ? std::abs(*one - *other) <= deciding.within + same_number
                        : a.text(deciding.column) == b.text(deciding.column);
}

std::string_view shown(const Row& row, std::string_view column) {
    return row.stated(column) ? row.text(column) : std::string_view("none");
}

}  // namespace

const Role* declared_role(const Plugins& plugins, std::string_view name) {
    for (const auto& loaded : plugins.domains)
        for (const auto& role : loaded.vocabulary.roles)
            if (role.name == name) return &role;
    return nullptr;
}

DecidingColumns::DecidingColumns(const Judge& judge, const RoleAnswer& place) {
    const auto* role = declared_role(judge.plugins(), place.role);
    const auto* domain = judge.plugins().find(place.domain);
    if (!role || !domain || role->decided_by.columns.empty()) return;
    decided_by_ = &role->decided_by;
    facts_ = &judge.catalog().facts_for(*domain);
}

Compared DecidingColumns::compare(const std::string& one_group, const std::string& other_group) const {
    if (!decided_by_) return {};
    const Row* one = row_of_group(*facts_, decided_by_->table, one_group);
    const Row* other = row_of_group(*facts_, decided_by_->table, other_group);
    if (!one || !other) return {};
    Compared compared{true, "", weaker(row_source(*one), row_source(*other))};
    for (const auto& deciding : decided_by_->columns) {
        const auto& column = deciding.column;
        const bool both = deciding.may_be_bare || (one->stated(column) && other->stated(column));
        const bool same = same_cell(*one, *other, deciding);
        compared.equal &= both && same;
        if (both && !same && compared.difference.empty())
            compared.difference = fmt::format("{}: {} and {}", deciding.title, shown(*one, column),
                                              shown(*other, column));
    }
    return compared;
}

}  // namespace casebound
