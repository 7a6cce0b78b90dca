#include <map>
#include <utility>

#include <fmt/format.h>

#include "core/ground/units.h"
#include "core/verdict/deciding_columns.h"
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
    const auto& left = judge_.narrowing().left;
    const auto overlap = [&] {
        for (std::size_t i = 0; i < answer.groups.size(); ++i)
            for (std::size_t j = i + 1; j < answer.groups.size(); ++j)
                if ((answer.groups[i].on_line & left).meets(answer.groups[j].on_line)) return true;
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
        auto& on = by_source[claim.row->source].try_emplace(claim.row->group, Bits(left.size())).first->second;
        on |= holds(claim, claims);
        rows[claim.row->group].push_back(claim.row);
    }
    std::erase_if(by_source, [](const auto& one) { return !divides(one.second); });
    if (by_source.empty()) return;
    const DecidingColumns columns(judge_, answer);
    const auto same = [&](const GroupAnswer& a, const GroupAnswer& b) {
        if (columns.compare(a.key, b.key).equal) return true;
        return judge_.catalog().members(a.id).empty() ? false
                                                      : outright(interchange_.stand_in(a.key, b.key, answer.role)) ||
                                                            outright(interchange_.stand_in(b.key, a.key, answer.role));
    };
    std::map<std::pair<std::size_t, std::size_t>, bool> known;
    const auto equal = [&](std::size_t i, std::size_t j) {
        const auto key = std::minmax(i, j);
        const auto [at, fresh] = known.try_emplace({key.first, key.second}, false);
        if (fresh) at->second = same(answer.groups[key.first], answer.groups[key.second]);
        return at->second;
    };
    std::vector<Bits> against(answer.groups.size(), Bits(left.size())), blind = against;
    left.for_each([&](std::size_t c) {
        std::vector<std::size_t> here;
        for (std::size_t i = 0; i < answer.groups.size(); ++i)
            if (answer.groups[i].on_line.test(c)) here.push_back(i);
        if (here.size() < 2) return;
        for (const auto i : here) {
            const auto id = answer.groups[i].id;
            bool named = false, elsewhere = false, unseeing = false;
            for (const auto& [source, says] : by_source) {
                const auto own = says.find(id);
                if (own != says.end() && own->second.test(c)) {
                    named = true;
                    continue;
                }
                // This source gives another group here, and this one, if it knows it, only elsewhere.
                for (const auto j : here)
                    if (const auto other = says.find(answer.groups[j].id);
                        j != i && other != says.end() && other->second.test(c) && !equal(i, j)) {
                        elsewhere = true;
                        unseeing |= divides(within(says, answer.groups[i].on_line));
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
    for (std::size_t i = 0; i < answer.groups.size(); ++i)
        for (std::size_t j = i + 1; j < answer.groups.size(); ++j) {
            auto &a = answer.groups[i], &b = answer.groups[j];
            const Bits both = a.on_line & b.on_line;
            if (!both.meets(judge_.narrowing().left)) continue;
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
    const auto& left = judge_.narrowing().left;
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

// Two sources that want different quantities on one configuration disagree; nothing is ordered by the larger.
void Places::hold_where_quantities_differ(RoleAnswer& answer) const {
    const auto& left = judge_.narrowing().left;
    const auto claims = judge_.claims(answer);
    for (auto& group : answer.groups) {
        if (!group.on_line.meets(left)) continue;
        for (const auto& a : claims)
            for (const auto& b : claims) {
                const bool of_group = a.row->group == group.id && b.row->group == group.id &&
                                      a.row->says == Says::fits && b.row->says == Says::fits;
                if (!of_group || a.row->source == b.row->source || !a.row->quantity_stated || !b.row->quantity_stated ||
                    b.row->quantity <= a.row->quantity * (1 + same_quantity_share))
                    continue;
                const Bits both = a.on & b.on & group.on_line;
                if (!both.meets(left)) continue;
                group.on_line -= both;
                group.disagreed_line |= both;
                group.against.push_back(Leaf(fmt::format("{} wanted by one source, {} by another",
                                                         plain_number(a.row->quantity), plain_number(b.row->quantity)),
                                             judge_.catalog().origin(b.row->origin, "applications", b.row->source)));
            }
    }
}

}  // namespace casebound
