#include "core/buy/possible_needs.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/reason/condition_words.h"
#include "core/say/list_words.h"
#include "core/verdict/open_worlds.h"

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
            if (held.empty() && line.amount_open) return "how much it takes is not recorded";
            return held.empty() ? "nothing may be ordered for it" : held;
        }
    }
}

}  // namespace

Blocked blocked_by(const ListLine& line, const Situation& situation) {
    Blocked blocked{line.answer.title, why_blocked(line), "", {}, {}};
    if (line.answer.verdict == Verdict::not_recorded || line.waits() || line.amount_open)
        blocked.may_leave_out = line.answer.role;
    for (const auto& held : line.held)
        for (const auto& attribute : held.hold.attributes)
            if (!among(blocked.measure, attribute)) blocked.measure.push_back(attribute);
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

bool waits_out_of_reach(const ListLine& line, const Situation& situation) {
    return line.held.empty() && !line.doubts.empty() &&
           std::all_of(line.doubts.begin(), line.doubts.end(),
                       [&](const Doubt& doubt) { return among(situation.narrowing().out_of_reach, doubt.attribute); });
}

bool settled_need(const ListLine& line) {
    return line.answer.verdict == Verdict::fits && line.quantity_high > 0 && !line.amount_open;
}

namespace {

// Columns that the open lines hinge on and that still have several values.
std::vector<const Possibilities::Column*> hinges(const PartsList& list, const Situation& situation,
                                                 const BuyWish& wish) {
    std::set<std::string> names;
    for (const auto& line : list.lines)
        if (wanted(line, wish) && (is_open(line) || line.waits() || line.quantity_low != line.quantity_high)) {
            for (auto& name : line.answer.speaks_of()) names.insert(std::move(name));
            names.insert(line.answer.deciding.begin(), line.answer.deciding.end());
        }
    const auto& set = situation.model().set;
    std::vector<const Possibilities::Column*> columns;
    for (const auto& column : set.columns()) {
        const bool whole_line = names.empty() || names.count(column.attribute.name) > 0;
        if (whole_line && set.undecided(column, may_be_true(situation.narrowing()))) columns.push_back(&column);
    }
    return columns;
}

// What may be true, by the values that the open lines hinge on, and by which places the job reaches there.
std::vector<Bits> kinds_of(const Situation& situation, const std::vector<const Possibilities::Column*>& columns,
                           const PartsList& list) {
    std::map<std::vector<std::uint16_t>, Bits> found;
    may_be_true(situation.narrowing()).for_each([&](std::size_t i) {
        std::vector<std::uint16_t> at;
        for (const auto* column : columns) at.push_back(column->at[i]);
        for (const auto& line : list.lines)
            if (!line.only_where.empty()) at.push_back(line.applies.test(i));
        found.try_emplace(std::move(at), Bits(situation.model().set.size())).first->second.set(i);
    });
    std::vector<Bits> kinds;
    for (auto& [at, on] : found) kinds.push_back(std::move(on));
    return kinds;
}

// What may be true, by what is to be ordered for it: kinds with the same needs, or the same refusal, come once.
class KindsApart {
public:
    void need(const Bits& on, std::vector<Need> needs, std::vector<WithOthers> ways) {
        Possibility possibility{{}, 0, std::move(needs)};
        const auto known = std::find_if(needs_.begin(), needs_.end(), [&](const Kind& one) {
            return same_needs(one.possibility, possibility) && same_ways(one.ways, ways);
        });
        if (known == needs_.end()) needs_.push_back({on, std::move(possibility), std::move(ways)});
        else known->on |= on;
    }

    void block(const Bits& on, const Blocked& line) {
        const auto known = std::find_if(blocked_.begin(), blocked_.end(), [&](const auto& one) {
            return one.second.title == line.title && one.second.why == line.why;
        });
        if (known == blocked_.end()) blocked_.emplace_back(on, line);
        else known->first |= on;
    }

    std::vector<std::vector<WithOthers>> put(Buying& buying, const Situation& situation,
                                             const std::vector<std::string>& prefer) const {
        std::vector<std::vector<WithOthers>> ways;
        const auto& set = situation.model().set;
        const auto left = may_be_true(situation.narrowing());
        const auto where = [&](const Bits& on) { return where_words(set, on, left, prefer); };
        for (const auto& one : needs_) {
            buying.possible.push_back({where(one.on), set.weight(one.on) / set.weight(left), one.possibility.needs});
            ways.push_back(one.ways);
        }
        for (const auto& [on, line] : blocked_)
            buying.blocked.push_back(
                {line.title,
                 on == left ? line.why : fmt::format("{} (where {})", line.why, where_words(set, on, left, prefer)),
                 line.may_leave_out, line.measure, line.accept});
        return ways;
    }

    // Would another order be right where the doubt, and nothing that is left, is true?
    bool changed_by(const Doubt& doubt, const Bits& left) const {
        const auto elsewhere = [&](const Bits& on) { return !on.meets(left) && on.meets(doubt.worlds); };
        return std::any_of(needs_.begin(), needs_.end(), [&](const Kind& one) { return elsewhere(one.on); }) ||
               std::any_of(blocked_.begin(), blocked_.end(), [&](const auto& one) { return elsewhere(one.first); });
    }

private:
    struct Kind {
        Bits on;
        Possibility possibility;
        std::vector<WithOthers> ways;
    };

    static bool same_ways(const std::vector<WithOthers>& some, const std::vector<WithOthers>& others) {
        return std::equal(
            some.begin(), some.end(), others.begin(), others.end(), [](const WithOthers& a, const WithOthers& b) {
                auto first = a.others, second = b.others;
                first.push_back(a.need), second.push_back(b.need);
                return a.offered == b.offered && a.wanted == b.wanted && same_needs({{}, 0, first}, {{}, 0, second});
            });
    }

    std::vector<Kind> needs_;
    std::vector<std::pair<Bits, Blocked>> blocked_;
};

constexpr std::size_t most_kinds = 60;

}  // namespace

void add_deciding(Buying& buying, const Situation& situation, const std::string& attribute) {
    if (among(buying.deciding, attribute)) return;
    buying.deciding.push_back(attribute);
    const auto* column = situation.model().set.column(attribute);
    if (!column) return;
    buying.titles[attribute] = column->attribute.title;
    buying.finding_out_minutes += effort_minutes(column->attribute);
}

std::vector<std::vector<WithOthers>> add_possibilities(Buying& buying, Session& session, const Situation& situation,
                                                       const BuyWish& wish) {
    const auto columns = hinges(buying.list, situation, wish);
    const auto kinds = kinds_of(situation, columns, buying.list);
    if (kinds.size() > most_kinds) {
        buying.blocked.push_back(
            {"too much is open",
             fmt::format("{} kinds of this vehicle are still possible: find out first", kinds.size()),
             "",
             {},
             {}});
        return {};
    }
    // Each doubt is one of the things that may be true, and no longer holds any one of them.
    auto settled = situation.settled();
    for (const auto& doubt : situation.narrowing().doubts) settled.push_back(doubt.attribute);
    KindsApart apart;
    for (const auto& kind : kinds) {
        Situation supposed(session.catalog(), session.plugins(), situation.vehicle(), situation.entries(), kind);
        supposed.settle(settled);
        const auto list = in_words(make_parts_list(supposed.places(), wish.jobs), session.catalog());
        add_notes(buying, list, session.catalog());
        std::vector<Need> needs;
        std::vector<WithOthers> ways;
        for (const auto& line : list.lines) {
            if (!wanted(line, wish) || line.answer.verdict == Verdict::none_needed) continue;
            if (settled_need(line) && !line.waits()) {
                needs.push_back(need_of(line, list, supposed.places(), wish));
                for (auto& way : served_with_others(line, list, supposed.places(), wish))
                    ways.push_back(std::move(way));
            } else {
                apart.block(kind, blocked_by(line, supposed));
            }
        }
        apart.need(kind, std::move(needs), std::move(ways));
    }
    for (const auto& doubt : situation.narrowing().doubts)
        if (apart.changed_by(doubt, situation.narrowing().left)) add_deciding(buying, situation, doubt.attribute);
    auto prefer = buying.deciding;
    for (const auto* column : columns)
        if (!among(prefer, column->attribute.name)) prefer.push_back(column->attribute.name);
    return apart.put(buying, situation, prefer);
}

}  // namespace casebound
