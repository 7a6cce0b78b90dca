#include <map>
#include <utility>

#include <fmt/format.h>

#include "core/ground/units.h"
#include "core/verdict/deciding_columns.h"
#include "core/verdict/open_worlds.h"
#include "core/verdict/places.h"

namespace casebound {

namespace {

// The same but for what has to be done with it.
bool stands_in_here(const SwapAnswer& swap) {
    const bool goes = swap.verdict == SwapVerdict::yes || swap.verdict == SwapVerdict::yes_if;
    return goes && swap.conditions.empty() && swap.differences.empty() && swap.equal_by.empty();
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

// Two groups are one, and where: by all columns that decide the place, or because one stands in for the other.
struct Equal {
    Bits on;
    std::vector<Leaf> by;

    Evidence weakest() const {
        Evidence found = Evidence::law;
        for (const auto& leaf : by) found = weaker(found, leaf.evidence());
        return found;
    }
};

template <class OneWay> std::vector<Equal> ways_equal(const DecidingColumns& columns, const GroupAnswer& a,
                                                      const GroupAnswer& b, const OneWay& one_way) {
    const auto compared = columns.compare(a.key, b.key);
    if (!compared.equal) return {one_way(a, b), one_way(b, a)};
    return {
        {Bits(a.on_line.size(), true),
         {Leaf(fmt::format("{} and {} are the same in all that decides the place", a.key, b.key), compared.source)}}};
}

const Equal* firmest_on(const std::vector<Equal>& ways, std::size_t c) {
    const Equal* best = nullptr;
    for (const auto& way : ways)
        if (way.on.test(c) && (!best || way.weakest() < best->weakest())) best = &way;
    return best;
}

// That it may be ordered rests on this, too.
void rest_on(GroupAnswer& group, const Equal& equal) {
    for (const auto& leaf : equal.by) {
        const bool said = std::any_of(group.leaves.begin(), group.leaves.end(),
                                      [&](const Leaf& one) { return one.text() == leaf.text(); });
        if (!said) group.leaves.push_back(leaf);
    }
}

Division within(const Division& says, const Bits& on) {
    Division part;
    for (const auto& [group, where] : says)
        if (where.meets(on)) part.emplace(group, where & on);
    return part;
}

}  // namespace

// Two groups on one configuration. Where no source tells them apart on this line, both fit. Where sources do, a group
// of theirs that another of them puts elsewhere is held, and a group of a source that is blind to the division, for it
// gives the group on both sides, waits until it is shown equal.
void Places::hold_where_sources_divide(RoleAnswer& answer) const {
    const auto left = may_be_true_by_what_is_firm(judge_.narrowing());
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
    doubt_where_columns_differ(answer);
    std::map<std::int64_t, Division> by_source;
    std::map<std::int64_t, std::vector<const ApplicationRow*>> rows;
    const auto claims = judge_.claims(answer);
    const bool firm = std::any_of(claims.begin(), claims.end(), [](const Claim& claim) {
        return claim.row->says == Says::fits && claim.evidence != Evidence::memory;
    });
    for (const auto& claim : claims) {
        if (claim.row->says != Says::fits || (firm && claim.evidence == Evidence::memory)) continue;
        rows[claim.row->group].push_back(claim.row);
        const Bits held = holds(claim, claims);
        if (held.none()) continue;  // taken back by its own source: it gives the group nowhere
        by_source[claim.row->source].try_emplace(claim.row->group, Bits(left.size())).first->second |= held;
    }
    std::erase_if(by_source, [](const auto& one) { return !divides(one.second); });
    if (by_source.empty()) return;
    const Bits nowhere(left.size()), &narrowing_left = judge_.narrowing().left;
    const DecidingColumns columns(judge_, answer);
    const auto one_way = [&](const GroupAnswer& wanted, const GroupAnswer& offered) {
        const auto swap = interchange_.stand_in(wanted.key, offered.key, answer.role);
        if (!outright(swap)) return Equal{nowhere, {}};
        return Equal{interchange_.reach(wanted.key, offered.key, Bits(left.size(), true),
                                        [&](const std::string&) { return nowhere; }),
                     swap.leaves};
    };
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Equal>> known;
    const auto equal = [&](std::size_t i, std::size_t j, std::size_t c) {
        const auto [low, high] = std::minmax(i, j);
        const auto [at, fresh] = known.try_emplace({low, high});
        if (fresh) at->second = ways_equal(columns, answer.groups[low], answer.groups[high], one_way);
        return firmest_on(at->second, c);
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
            std::vector<const Equal*> equals;  // without which a source would put it elsewhere, or be blind here
            for (const auto& [source, says] : by_source) {
                const auto own = says.find(id);
                if (own != says.end() && own->second.test(c)) {
                    named = true;
                    continue;
                }
                // This source gives another group here, and this one, if it knows it, only elsewhere.
                for (const auto j : here) {
                    const auto other = says.find(answer.groups[j].id);
                    if (j == i || other == says.end() || !other->second.test(c)) continue;
                    if (const auto* by = equal(i, j, c)) {
                        equals.push_back(by);
                        continue;
                    }
                    elsewhere |= !of_one_mind(id, says, other->first, c);
                    unseeing |= divides(within(says, answer.groups[i].on_line | answer.groups[i].disagreed_line));
                }
            }
            if (named && elsewhere) against[i].set(c);
            if (!named && unseeing) blind[i].set(c);
            if (narrowing_left.test(c))
                for (const auto* by : equals) rest_on(answer.groups[i], *by);
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
            if (!both.meets(may_be_true_by_what_is_firm(judge_.narrowing()))) continue;
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

// Two groups on one configuration that a column deciding the place tells apart: only one of them can be right there,
// whoever names them. One that is there from memory alone contradicts nothing firmer.
void Places::doubt_where_columns_differ(RoleAnswer& answer) const {
    const auto left = may_be_true_by_what_is_firm(judge_.narrowing());
    const DecidingColumns columns(judge_, answer);
    const auto claims = judge_.claims(answer);
    const auto firm = [&](const GroupAnswer& group, const Bits& on) {
        return std::any_of(claims.begin(), claims.end(), [&](const Claim& claim) {
            return claim.row->group == group.id && claim.row->says == Says::fits && claim.on.meets(on) &&
                   claim.evidence != Evidence::memory;
        });
    };
    for (std::size_t i = 0; i < answer.groups.size(); ++i)
        for (std::size_t j = i + 1; j < answer.groups.size(); ++j) {
            auto &a = answer.groups[i], &b = answer.groups[j];
            const Bits both = a.on_line & b.on_line;
            if (!both.meets(left)) continue;
            const auto compared = columns.compare(a.key, b.key);
            const auto stands = [&](const GroupAnswer& wanted, const GroupAnswer& offered) {
                return stands_in_here(interchange_.stand_in(wanted.key, offered.key, answer.role));
            };
            if (compared.difference.empty() || stands(a, b) || stands(b, a)) continue;
            const bool firm_a = firm(a, both), firm_b = firm(b, both);
            for (auto* group : {&a, &b}) {
                if (firm_a != firm_b && (group == &a ? firm_a : firm_b)) continue;
                group->doubted_line |= both;
                group->against.push_back(
                    Leaf(fmt::format("{} and {} differ in {}", a.key, b.key, compared.difference), compared.source));
            }
        }
}

// Beyond this share two quantities for one place are two statements (common practice, no source).
constexpr double same_quantity_share = 0.1;

// Two sources that want different quantities for the place on one configuration disagree about both groups; nothing is
// ordered by the larger. What is remembered contradicts nothing firmer.
void Places::hold_where_quantities_differ(RoleAnswer& answer) const {
    const auto left = may_be_true_by_what_is_firm(judge_.narrowing());
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

}  // namespace casebound
