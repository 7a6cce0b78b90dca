#include "core/work/item_doubt.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/work/why.h"

namespace casebound {

namespace {

std::vector<std::string> kinds_in(const Catalog& catalog, const std::string& item) {
    std::vector<std::string> kinds;
    for (const auto& key : groups_asked(catalog, item).groups)
        if (const auto group = catalog.group(key)) kinds.push_back(group->kind);
    if (const auto known = catalog.item(item); known && known->kind != "kit") kinds.push_back(known->kind);
    return kinds;
}

// The best of what is said of it in the role; null when no row names it there.
const Why* best_of(const std::vector<Why>& all) {
    const auto rank = [](const Why& one) {
        return one.verdict() == Verdict::fits                                 ? 0
               : one.lowered.empty() && one.verdict() == Verdict::check_first ? 1
               : one.lowered.empty()                                          ? 3
                                                                              : 2;
    };
    const auto best = std::min_element(all.begin(), all.end(),
                                       [&](const Why& a, const Why& b) { return rank(a) < rank(b); });
    return best == all.end() ? nullptr : &*best;
}

std::optional<ItemDoubt> doubt_of(const Situation& situation, const RoleAnswer& role, const Why& why) {
    if (why.verdict() == Verdict::fits || why.verdict() == Verdict::not_answered) return std::nullopt;
    if (!why.lowered.empty()) return ItemDoubt{why.lowered, true, true};
    if (why.verdict() == Verdict::check_first)
        return ItemDoubt{why.role.deciding.empty() ? "not known yet whether it fits: check first"
                                                   : fmt::format("not known yet whether it fits: find out {}",
                                                                 attribute_titles(situation, why.role.deciding)),
                         false, false};
    const auto& set = situation.model().set;
    const auto where = where_words(set, why.group->on_line, set.all(), role.speaks_of());
    return ItemDoubt{
        fmt::format("does not fit this vehicle: it is for {}", why.group->on_line.none() ? "no version of this line"
                                                               : where.empty()           ? "every version of this line"
                                                                                         : where),
        true, true};
}

// Nothing on record names it in the role: it may still stand in for what fits.
std::optional<ItemDoubt> doubt_of_stand_in(const Places& places, const RoleAnswer& role, const std::string& item) {
    for (const auto& found : stand_ins_of(places, item, {role})) {
        if (found.answer.verdict == SwapVerdict::yes) return std::nullopt;
        if (found.answer.verdict == SwapVerdict::yes_if)
            return ItemDoubt{fmt::format("may stand in for {} only on conditions: casebound swap {} {}", found.best,
                                         found.best, item),
                             false, false};
        return ItemDoubt{fmt::format("in place of {}: {}", found.best, swap_words(found.answer.verdict)), true,
                         found.answer.verdict == SwapVerdict::no};
    }
    return ItemDoubt{"nothing on record puts it in this role of this vehicle", true, false};
}

}  // namespace

std::optional<ItemDoubt> item_doubt(const Situation& situation, const RoleAnswer& role, const std::string& item) {
    if (item.empty() || role.verdict == Verdict::not_answered) return std::nullopt;
    const auto& catalog = situation.judge().catalog();
    if (!catalog.item(item) && !catalog.group(item)) return ItemDoubt{"is no item of the catalog", true, false};
    const std::vector<RoleAnswer> roles{role};
    const auto all = whys(catalog, situation, item, roles, groups_asked(catalog, item).groups);
    if (const auto* why = best_of(all)) return doubt_of(situation, role, *why);
    return doubt_of_stand_in(situation.places(), role, item);
}

std::optional<ItemDoubt> item_doubt(Session& session, const std::string& vehicle, const std::string& role,
                                    const std::string& item) {
    if (item.empty() || role.empty()) return std::nullopt;
    try {
        const auto situation = session.situation(vehicle);
        return item_doubt(*situation, situation->places().role(role), item);
    } catch (const Error&) { return std::nullopt; }
}

void check_kind(const Catalog& catalog, const std::string& role, const std::string& item) {
    const auto* known = catalog.vocabularies().role(role);
    if (item.empty() || !known || (!catalog.item(item) && !catalog.group(item))) return;
    const auto kinds = kinds_in(catalog, item);
    if (kinds.empty() || std::find(kinds.begin(), kinds.end(), known->item_kind) != kinds.end()) return;
    throw Error(Exit::usage, fmt::format("item: {} is of another kind ({}) than the role {} takes ({}): nothing is "
                                         "written; correct the item or the role",
                                         item, kinds.front(), role, known->item_kind));
}

}  // namespace casebound
