#include "core/buy/possible_needs.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/buy/with_others.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

std::string why_blocked(const ListLine& line) {
    if (line.waits()) return held_back(line);
    switch (line.answer.verdict) {
        case Verdict::not_recorded: return "not recorded: look at the old one";
        case Verdict::sources_disagree: return "sources disagree: see `why`";
        case Verdict::does_not_fit: return "everything on record is ruled out: see `why`";
        case Verdict::not_answered: return fmt::format("not answered: {}", line.answer.failure);
        default: {
            const auto held = held_back(line);
            return held.empty() ? "nothing may be ordered for it" : held;
        }
    }
}

}  // namespace

Blocked blocked_by(const ListLine& line, const Situation& situation) {
    Blocked blocked{line.answer.title, why_blocked(line), "", {}, {}};
    if (line.answer.verdict == Verdict::not_recorded || line.waits()) blocked.may_leave_out = line.answer.role;
    for (const auto& doubt : line.doubts) {
        if (!among(blocked.measure, doubt.attribute)) blocked.measure.push_back(doubt.attribute);
        for (const auto& value : values_in_doubt(situation.model(), doubt)) {
            auto accept = fmt::format("{}={}", doubt.attribute, value);
            if (!among(blocked.accept, accept)) blocked.accept.push_back(std::move(accept));
        }
    }
    if (!line.held.empty()) blocked.accept.clear();  // what a domain holds is not accepted away
    return blocked;
}

bool is_open(const ListLine& line) { return line.answer.verdict == Verdict::check_first || !line.only_where.empty(); }

bool settled_need(const ListLine& line) { return line.answer.verdict == Verdict::fits && line.quantity_high > 0; }

namespace {

// Columns that the open lines hinge on and that still have several values.
std::vector<const Possibilities::Column*> hinges(const PartsList& list, const Situation& situation,
                                                 const BuyWish& wish) {
    std::set<std::string> names;
    for (const auto& line : list.lines)
        if (wanted(line, wish) && (is_open(line) || line.quantity_low != line.quantity_high)) {
            for (auto& name : line.answer.speaks_of()) names.insert(std::move(name));
            names.insert(line.answer.deciding.begin(), line.answer.deciding.end());
        }
    const auto& set = situation.model().set;
    std::vector<const Possibilities::Column*> columns;
    for (const auto& column : set.columns()) {
        const bool whole_line = names.empty() || names.count(column.attribute.name) > 0;
        if (whole_line && set.undecided(column, situation.narrowing().left)) columns.push_back(&column);
    }
    return columns;
}

// What is left, by the values that the open lines hinge on.
std::vector<Bits> kinds_left(const Situation& situation, const std::vector<const Possibilities::Column*>& columns) {
    std::map<std::vector<std::uint16_t>, Bits> found;
    situation.narrowing().left.for_each([&](std::size_t i) {
        std::vector<std::uint16_t> at;
        for (const auto* column : columns) at.push_back(column->at[i]);
        found.try_emplace(std::move(at), Bits(situation.model().set.size())).first->second.set(i);
    });
    std::vector<Bits> kinds;
    for (auto& [at, on] : found) kinds.push_back(std::move(on));
    return kinds;
}

// What is left, by what is to be ordered for it: kinds with the same needs, or the same refusal, come once.
class KindsApart {
public:
    void need(const Bits& on, std::vector<Need> needs) {
        Possibility possibility{{}, 0, std::move(needs)};
        const auto known = std::find_if(needs_.begin(), needs_.end(),
                                        [&](const auto& one) { return same_needs(one.second, possibility); });
        if (known == needs_.end()) needs_.emplace_back(on, std::move(possibility));
        else known->first |= on;
    }

    void block(const Bits& on, const Blocked& line) {
        const auto known = std::find_if(blocked_.begin(), blocked_.end(), [&](const auto& one) {
            return one.second.title == line.title && one.second.why == line.why;
        });
        if (known == blocked_.end()) blocked_.emplace_back(on, line);
        else known->first |= on;
    }

    void put(Buying& buying, const Situation& situation, const std::vector<std::string>& prefer) const {
        const auto& set = situation.model().set;
        const auto& left = situation.narrowing().left;
        const auto where = [&](const Bits& on) { return where_words(set, on, left, prefer); };
        for (const auto& [on, one] : needs_)
            buying.possible.push_back({where(on), set.weight(on) / set.weight(left), one.needs});
        for (const auto& [on, line] : blocked_)
            buying.blocked.push_back(
                {line.title,
                 on == left ? line.why : fmt::format("{} (where {})", line.why, where_words(set, on, left, prefer)),
                 line.may_leave_out, line.measure, line.accept});
    }

private:
    std::vector<std::pair<Bits, Possibility>> needs_;
    std::vector<std::pair<Bits, Blocked>> blocked_;
};

constexpr std::size_t most_kinds = 60;

// A place that nothing serves alone takes what stands in with other things beside it, and those are needed, too.
std::vector<Need> served_by_others(std::vector<Need> needs, const PartsList& list, const Places& places,
                                   const BuyWish& wish) {
    std::vector<WithOthers> ways;
    for (const auto& line : list.lines) {
        const bool bare = std::any_of(needs.begin(), needs.end(), [&](const Need& need) {
            return need.line == line.answer.role && need.served_by.empty();
        });
        if (!bare) continue;
        auto found = served_with_others(line, list, places, wish);
        if (!found.empty()) ways.push_back(std::move(found.front()));
    }
    std::vector<const WithOthers*> taken;
    for (const auto& way : ways) taken.push_back(&way);
    return with_ways(std::move(needs), taken);
}

}  // namespace

void add_possibilities(Buying& buying, Session& session, const Situation& situation, const BuyWish& wish) {
    const auto columns = hinges(buying.list, situation, wish);
    const auto kinds = kinds_left(situation, columns);
    if (kinds.size() > most_kinds) {
        buying.blocked.push_back(
            {"too much is open",
             fmt::format("{} kinds of this vehicle are still possible: find out first", kinds.size()),
             "",
             {},
             {}});
        return;
    }
    KindsApart apart;
    for (const auto& kind : kinds) {
        Situation supposed(session.catalog(), session.plugins(), situation.vehicle(), situation.entries(), kind);
        supposed.settle(situation.settled());
        const auto list = make_parts_list(supposed.places(), wish.jobs);
        add_notes(buying, list, session.catalog());
        std::vector<Need> needs;
        for (const auto& line : list.lines) {
            if (!wanted(line, wish) || line.answer.verdict == Verdict::none_needed) continue;
            if (settled_need(line) && !line.waits()) needs.push_back(need_of(line, list, supposed.places(), wish));
            else apart.block(kind, blocked_by(line, supposed));
        }
        apart.need(kind, served_by_others(std::move(needs), list, supposed.places(), wish));
    }
    auto prefer = buying.deciding;
    for (const auto* column : columns)
        if (!among(prefer, column->attribute.name)) prefer.push_back(column->attribute.name);
    apart.put(buying, situation, prefer);
}

}  // namespace casebound
