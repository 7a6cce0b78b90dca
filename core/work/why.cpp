#include "core/work/why.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/shown.h"
#include "core/say/in_words.h"
#include "core/say/report.h"

namespace casebound {

namespace {

// What stands between an item and its group.
std::string lowered_by(const Catalog& catalog, const std::string& item, const GroupAnswer& group) {
    for (const auto& member : catalog.members(group.id)) {
        if (member.item != item) continue;
        if (!member.withdrawn.empty()) return fmt::format("withdrawn: {}", member.withdrawn);
        if (member.basis == Basis::claimed)
            return fmt::format(
                "only its seller says it is {} [{}]: ask for the spec owner's or the unit maker's approval", group.key,
                source_text(member.origin));
    }
    return "";
}

// The row that puts an item in its group.
std::optional<Leaf> membership(const Catalog& catalog, const std::string& item, const GroupAnswer& group) {
    for (const auto& member : catalog.members(group.id))
        if (member.item == item)
            return Leaf(fmt::format("{} is a {}", item, named(group.title, group.key)), member.origin);
    return std::nullopt;
}

// A part is what all of its groups are: one that is ruled out in the place rules it out.
void lower_by_other_groups(Why& why, const Places& places, const RoleAnswer& role, const std::string& item) {
    if (!why.member || !why.lowered.empty() || why.group->verdict == Verdict::does_not_fit) return;
    const auto other = places.ruled_out_by(role, *why.group, item);
    if (!other.group.empty())
        why.lowered = fmt::format("it is also in {}, which does not fit {}", other.group,
                                  other.on.contains(places.judge().narrowing().left) ? "here" : "some of what is left");
}

// A kit is as good as the worst part in it.
std::vector<std::string> kit_groups(const Catalog& catalog, const std::string& item) {
    std::vector<std::string> groups;
    for (const auto& row : catalog.facts().rows("kit_contents", "kit", item))
        groups.emplace_back(row.text("group_key"));
    return groups;
}

}  // namespace

RoleAnswer with_deciding(RoleAnswer answer, const Situation& situation) {
    if (answer.verdict == Verdict::check_first)
        answer.deciding = settling_attributes(situation.model().set, situation.narrowing().left, open_line(answer),
                                              situation.narrowing().not_asked());
    return answer;
}

std::string would_fit(const Situation& situation, const RoleAnswer& role, const GroupAnswer& group) {
    const auto& set = situation.model().set;
    if (group.on_line.none()) return "";
    const auto text = pieces_text(describe_in_pieces(set, group.on_line, set.all(), role.speaks_of()));
    return text.empty() ? "every version built" : text;
}

std::vector<Why> whys(const Catalog& catalog, const Situation& situation, const std::string& item,
                      const std::vector<RoleAnswer>& roles, const std::vector<std::string>& groups) {
    std::vector<Why> found;
    for (auto& role : roles) {
        for (const auto& part : role.parts)
            if (part.only_part == item)
                found.push_back({with_deciding(role, situation), &part, "", membership(catalog, item, part)});
        for (const auto& group : role.with_others)
            if (!role.plain() && std::find(groups.begin(), groups.end(), group.key) != groups.end())
                found.push_back({with_deciding(role, situation), &group,
                                 "right only" + with_words(situation, group.goes_with).substr(1),
                                 membership(catalog, item, group)});
        for (const auto& group : role.groups)
            if (std::find(groups.begin(), groups.end(), group.key) != groups.end()) {
                found.push_back({with_deciding(role, situation), &group, lowered_by(catalog, item, group),
                                 membership(catalog, item, group)});
                lower_by_other_groups(found.back(), situation.places(), role, item);
            }
    }
    return found;
}

ItemGroups groups_asked(const Catalog& catalog, const std::string& item) {
    const auto in_kit = kit_groups(catalog, item);
    ItemGroups asked{in_kit.empty() ? catalog.groups_of(item) : in_kit, !in_kit.empty()};
    if (catalog.group(item)) asked.groups.push_back(item);
    if (asked.groups.empty() && !catalog.item(item)) {
        const auto near = catalog.near(item, "items");
        throw Error(Exit::usage, fmt::format("{}: neither an item nor a group in the catalog{}", item,
                                             near.empty() ? ": see `casebound pack list` for what is loaded"
                                                          : fmt::format(": did you mean {}?", near.front())));
    }
    return asked;
}

std::vector<StandIn> stand_ins_of(const Places& places, const std::string& item, const std::vector<RoleAnswer>& roles) {
    std::vector<StandIn> found;
    for (const auto& role : roles) {
        const auto* best = role.best();
        if (!best || !best->goes_with.empty() || role.exact_only) continue;
        auto answer = places.swap(best->key, item);
        if (answer.verdict == SwapVerdict::not_recorded ||
            (answer.verdict == SwapVerdict::no && answer.path.empty() && answer.leaves.empty()))
            continue;
        found.push_back({role.title, best->key, std::move(answer)});
    }
    return found;
}

SwapAnswer swap_on(Session& session, const Situation* vehicle, const std::string& wanted, const std::string& offered) {
    if (vehicle) return vehicle->places().swap(wanted, offered);
    return Interchange(session.catalog(), session.plugins(), session.engine()).swap(wanted, offered);
}

}  // namespace casebound
