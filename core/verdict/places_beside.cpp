// What stands in only together with other parts: the filter of the later kind, with its own seal. It fills the place where
// its statements hold and everything that goes with it is right in its own place.
#include <algorithm>
#include <map>

#include "core/verdict/open_worlds.h"
#include "core/verdict/places.h"
#include "core/verdict/ruled_out.h"

namespace casebound {

namespace {

// Where anything at all speaks against a group.
Bits doubtful(const GroupAnswer& group) {
    return group.out_line | group.no_line | group.disagreed_line | group.doubted_line | group.vetoed_line;
}

}  // namespace

// The one place on record that knows the group, else the only place for a thing of its kind; not known: "".
std::string Places::place_of(const Group& group) const {
    auto known = judge_.roles_naming(group.id);
    if (known.empty())
        for (const auto& [name, owned] : judge_.catalog().vocabularies().roles())
            if (owned.word.item_kind == group.kind) known.push_back(name);
    return known.size() == 1 ? known.front() : "";
}

// What goes in beside `place`, and where that is not sure to be right.
std::optional<GoesWith> Places::beside(const RoleAnswer& place, const std::string& key, Bits& against,
                                       std::vector<Leaf>& leaves) const {
    const auto group = judge_.catalog().group(key);
    const auto role = group ? place_of(*group) : "";
    if (role.empty() || role == place.role) return std::nullopt;
    auto own = judge_.role(role);
    if (own.verdict == Verdict::not_answered || own.unit != "each") return std::nullopt;
    weigh(own);
    const auto* named = own.group(key);
    if (!named && own.exact_only) return std::nullopt;
    auto there = named ? *named : judge_.candidate(own, key);
    if (!own.failure.empty()) return std::nullopt;
    against |= doubtful(there);
    if (own.exact_only) against |= judge_.line().set.all() - there.on_line;
    if (own.none_line.size()) against |= own.none_line;
    const GoesWith one{key, role, std::max(1.0, there.quantity_high)};
    if (members_beside(one).empty()) return std::nullopt;
    leaves.insert(leaves.end(), there.leaves.begin(), there.leaves.end());
    return one;
}

std::vector<Member> Places::members_beside(const GoesWith& one) const {
    auto place = judge_.role(one.role);
    weigh(place);
    GroupAnswer group;
    group.id = judge_.catalog().group(one.group)->id;
    group.key = one.group;
    group.on = may_be_true(judge_.narrowing());
    return members(place, group);
}

std::optional<GroupAnswer> Places::with_others(const RoleAnswer& place, const std::string& offered,
                                               const std::vector<const GroupAnswer*>& wanted) const {
    RoleAnswer asked;
    asked.role = place.role;
    asked.domain = place.domain;
    auto part = judge_.candidate(asked, offered);
    if (!asked.failure.empty()) return std::nullopt;
    const auto* own = place.group(offered);
    const auto worlds = may_be_true(judge_.narrowing());
    RuledOut out(judge_, place);
    std::map<std::string, Bits> with;
    Bits against = part.vetoed_line | part.doubted_line;
    if (own) against |= own->sure() | own->disagreed_line | own->doubted_line;  // it is right alone, or in dispute
    for (const auto* group : wanted) {
        if (group->key == offered || !as_stated(interchange_.stand_in(group->key, offered, place.role))) continue;
        auto way = interchange_.reach_together(group->key, offered, group->sure(),
                                               [&](const std::string& one) { return out(one); });
        if (!way.on.meets(worlds)) continue;
        part.on_line |= way.on - group->disagreed_line;
        part.want_as_much(*group);
        part.leaves.insert(part.leaves.end(), group->leaves.begin(), group->leaves.end());
        part.leaves.insert(part.leaves.end(), way.leaves.begin(), way.leaves.end());
        part.stands_in_for.push_back(group->key);
        for (const auto& [key, on] : way.with) with.try_emplace(key, Bits(on.size())).first->second |= on;
    }
    std::erase_if(with, [&](const auto& one) { return !one.second.meets(worlds); });
    for (const auto& [key, on] : with) part.on_line &= on;  // nothing is bought that only some of them need
    const auto& left = judge_.narrowing().left;
    if (with.empty() || !(part.on_line - against).contains(left)) return std::nullopt;
    for (const auto& [key, on] : with) {
        auto one = beside(place, key, against, part.leaves);
        const bool taken = one && std::any_of(part.goes_with.begin(), part.goes_with.end(),
                                              [&](const GoesWith& other) { return other.role == one->role; });
        if (!one || taken) return std::nullopt;
        part.goes_with.push_back(std::move(*one));
    }
    part.on_line -= against;
    part.on = part.on_line & left;
    part.verdict = Verdict::fits;
    if (!part.on_line.contains(left) || members(place, part).empty()) return std::nullopt;
    return part;
}

void Places::add_with_others(RoleAnswer& answer) const {
    if (answer.exact_only || answer.unit != "each") return;
    const auto worlds = may_be_true(judge_.narrowing());
    const auto& graph = interchange_.graph();
    std::vector<const GroupAnswer*> wanted;
    for (const auto& group : answer.groups)
        if (group.stands_in_for.empty() && group.sure().meets(worlds)) wanted.push_back(&group);
    std::vector<std::string> offered;
    for (const auto* group : wanted)
        for (const auto& key : graph.reachable(group->key)) {
            const auto* own = answer.group(key);
            if ((own && own->sure().contains(worlds)) || std::count(offered.begin(), offered.end(), key) > 0) continue;
            offered.push_back(key);
        }
    for (const auto& key : offered)
        if (auto part = with_others(answer, key, wanted))
            if (!answer.plain() || part->on_line.contains(worlds)) answer.with_others.push_back(std::move(*part));
}

}  // namespace casebound
