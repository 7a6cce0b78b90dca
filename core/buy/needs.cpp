#include "core/buy/needs.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace casebound {

namespace {

double reserve_of(const ListLine& line, const BuyWish& wish) {
    return line.answer.unit == "L" ? wish.reserve_l.value_or(line.reserve) : 0;
}

void add_members(std::vector<Serves>& served, const std::vector<Member>& members, const std::string& spec) {
    for (const auto& member : members)
        if (member.withdrawn.empty() && member.basis != Basis::claimed)
            served.push_back({member.item, member.pack_quantity, spec});
}

void add_stand_ins(std::vector<Serves>& served, const ListLine& line, const Places& places, bool counted) {
    for (const auto& swap : line.stand_ins)
        if (may_be_ordered(swap))
            add_members(served, places.members_standing_in(line.answer, swap), counted ? "" : swap.offered_group);
}

// Groups of which every part serves the line by itself.
std::vector<std::string> groups_serving(const ListLine& line) {
    std::vector<std::string> groups;
    for (const auto& option : line.options)
        if (option.only_part.empty() && option.goes_with.empty()) groups.push_back(option.group);
    for (const auto& swap : line.stand_ins)
        if (may_be_ordered(swap)) groups.push_back(swap.offered_group);
    return groups;
}

// Kits whose every part that the list needs is right; the list has checked that. Each thing in them is counted once.
void add_kits(Need& need, const PartsList& list, const Catalog& catalog) {
    for (const auto& kit : list.kits)
        for (const auto& row : catalog.facts().rows("kit_contents", "kit", kit.item))
            if (const std::string group{row.text("group_key")}; among(need.groups, group))
                need.served_by.push_back(
                    {kit.item, row.number("quantity").value_or(1), need.unit == "each" ? "" : group, group});
}

// An item in two specs counts as the first; of a kit two things may serve.
void keep_first(std::vector<Serves>& served) {
    std::set<std::pair<std::string, std::string>> known;
    std::erase_if(served, [&](const Serves& one) {
        return known.contains({one.item, ""}) || !known.emplace(one.item, one.content).second;
    });
}

// What goes in with it, in its own place.
Need need_beside(const GoesWith& one, const Places& places) {
    const auto* role = places.judge().catalog().vocabularies().role(one.role);
    Need need{one.role, one.quantity, "each", {}, 0, role ? role->title : one.role};
    add_members(need.served_by, places.members_beside(one), "");
    return need;
}

}  // namespace

bool among(const std::vector<std::string>& keys, const std::string& key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
}

bool goes_in_new(const ListLine& line) { return line.must_order() && line.reuse == "never"; }

bool wanted(const ListLine& line, const BuyWish& wish) {
    const auto& role = line.answer.role;
    if (among(wish.without, role)) return false;
    if (among(wish.left_in, role) && !goes_in_new(line)) return false;
    return line.must_order() || among(wish.with, role) || among(wish.found_bad, role);
}

bool may_be_ordered(const SwapAnswer& swap) { return swap.verdict == SwapVerdict::yes && swap.also_requires.empty(); }

Need need_of(const ListLine& line, const PartsList& list, const Places& places, const BuyWish& wish) {
    const double reserve = reserve_of(line, wish);
    Need need{line.answer.role, line.quantity_high + reserve, line.answer.unit, {}, reserve, line.answer.title};
    const bool counted = line.answer.unit == "each";
    for (const auto& option : line.options) {
        if (!option.goes_with.empty()) continue;
        const auto& fluid = option.only_part.empty() ? option.group : option.only_part;
        add_members(need.served_by, option.members, counted ? "" : fluid);
    }
    add_stand_ins(need.served_by, line, places, counted);
    need.groups = groups_serving(line);
    for (const auto& group : line.answer.groups)
        if (group.on.any()) need.may_be.push_back(group.key);
    need.least = line.quantity_low;
    add_kits(need, list, places.judge().catalog());
    keep_first(need.served_by);
    return need;
}

std::vector<WithOthers> served_with_others(const ListLine& line, const PartsList& list, const Places& places,
                                           const BuyWish& wish) {
    std::vector<WithOthers> ways;
    for (const auto& part : line.answer.with_others) {
        WithOthers way{part.key, part.stands_in_for.front(), need_of(line, list, places, wish), {}};
        way.need.served_by.clear();
        way.need.groups = {part.key};
        add_members(way.need.served_by, places.members(line.answer, part), "");
        for (const auto& one : part.goes_with) way.others.push_back(need_beside(one, places));
        ways.push_back(std::move(way));
    }
    return ways;
}

}  // namespace casebound
