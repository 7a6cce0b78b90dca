#include "core/verdict/places.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/verdict/open_worlds.h"
#include "core/verdict/ruled_out.h"

namespace casebound {

namespace {

bool counts(const Member& member) { return member.withdrawn.empty() && member.basis != Basis::claimed; }

template <class Rows> void append(Rows& rows, const Rows& more) { rows.insert(rows.end(), more.begin(), more.end()); }

void join(GroupAnswer& part, const GroupAnswer& group) {
    part.on_line |= group.sure();
    part.by_groups.push_back(group.key);
    part.want_as_much(group);
    append(part.leaves, group.leaves);
    append(part.cautions, group.cautions);
    append(part.notes, group.notes);
    append(part.questions, group.questions);
    append(part.companions, group.companions);
    append(part.stands_in_for, group.stands_in_for);
    if (!part.never_again) part.never_again = group.never_again;
}

GroupAnswer* find(RoleAnswer& place, std::string_view group) {
    const auto at = std::find_if(place.groups.begin(), place.groups.end(),
                                 [&](const GroupAnswer& one) { return one.key == group; });
    return at == place.groups.end() ? nullptr : &*at;
}

// Every group that is recorded for the place on any of these is right on all of them: what stands in adds nothing.
bool filled(const RoleAnswer& place, const Bits& worlds) {
    bool any = false;
    for (const auto& group : place.groups) {
        if (!group.on_line.meets(worlds)) continue;
        if (!group.on_line.contains(worlds)) return false;
        any |= !group.doubted_line.meets(worlds);
    }
    return any;
}

}  // namespace

bool as_stated(const SwapAnswer& swap) {
    const bool goes = swap.verdict == SwapVerdict::yes || swap.verdict == SwapVerdict::yes_if;
    return goes && swap.requirements.empty() && swap.differences.empty() && swap.equal_by.empty();
}

bool outright(const SwapAnswer& swap) { return as_stated(swap) && swap.also_requires.empty(); }

RoleAnswer Places::role(std::string_view role) const { return judged(judge_.role(role)); }

RoleAnswer Places::judged(RoleAnswer answer) const {
    if (answer.verdict == Verdict::not_answered) return answer;
    weigh(answer);
    if (!filled(answer, may_be_true(judge_.narrowing()))) add_with_others(answer);
    settle(answer);
    add_hearsay(answer);
    return answer;
}

// By what is said of the place alone, whatever goes in beside it.
void Places::weigh(RoleAnswer& answer) const {
    hold_where_sources_divide(answer);
    hold_where_quantities_differ(answer);
    if (!answer.exact_only && !filled(answer, may_be_true(judge_.narrowing()))) add_stand_ins(answer);
    doubt_members(answer);
    add_parts_of_several(answer);
}

std::vector<RoleAnswer> Places::roles() const {
    std::vector<RoleAnswer> answers;
    for (auto& answer : judge_.roles()) answers.push_back(judged(std::move(answer)));
    return answers;
}

// A group that stands in outright fills the place where its path holds and nothing rules it out.
void Places::add_stand_ins(RoleAnswer& answer) const {
    const auto worlds = may_be_true(judge_.narrowing());
    RuledOut out(judge_, answer);
    std::map<std::string, GroupAnswer> derived;
    std::map<std::string, Bits> waiting;  // where every way to it is from what waits itself
    for (const auto& wanted : answer.groups) {
        if (!wanted.on_line.meets(worlds)) continue;
        for (auto& swap : stand_ins_for(answer, wanted)) {
            if (!as_stated(swap)) continue;  // where it asks for others, by ways that do not
            const Bits on = interchange_.reach(wanted.key, swap.offered_group, wanted.on_line,
                                               [&](const std::string& g) { return out(g); });
            if (!on.meets(worlds)) continue;
            auto found = derived.find(swap.offered_group);
            if (found == derived.end())
                found = derived.emplace(swap.offered_group, judge_.candidate(answer, swap.offered_group)).first;
            auto& group = found->second;
            // One way that nothing waits for is enough.
            auto& waits = waiting.try_emplace(swap.offered_group, Bits(worlds.size())).first->second;
            const Bits sure = (group.on_line - waits) | (on - wanted.doubted_line);
            group.on_line |= on - wanted.disagreed_line - group.vetoed_line;
            waits = (waits | (on & wanted.doubted_line)) - sure;
            group.want_as_much(wanted);
            for (const auto& leaf : wanted.leaves) group.leaves.push_back(leaf);
            for (const auto& leaf : swap.leaves) group.leaves.push_back(leaf);
            group.stands_in_for.push_back(wanted.key);
        }
    }
    for (auto& [key, group] : derived) {
        group.doubted_line |= waiting.at(key);
        if (auto* direct = find(answer, key)) {
            direct->on_line |= group.sure() - direct->disagreed_line;
            direct->leaves.insert(direct->leaves.end(), group.leaves.begin(), group.leaves.end());
            direct->want_as_much(group);
        } else {
            answer.groups.push_back(std::move(group));
        }
    }
}

// A part is what all of its groups are: where every part of a group is also in one that is ruled out, it waits.
void Places::doubt_members(RoleAnswer& answer) const {
    const auto worlds = may_be_true_by_what_is_firm(judge_.narrowing());
    RuledOut out(judge_, answer);
    for (auto& group : answer.groups) {
        if (!group.on_line.meets(worlds)) continue;
        Bits all(worlds.size(), true);
        std::string why;
        bool any = false;
        for (const auto& member : judge_.catalog().members(group.id)) {
            if (!counts(member)) continue;
            const Bits against = out.by_others(member, group.key) - group.denied_line;
            if (against.meets(group.on_line & worlds)) why = member.item;
            all &= against;
            any = true;
            if (all.none()) break;
        }
        const Bits doubt = all & group.on_line;
        if (!any || !doubt.meets(worlds)) continue;
        group.doubted_line |= doubt;
        if (!doubt.meets(judge_.narrowing().left)) continue;
        group.on = group.on_line & judge_.narrowing().left;
        why = fmt::format("{} is also in {}, which does not fit here", why, ruled_out_by(answer, group, why).group);
        group.against.push_back(Leaf(why, SourceNote{Evidence::measured, "computed from the part's groups", {}}));
    }
}

// A part of several groups may be right in all that may be true although none of them is: by one of them here, by
// another there.
void Places::add_parts_of_several(RoleAnswer& answer) const {
    const auto worlds = may_be_true(judge_.narrowing());
    std::map<std::string, std::vector<std::size_t>> by_part;
    for (std::size_t i = 0; i < answer.groups.size(); ++i) {
        const Bits sure = answer.groups[i].sure();
        if (!sure.meets(worlds) || sure.contains(worlds)) continue;
        for (const auto& member : judge_.catalog().members(answer.groups[i].id))
            if (member.in_several && counts(member)) by_part[member.item].push_back(i);
    }
    RuledOut out(judge_, answer);
    for (const auto& [item, at] : by_part) {
        if (at.size() < 2) continue;
        GroupAnswer part = answer.groups[at.front()];
        part.only_part = item;
        part.on_line = part.sure();
        part.doubted_line = part.disagreed_line = Bits(worlds.size());
        part.by_groups = {part.key};
        for (std::size_t i = 1; i < at.size(); ++i) join(part, answer.groups[at[i]]);
        for (const auto& group : judge_.catalog().groups_of(item)) part.on_line -= out.against(group);
        part.on = part.on_line & judge_.narrowing().left;
        part.verdict = Verdict::fits;
        if (part.on_line.contains(worlds)) answer.parts.push_back(std::move(part));
    }
}

void Places::settle(RoleAnswer& answer) const {
    const auto& left = judge_.narrowing().left;
    for (auto& group : answer.groups) {
        group.on = group.on_line & left;
        const bool doubted = group.doubted_line.meets(left);
        if (group.on == left) group.verdict = doubted ? Verdict::check_first : Verdict::fits;
        else if (group.on.any()) group.verdict = Verdict::check_first;
        else group.verdict = group.disagreed_line.meets(left) ? Verdict::sources_disagree : Verdict::does_not_fit;
        answer.blank -= group.on_line;
    }
    answer.verdict = answer.verdict_on(left);
    // Of several that fit, what would be wrong in a world that a doubt allows is not ordered.
    const auto all = may_be_true(judge_.narrowing());
    const auto in_all = [&](const GroupAnswer& group) {
        return group.verdict == Verdict::fits && group.on_line.contains(all) && !group.doubted_line.meets(all);
    };
    const auto with_others_in_all = [&](const GroupAnswer& group) { return group.on_line.contains(all); };
    const auto &groups = answer.groups, &others = answer.with_others;
    if (!answer.parts.empty() || std::any_of(groups.begin(), groups.end(), in_all) ||
        std::any_of(others.begin(), others.end(), with_others_in_all)) {
        for (auto& group : answer.groups)
            if (group.verdict == Verdict::fits && !in_all(group)) group.verdict = Verdict::check_first;
        std::erase_if(answer.with_others, [&](const GroupAnswer& group) { return !with_others_in_all(group); });
    }
    judge_.grade(answer);
}

std::vector<SwapAnswer> Places::stand_ins_for(const RoleAnswer& place, const GroupAnswer& wanted) const {
    const auto left = may_be_true(judge_.narrowing());
    RuledOut ruled_out(judge_, place);
    const auto out = [&](const std::string& group) { return ruled_out(group); };
    std::vector<SwapAnswer> answers;
    for (auto& swap : interchange_.stand_ins_for(wanted.key, place.role)) {
        if (out(swap.offered_group).contains(left)) continue;
        Bits on = interchange_.reach(wanted.key, swap.offered_group, left, out);
        for (const auto& one : place.groups)
            if (one.key == swap.offered_group) on -= one.disagreed_line;
        if (outright(swap) && on.none()) continue;
        // What its domain says of it in this place, as of what is recorded there.
        RoleAnswer asked;
        asked.role = place.role;
        asked.domain = place.domain;
        const auto own = judge_.candidate(asked, swap.offered_group);
        if (!asked.failure.empty() || own.vetoed_line.contains(left)) continue;
        const bool objected = (own.vetoed_line | own.doubted_line).meets(left);
        if (objected)
            for (const auto& leaf : own.against) swap.reasons.push_back(leaf.text());
        if (swap.verdict == SwapVerdict::yes && objected) {
            swap.verdict = SwapVerdict::yes_if;
            swap.requirements.push_back("what its domain objects to is looked at first");
        } else if (swap.verdict == SwapVerdict::yes && outright(swap) && !on.contains(left)) {
            swap.verdict = SwapVerdict::yes_if;
            swap.reasons.push_back("it, or a part on the way to it, is recorded as not fitting some of what is left");
        }
        answers.push_back(std::move(swap));
    }
    return answers;
}

SwapAnswer Places::swap(const std::string& wanted, const std::string& offered) const {
    auto answer = interchange_.swap(wanted, offered);
    const bool goes = answer.verdict == SwapVerdict::yes || answer.verdict == SwapVerdict::yes_if ||
                      answer.verdict == SwapVerdict::differs || answer.verdict == SwapVerdict::claimed_only;
    if (!goes) return answer;
    const auto& left = judge_.narrowing().left;
    for (const auto& name : judge_.roles_on_record()) {
        auto place = role(name);
        RuledOut ruled_out(judge_, place);
        const auto* in_place = find(place, answer.wanted_group);
        if (in_place && in_place->on_line.none() && in_place->disagreed_line.none()) in_place = nullptr;  // only denied
        if (in_place && outright(answer) && answer.wanted_group != answer.offered_group &&
            interchange_
                .reach(answer.wanted_group, answer.offered_group, left,
                       [&](const std::string& group) { return ruled_out(group); })
                .none()) {
            answer.verdict = SwapVerdict::not_recorded;
            answer.reasons = {fmt::format("every way from {} to {} goes over a part that does not fit {} as {}",
                                          answer.wanted_group, answer.offered_group, judge_.view().name(),
                                          place.title)};
        }
        if (in_place && answer.verdict == SwapVerdict::yes && answer.wanted_group != answer.offered_group) {
            const auto here = stand_ins_for(place, *in_place);
            if (std::none_of(here.begin(), here.end(), [&](const SwapAnswer& one) {
                    return one.offered_group == answer.offered_group && one.verdict == SwapVerdict::yes;
                })) {
                answer.verdict = SwapVerdict::yes_if;
                answer.reasons.push_back(
                    fmt::format("something speaks against {} as {}: see `why`", answer.offered_group, place.title));
            }
        }
        const auto* group = find(place, answer.offered_group);
        if (!group || (!in_place && answer.wanted_group != answer.offered_group)) continue;
        const Bits& out = group->out_line;
        if (!out.meets(left)) continue;
        answer.leaves.insert(answer.leaves.end(), group->against.begin(), group->against.end());
        if (out.contains(left)) {
            answer.verdict = SwapVerdict::no;
            answer.reasons.insert(answer.reasons.begin(), fmt::format("{} does not fit {} as {}", answer.offered_group,
                                                                      judge_.view().name(), place.title));
        } else if (answer.verdict == SwapVerdict::yes) {
            answer.verdict = SwapVerdict::yes_if;
            answer.reasons.push_back(fmt::format("{} does not fit some of what {} may still be, as {}",
                                                 answer.offered_group, judge_.view().name(), place.title));
        }
    }
    return answer;
}

std::vector<Member> Places::members(const RoleAnswer& place, const GroupAnswer& group) const {
    RuledOut out(judge_, place);
    const Bits on = group.goes_with.empty() ? group.on : may_be_true(judge_.narrowing());
    std::vector<Member> may;
    for (const auto& member : judge_.catalog().members(group.id)) {
        if (!counts(member) || (!group.only_part.empty() && member.item != group.only_part)) continue;
        if (!group.only_part.empty()) may.push_back(weakest_membership(member, group.by_groups));
        else if (!out.by_others(member, group.key).meets(on)) may.push_back(member);
    }
    return may;
}

std::vector<Member> Places::members_standing_in(const RoleAnswer& place, const SwapAnswer& swap) const {
    const auto known = judge_.catalog().group(swap.offered_group);
    if (!known) return {};
    GroupAnswer group;
    group.id = known->id;
    group.key = known->key;
    group.on = judge_.narrowing().left;
    return members(place, group);
}

Bits Places::ruled_out_by_others(const RoleAnswer& place, const GroupAnswer& group, const Member& part) const {
    return RuledOut(judge_, place).by_others(part, group.key);
}

Bits Places::reach_there(const RoleAnswer& place, const GroupAnswer& wanted, const std::string& offered) const {
    RuledOut out(judge_, place);
    return interchange_.reach(wanted.key, offered, wanted.on_line,
                              [&](const std::string& group) { return out(group); });
}

Places::ByGroup Places::ruled_out_by(const RoleAnswer& place, const GroupAnswer& group, const std::string& part) const {
    RuledOut out(judge_, place);
    for (const auto& key : judge_.catalog().groups_of(part)) {
        const Bits on = key == group.key ? Bits(group.on.size()) : out.against(key) - group.denied_line;
        if (on.meets(group.on)) return {key, on};
    }
    return {};
}

// As a member of each of these groups, on the weakest of what says so.
Member Places::weakest_membership(Member member, const std::vector<std::string>& groups) const {
    for (const auto& key : groups)
        for (const auto& other : judge_.catalog().members(*judge_.catalog().id_of(key)))
            if (other.item == member.item && other.origin.evidence > member.origin.evidence)
                member.origin = other.origin;
    return member;
}

}  // namespace casebound
