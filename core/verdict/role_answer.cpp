#include "core/verdict/role_answer.h"

#include <algorithm>

#include <fmt/format.h>

namespace casebound {

std::string Leaf::text() const {
    if (!row_) return said_->text;
    const auto& what = row_->group ? catalog_->name_of(row_->group) : std::string("nothing");
    const char* says = row_->says == Says::fits           ? "fits"
                       : row_->says == Says::does_not_fit ? "does not fit"
                       : row_->condition                  ? "is needed where"
                                                          : "is needed on";
    const char* everywhere = row_->says == Says::does_not_fit ? "any configuration" : "every configuration";
    std::string text = fmt::format("{} {} {}", what, says, row_->condition ? to_text(*row_->when) : everywhere);
    if (!row_->withdrawn.empty()) text += fmt::format(" (withdrawn: {})", row_->withdrawn);
    return text;
}

Origin Leaf::origin() const {
    return row_ ? catalog_->origin(row_->origin, "applications", row_->source) : said_->origin;
}

std::vector<std::string> RoleAnswer::speaks_of() const {
    std::vector<std::string> names;
    for (const auto* condition : conditions)
        for (const auto& term : condition->terms)
            if (std::find(names.begin(), names.end(), term.attribute) == names.end()) names.push_back(term.attribute);
    return names;
}

const Leaf* GroupAnswer::firmest_against(const Bits& left) const {
    if (!disagreed_line.meets(left) || against.empty()) return nullptr;
    return &*std::min_element(against.begin(), against.end(),
                              [](const Leaf& a, const Leaf& b) { return a.evidence() < b.evidence(); });
}

void GroupAnswer::want_as_much(const GroupAnswer& other) {
    amount_open = amount_open || other.amount_open;
    if (other.quantity_high <= 0) return;
    quantity_low = quantity_high == 0 ? other.quantity_low : std::min(quantity_low, other.quantity_low);
    quantity_high = std::max(quantity_high, other.quantity_high);
}

const GroupAnswer* RoleAnswer::best() const {
    const auto found = std::find_if(groups.begin(), groups.end(),
                                    [](const GroupAnswer& g) { return g.verdict == Verdict::fits; });
    if (found != groups.end()) return &*found;
    if (!parts.empty()) return &parts.front();
    return with_others.empty() ? nullptr : &with_others.front();
}

const GroupAnswer* RoleAnswer::group(std::string_view key) const {
    const auto at = std::find_if(groups.begin(), groups.end(), [&](const GroupAnswer& one) { return one.key == key; });
    return at == groups.end() ? nullptr : &*at;
}

bool RoleAnswer::plain() const {
    return !parts.empty() || std::any_of(groups.begin(), groups.end(),
                                         [](const GroupAnswer& one) { return one.verdict == Verdict::fits; });
}

Verdict RoleAnswer::verdict_on(const Bits& cell) const {
    bool open = none_line.size() && none_line.meets(cell), disagreed = false;
    Bits unvetoed = cell;
    for (const auto& group : groups) {
        if (group.on_line.contains(cell) && !group.doubted_line.meets(cell)) return Verdict::fits;
        open |= group.on_line.meets(cell);
        disagreed |= group.disagreed_line.meets(cell);
        unvetoed -= group.vetoed_line;
    }
    for (const auto* some : {&parts, &with_others})
        for (const auto& part : *some)
            if (part.on_line.contains(cell)) return Verdict::fits;
    if (none_line.size() && none_line.contains(cell)) return Verdict::none_needed;
    if (open) return Verdict::check_first;
    if (disagreed) return Verdict::sources_disagree;
    return unvetoed.none() ? Verdict::does_not_fit : Verdict::not_recorded;
}

}  // namespace casebound
