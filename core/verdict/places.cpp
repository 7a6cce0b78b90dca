#include "core/verdict/places.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ground/units.h"

namespace casebound {

namespace {

// Where something that counts rules a group out of the place.
Bits ruled_out(const RoleAnswer& place, std::string_view group, std::size_t size) {
    for (const auto& one : place.groups)
        if (one.key == group) return one.denied_line | one.vetoed_line;
    return place.none_line.size() ? place.none_line : Bits(size);
}

GroupAnswer* find(RoleAnswer& place, std::string_view group) {
    const auto at = std::find_if(place.groups.begin(), place.groups.end(),
                                 [&](const GroupAnswer& one) { return one.key == group; });
    return at == place.groups.end() ? nullptr : &*at;
}

// A stand-in that may be taken without a word more than the vehicle says.
bool outright(const SwapAnswer& swap) {
    const bool goes = swap.verdict == SwapVerdict::yes || swap.verdict == SwapVerdict::yes_if;
    return goes && swap.requirements.empty() && swap.also_requires.empty() && swap.differences.empty() &&
           swap.equal_by.empty();
}

// What one source says of the place: each of its groups, and where.
using Division = std::map<std::int64_t, Bits>;

// A source divides the place when it gives one group here and another there, never both.
bool divides(const Division& says) {
    for (auto a = says.begin(); a != says.end(); ++a)
        for (auto b = std::next(a); b != says.end(); ++b)
            if (!a->second.meets(b->second)) return true;
    return false;
}

// A group that is recorded for the place fits all that is left: what stands in for it adds nothing.
bool filled(const RoleAnswer& place, const Bits& left) {
    return std::any_of(place.groups.begin(), place.groups.end(), [&](const GroupAnswer& group) {
        return group.on_line.contains(left) && !group.doubted_line.meets(left);
    });
}

std::size_t shared(const Bits& a, const Bits& b) { return (a & b).count(); }

// Is each of these parts of two divisions the other's likeliest counterpart? Then both sources put what is in them on
// one side, whatever they call what goes there.
bool one_side(const Division& one, std::int64_t group, const Division& other, std::int64_t other_group) {
    const auto &part = one.at(group), &counterpart = other.at(other_group);
    const auto most = shared(part, counterpart);
    const auto likeliest = [&](const Bits& of, const Division& among, std::int64_t but) {
        return std::all_of(among.begin(), among.end(),
                           [&](const auto& rest) { return rest.first == but || shared(of, rest.second) < most; });
    };
    return likeliest(part, other, other_group) && likeliest(counterpart, one, group);
}

// What is left, and what open doubts allow beside it.
Bits may_be_true(const Narrowing& narrowing) {
    Bits open = narrowing.left;
    for (const auto& doubt : narrowing.doubts) open |= doubt.worlds;
    return open;
}

Division within(const Division& says, const Bits& on) {
    Division part;
    for (const auto& [group, where] : says)
        if (where.meets(on)) part.emplace(group, where & on);
    return part;
}

}  // namespace

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

// What is ordered on `left` is right on all of `more`, too.
static bool stays(const RoleAnswer& answer, const Bits& left, const Bits& more) {
    if (answer.verdict != answer.verdict_on(more)) return false;
    if (answer.verdict == Verdict::none_needed) return answer.none_line.contains(more);
    return std::all_of(answer.groups.begin(), answer.groups.end(), [&](const GroupAnswer& group) {
        const bool ordered = group.verdict == Verdict::fits && group.on_line.contains(left);
        return !ordered || !group.stands_in_for.empty() ||
               (group.on_line.contains(more) && !group.doubted_line.meets(more));
    });
}

// The told facts that nobody here has measured or read and that the answer would not stand without, those too that
// only rule out what else might be ordered.
void Places::add_hearsay(RoleAnswer& answer) const {
    if (answer.verdict != Verdict::fits && answer.verdict != Verdict::none_needed) return;
    const auto& narrowing = judge_.narrowing();
    std::vector<const ToldFact*> firm, kept;
    for (const auto& fact : narrowing.facts)
        if (fact.applies) (is_hearsay(fact.evidence) ? kept : firm).push_back(&fact);
    if (kept.empty()) return;
    const auto without = [&](std::size_t at) {
        auto some = firm;
        for (std::size_t i = 0; i < kept.size(); ++i)
            if (i != at) some.push_back(kept[i]);
        return narrowing.left_by(some);
    };
    for (std::size_t i = 0; i < kept.size();) {
        if (stays(answer, narrowing.left, without(i))) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
        else ++i;
    }
    for (const auto* fact : kept) {
        const bool said = std::any_of(answer.told.begin(), answer.told.end(),
                                      [&](const Leaf& leaf) { return leaf.text() == fact->said(); });
        if (said) continue;
        Leaf told(fact->said(),
                  SourceNote{evidence_of(fact->evidence), std::string(tell_evidence_words(fact->evidence)), {}});
        told.told = true;
        answer.told.push_back(std::move(told));
        answer.weakest = weaker(answer.weakest, evidence_of(fact->evidence));
    }
}

std::vector<const ToldFact*> Places::hearsay_against(const Bits& on) const {
    const auto& narrowing = judge_.narrowing();
    std::vector<const ToldFact*> firm, kept;
    for (const auto& fact : narrowing.facts)
        if (fact.applies) (is_hearsay(fact.evidence) ? kept : firm).push_back(&fact);
    if (!on.meets(narrowing.left_by(firm))) return {};
    for (std::size_t i = 0; i < kept.size();) {
        auto some = firm;
        for (std::size_t j = 0; j < kept.size(); ++j)
            if (j != i) some.push_back(kept[j]);
        if (!on.meets(narrowing.left_by(some))) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
        else ++i;
    }
    return kept;
}

std::vector<const ToldFact*> Places::hearsay_behind(const GroupAnswer& wanted, const SwapAnswer& swap) const {
    const Bits on = interchange_.reach(wanted.key, swap.offered_group, wanted.on_line,
                                       [&](const std::string&) { return Bits(wanted.on_line.size()); });
    return hearsay_against(wanted.on_line - on);
}

std::vector<HeldOrder> Places::doubts(const RoleAnswer& place) const {
    std::vector<HeldOrder> held;
    const auto& narrowing = judge_.narrowing();
    for (const auto& doubt : narrowing.doubts) {
        if (stays(place, narrowing.left, doubt.worlds)) continue;
        Hold hold;
        hold.roles = {place.role};
        hold.reason = doubt.reason;
        hold.source = doubt.source;
        hold.until = doubt.until;
        hold.attributes = {doubt.attribute};
        held.push_back({"", std::move(hold)});
    }
    return held;
}

// Two groups on one configuration. Where no source tells them apart on this line, both fit. Where sources do, a group
// of theirs that another of them puts elsewhere is held, and a group of a source that is blind to the division, for it
// gives the group on both sides, waits until it is shown equal.
void Places::hold_where_sources_divide(RoleAnswer& answer) const {
    const auto left = may_be_true(judge_.narrowing());
    const auto overlap = [&] {
        for (std::size_t i = 0; i < answer.groups.size(); ++i)
            for (std::size_t j = i + 1; j < answer.groups.size(); ++j)
                if ((answer.groups[i].on_line & left)
                        .meets(answer.groups[j].on_line | answer.groups[j].disagreed_line) ||
                    (answer.groups[j].on_line & left).meets(answer.groups[i].disagreed_line))
                    return true;
        return false;
    };
    if (answer.groups.size() < 2 || !overlap()) return;
    hold_where_excluded(answer);
    std::map<std::int64_t, Division> by_source;
    std::map<std::int64_t, std::vector<const ApplicationRow*>> rows;
    const auto claims = judge_.claims(answer);
    const bool firm = std::any_of(claims.begin(), claims.end(), [](const Claim& claim) {
        return claim.row->says == Says::fits && claim.evidence != Evidence::memory;
    });
    for (const auto& claim : claims) {
        if (claim.row->says != Says::fits || (firm && claim.evidence == Evidence::memory)) continue;
        auto& on = by_source[claim.row->source].try_emplace(claim.row->group, Bits(left.size())).first->second;
        on |= holds(claim, claims);
        rows[claim.row->group].push_back(claim.row);
    }
    std::erase_if(by_source, [](const auto& one) { return !divides(one.second); });
    if (by_source.empty()) return;
    const Bits nowhere(left.size());
    const auto one_way = [&](const GroupAnswer& wanted, const GroupAnswer& offered) {
        return outright(interchange_.stand_in(wanted.key, offered.key, answer.role))
                   ? interchange_.reach(wanted.key, offered.key, Bits(left.size(), true),
                                        [&](const std::string&) { return nowhere; })
                   : nowhere;
    };
    std::map<std::pair<std::size_t, std::size_t>, Bits> known;
    const auto equal = [&](std::size_t i, std::size_t j, std::size_t c) {
        const auto [low, high] = std::minmax(i, j);
        const auto [at, fresh] = known.try_emplace({low, high});
        if (fresh)
            at->second = one_way(answer.groups[low], answer.groups[high]) |
                         one_way(answer.groups[high], answer.groups[low]);
        return at->second.test(c);
    };
    const auto of_one_mind = [&](std::int64_t group, const Division& other, std::int64_t other_group, std::size_t c) {
        return std::any_of(by_source.begin(), by_source.end(), [&](const auto& source) {
            const auto own = source.second.find(group);
            return own != source.second.end() && own->second.test(c) &&
                   one_side(source.second, group, other, other_group);
        });
    };
    std::vector<Bits> against(answer.groups.size(), Bits(left.size())), blind = against;
    left.for_each([&](std::size_t c) {
        std::vector<std::size_t> here;
        for (std::size_t i = 0; i < answer.groups.size(); ++i)
            if ((answer.groups[i].on_line | answer.groups[i].disagreed_line).test(c)) here.push_back(i);
        if (here.size() < 2) return;
        for (const auto i : here) {
            if (!answer.groups[i].on_line.test(c)) continue;
            const auto id = answer.groups[i].id;
            bool named = false, elsewhere = false, unseeing = false;
            for (const auto& [source, says] : by_source) {
                const auto own = says.find(id);
                if (own != says.end() && own->second.test(c)) {
                    named = true;
                    continue;
                }
                // This source gives another group here, and this one, if it knows it, only elsewhere.
                for (const auto j : here) {
                    const auto other = says.find(answer.groups[j].id);
                    if (j == i || other == says.end() || !other->second.test(c) || equal(i, j, c)) continue;
                    elsewhere |= !of_one_mind(id, says, other->first, c);
                    unseeing |= divides(within(says, answer.groups[i].on_line | answer.groups[i].disagreed_line));
                }
            }
            if (named && elsewhere) against[i].set(c);
            if (!named && unseeing) blind[i].set(c);
        }
    });
    for (std::size_t i = 0; i < answer.groups.size(); ++i) {
        auto& group = answer.groups[i];
        group.on_line -= against[i];
        group.disagreed_line |= against[i];
        group.doubted_line |= blind[i];
        if (against[i].any())
            for (const auto& [other, on] : rows)
                if (other != group.id)
                    for (const auto* row : on)
                        if (row->on->meets(against[i])) group.against.push_back({judge_.catalog(), *row});
        if (blind[i].any())
            group.against.push_back(
                Leaf("other sources tell parts apart here, and this one does not: show that it is "
                     "equal before it is ordered",
                     SourceNote{Evidence::measured, "computed from what the sources say", {}}));
    }
}

// Two groups that a source says do not replace each other cannot both be right on one configuration.
void Places::hold_where_excluded(RoleAnswer& answer) const {
    std::vector<Bits> said;  // by all the statements, whichever pair is met first
    for (const auto& group : answer.groups) said.push_back(group.on_line);
    for (std::size_t i = 0; i < answer.groups.size(); ++i)
        for (std::size_t j = i + 1; j < answer.groups.size(); ++j) {
            auto &a = answer.groups[i], &b = answer.groups[j];
            const Bits both = said[i] & said[j];
            if (!both.meets(may_be_true(judge_.narrowing()))) continue;
            std::vector<Edge> statements;
            if (!interchange_.graph().excluded(a.key, b.key, &statements)) continue;
            for (auto* group : {&a, &b}) {
                group->on_line -= both;
                group->disagreed_line |= both;
                for (const auto& edge : statements)
                    group->against.push_back(
                        Leaf(fmt::format("{} {} {}", edge.offered, relation_words(edge.relation), edge.wanted),
                             edge.origin));
            }
        }
}

// Beyond this share two quantities for one place are two statements (common practice, no source).
constexpr double same_quantity_share = 0.1;

// Two sources that want different quantities for the place on one configuration disagree about both groups; nothing is
// ordered by the larger. What is remembered contradicts nothing firmer.
void Places::hold_where_quantities_differ(RoleAnswer& answer) const {
    const auto left = may_be_true(judge_.narrowing());
    const auto claims = judge_.claims(answer);
    const auto group_of = [&](const Claim& claim) {
        return std::find_if(answer.groups.begin(), answer.groups.end(),
                            [&](const GroupAnswer& one) { return one.id == claim.row->group; });
    };
    const auto differ = [](const Claim& a, const Claim& b) {
        const bool memory_alone = (a.evidence == Evidence::memory) != (b.evidence == Evidence::memory);
        return a.row->says == Says::fits && b.row->says == Says::fits && a.row->source != b.row->source &&
               a.row->quantity_stated && b.row->quantity_stated && !memory_alone &&
               b.row->quantity > a.row->quantity * (1 + same_quantity_share);
    };
    std::map<std::int64_t, Bits> disputed;
    for (const auto& a : claims)
        for (const auto& b : claims) {
            if (!differ(a, b)) continue;
            const auto of_a = group_of(a), of_b = group_of(b);
            if (of_a == answer.groups.end() || of_b == answer.groups.end()) continue;
            const Bits both = holds(a, claims) & holds(b, claims) & of_a->on_line & of_b->on_line;
            if (!both.meets(left)) continue;
            const Leaf because(fmt::format("{} wanted by one source, {} by another", plain_number(a.row->quantity),
                                           plain_number(b.row->quantity)),
                               judge_.catalog().origin(b.row->origin, "applications", b.row->source));
            for (const auto id : std::set{a.row->group, b.row->group})
                disputed.try_emplace(id, Bits(left.size())).first->second |= both;
            of_a->against.push_back(because);
            if (of_b != of_a) of_b->against.push_back(because);
        }
    for (auto& group : answer.groups)
        if (const auto found = disputed.find(group.id); found != disputed.end()) {
            group.on_line -= found->second;
            group.disagreed_line |= found->second;
        }
}

// A group that stands in outright fills the place where its path holds and nothing rules it out.
void Places::add_stand_ins(RoleAnswer& answer) const {
    const auto& left = judge_.narrowing().left;
    std::map<std::string, GroupAnswer> derived;
    std::map<std::string, Bits> waiting;  // where every way to it is from what waits itself
    for (const auto& wanted : answer.groups) {
        if (!wanted.on_line.meets(left)) continue;
        for (auto& swap : stand_ins_for(answer, wanted)) {
            if (!outright(swap)) continue;
            const Bits on = interchange_.reach(wanted.key, swap.offered_group, wanted.on_line,
                                               [&](const std::string& g) { return ruled_out(answer, g, left.size()); });
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
    for (auto& group : answer.groups) {
        if (!group.on_line.meets(left)) continue;
        Bits all(left.size(), true);
        std::string why;
        bool any = false;
        for (const auto& member : judge_.catalog().members(group.id)) {
            if (!member.withdrawn.empty() || member.basis == Basis::claimed) continue;
            Bits against(left.size());
            for (const auto& other : judge_.catalog().groups_of(member.item)) {
                if (other == group.key || !find(answer, other)) continue;
                const Bits out = ruled_out(answer, other, left.size()) - group.denied_line;
                if (out.meets(group.on_line & left))
                    why = fmt::format("{} is also in {}, which does not fit here", member.item, other);
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
    const auto out = [&](const std::string& group) { return ruled_out(place, group, left.size()); };
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
        auto place = judge_.role(name);
        const auto* in_place = find(place, answer.wanted_group);
        if (in_place && outright(answer) && answer.wanted_group != answer.offered_group &&
            interchange_
                .reach(answer.wanted_group, answer.offered_group, left,
                       [&](const std::string& group) { return ruled_out(place, group, left.size()); })
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
    std::vector<Member> may;
    for (const auto& member : judge_.catalog().members(group.id)) {
        if (!member.withdrawn.empty() || member.basis == Basis::claimed) continue;
        const auto others = judge_.catalog().groups_of(member.item);
        const bool out = std::any_of(others.begin(), others.end(), [&](const std::string& other) {
            const auto known = std::find_if(place.groups.begin(), place.groups.end(),
                                            [&](const GroupAnswer& one) { return one.key == other; });
            return other != group.key && known != place.groups.end() &&
                   (known->denied_line | known->vetoed_line).meets(group.on);
        });
        if (!out) may.push_back(member);
    }
    return may;
}

}  // namespace casebound
