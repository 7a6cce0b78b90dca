#include "core/verdict/places.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/verdict/open_worlds.h"

namespace casebound {

namespace {

// Where something that counts rules a group out of a place: a statement, or its domain, which is asked of a group that
// nobody recorded there as well. For as long as the place does not change.
class RuledOut {
public:
    RuledOut(const Judge& judge, const RoleAnswer& place) : judge_(judge), place_(place) {}
    const Bits& operator()(const std::string& group) {
        const auto [found, fresh] = known_.try_emplace(group);
        if (fresh) found->second = asked(group);
        return found->second;
    }

private:
    Bits asked(const std::string& group) const {
        for (const auto& one : place_.groups)
            if (one.key == group) return one.denied_line | one.vetoed_line;
        RoleAnswer place;
        place.role = place_.role;
        place.domain = place_.domain;
        const auto vetoed = judge_.candidate(place, group).vetoed_line;
        return place_.none_line.size() ? vetoed | place_.none_line : vetoed;
    }

    const Judge& judge_;
    const RoleAnswer& place_;
    std::map<std::string, Bits> known_;
};

// The groups of the place that something that counts rules out somewhere on `on`.
std::vector<const GroupAnswer*> ruled_out_groups(const RoleAnswer& place, const Bits& on) {
    std::vector<const GroupAnswer*> out;
    for (const auto& group : place.groups)
        if ((group.denied_line | group.vetoed_line).meets(on)) out.push_back(&group);
    return out;
}

bool is_in(const Catalog& catalog, std::string_view item, const GroupAnswer& group) {
    const auto& members = catalog.members(group.id);
    return std::any_of(members.begin(), members.end(), [&](const Member& one) { return one.item == item; });
}

GroupAnswer* find(RoleAnswer& place, std::string_view group) {
    const auto at = std::find_if(place.groups.begin(), place.groups.end(),
                                 [&](const GroupAnswer& one) { return one.key == group; });
    return at == place.groups.end() ? nullptr : &*at;
}

// A group that is recorded for the place fits all that is left: what stands in for it adds nothing.
bool filled(const RoleAnswer& place, const Bits& left) {
    return std::any_of(place.groups.begin(), place.groups.end(), [&](const GroupAnswer& group) {
        return group.on_line.contains(left) && !group.doubted_line.meets(left);
    });
}

}  // namespace

bool outright(const SwapAnswer& swap) {
    const bool goes = swap.verdict == SwapVerdict::yes || swap.verdict == SwapVerdict::yes_if;
    return goes && swap.requirements.empty() && swap.also_requires.empty() && swap.differences.empty() &&
           swap.equal_by.empty();
}

RoleAnswer Places::role(std::string_view role) const { return judged(judge_.role(role)); }

RoleAnswer Places::judged(RoleAnswer answer) const {
    if (answer.verdict == Verdict::not_answered) return answer;
    hold_where_sources_divide(answer);
    hold_where_quantities_differ(answer);
    if (!answer.exact_only && !filled(answer, judge_.narrowing().left)) add_stand_ins(answer);
    doubt_members(answer);
    settle(answer);
    add_hearsay(answer);
    return answer;
}

std::vector<RoleAnswer> Places::roles() const {
    std::vector<RoleAnswer> answers;
    for (auto& answer : judge_.roles()) answers.push_back(judged(std::move(answer)));
    return answers;
}

// A group that stands in outright fills the place where its path holds and nothing rules it out.
void Places::add_stand_ins(RoleAnswer& answer) const {
    const auto& left = judge_.narrowing().left;
    RuledOut out(judge_, answer);
    std::map<std::string, GroupAnswer> derived;
    std::map<std::string, Bits> waiting;  // where every way to it is from what waits itself
    for (const auto& wanted : answer.groups) {
        if (!wanted.on_line.meets(left)) continue;
        for (auto& swap : stand_ins_for(answer, wanted)) {
            if (!outright(swap)) continue;
            const Bits on = interchange_.reach(wanted.key, swap.offered_group, wanted.on_line,
                                               [&](const std::string& g) { return out(g); });
            if (!on.meets(left)) continue;
            auto found = derived.find(swap.offered_group);
            if (found == derived.end())
                found = derived.emplace(swap.offered_group, judge_.candidate(answer, swap.offered_group)).first;
            auto& group = found->second;
            // One way that nothing waits for is enough.
            auto& waits = waiting.try_emplace(swap.offered_group, Bits(left.size())).first->second;
            const Bits sure = (group.on_line - waits) | (on - wanted.doubted_line);
            group.on_line |= on - wanted.disagreed_line - group.vetoed_line;
            waits = (waits | (on & wanted.doubted_line)) - sure;
            group.quantity_low = group.quantity_high == 0 ? wanted.quantity_low
                                                          : std::min(group.quantity_low, wanted.quantity_low);
            group.quantity_high = std::max(group.quantity_high, wanted.quantity_high);
            for (const auto& leaf : wanted.leaves) group.leaves.push_back(leaf);
            for (const auto& leaf : swap.leaves) group.leaves.push_back(leaf);
            group.stands_in_for.push_back(wanted.key);
        }
    }
    for (auto& [key, group] : derived) {
        group.doubted_line |= waiting.at(key);
        if (auto* direct = find(answer, key)) {
            direct->on_line |= group.on_line - group.doubted_line - direct->disagreed_line;
            direct->leaves.insert(direct->leaves.end(), group.leaves.begin(), group.leaves.end());
        } else {
            answer.groups.push_back(std::move(group));
        }
    }
}

// A part is what all of its groups are: where every part of a group is also in one that is ruled out, it waits.
void Places::doubt_members(RoleAnswer& answer) const {
    const auto& left = judge_.narrowing().left;
    const auto others = ruled_out_groups(answer, Bits(left.size(), true));
    if (others.empty()) return;
    for (auto& group : answer.groups) {
        if (!group.on_line.meets(left)) continue;
        Bits all(left.size(), true);
        std::string why;
        bool any = false;
        for (const auto& member : judge_.catalog().members(group.id)) {
            if (!member.withdrawn.empty() || member.basis == Basis::claimed) continue;
            Bits against(left.size());
            for (const auto* other : others) {
                if (other == &group || !is_in(judge_.catalog(), member.item, *other)) continue;
                const Bits out = (other->denied_line | other->vetoed_line) - group.denied_line;
                if (out.meets(group.on_line & left))
                    why = fmt::format("{} is also in {}, which does not fit here", member.item, other->key);
                against |= out;
            }
            all &= against;
            any = true;
        }
        const Bits doubt = all & group.on_line;
        if (!any || !doubt.meets(left)) continue;
        group.doubted_line |= doubt;
        group.against.push_back(Leaf(why, SourceNote{Evidence::measured, "computed from the part's groups", {}}));
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
    if (std::any_of(answer.groups.begin(), answer.groups.end(), in_all))
        for (auto& group : answer.groups)
            if (group.verdict == Verdict::fits && !in_all(group)) group.verdict = Verdict::check_first;
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
        const Bits out = group->denied_line | group->vetoed_line;
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
    const auto others = ruled_out_groups(place, group.on);
    std::vector<Member> may;
    for (const auto& member : judge_.catalog().members(group.id)) {
        if (!member.withdrawn.empty() || member.basis == Basis::claimed) continue;
        const bool out = std::any_of(others.begin(), others.end(), [&](const GroupAnswer* other) {
            return other->key != group.key && is_in(judge_.catalog(), member.item, *other);
        });
        if (!out) may.push_back(member);
    }
    return may;
}

}  // namespace casebound
