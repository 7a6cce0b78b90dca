#include "core/buy/buying.h"

#include "core/buy/rounding.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_told.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/buy/looked_at.h"
#include "core/buy/own_market.h"
#include "core/buy/possible_needs.h"
#include "core/buy/with_others.h"
#include "core/ground/units.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

// What may stand in with other things beside it: for the settled lines, and for each of what is possible.
struct Ways {
    std::vector<WithOthers> settled;
    std::vector<std::vector<WithOthers>> possible;

    template <class Do> void each(Do act) {
        for (auto& way : settled) act(way);
        for (auto& some : possible)
            for (auto& way : some) act(way);
    }
};

std::set<std::string> items_of(const Buying& buying, Ways& ways) {
    std::set<std::string> items;
    const auto add = [&](const std::vector<Need>& needs) {
        for (const auto& need : needs)
            for (const auto& serves : need.served_by) items.insert(serves.item);
    };
    add(buying.needs);
    for (const auto& possibility : buying.possible) add(possibility.needs);
    ways.each([&](const WithOthers& way) { add({way.need}), add(way.others); });
    return items;
}

// A thing out of a kit that is here serves as it would alone.
void let_kits_here_serve(std::vector<Need>& needs, const std::vector<Need>& all, const std::vector<Piece>& here,
                         const Catalog& catalog) {
    for (auto& need : needs)
        for (const auto& piece : here)
            if (!piece.content.empty() && serves_out_of_kit(catalog, all, need, piece.item, piece.content))
                need.served_by.push_back({piece.key(), 1, need.unit == "each" ? "" : piece.content});
}

// What is still needed once what is fitted is taken off; all, when what is fitted is not of what serves here. Of what is
// poured the least that is needed is enough: how much goes in is measured by what came out.
double still_needed(const Need& need, const std::vector<Fitted>& fitted) {
    double in_place = 0;
    for (const auto& one : fitted) {
        const bool right = one.item.empty() || one.out_of_a_kit ||
                           std::any_of(need.served_by.begin(), need.served_by.end(),
                                       [&](const Serves& way) { return way.item == one.item; });
        if (right) in_place += one.quantity == 0 ? need.quantity : one.quantity;
    }
    const bool enough = need.unit != "each" && in_place > 0 && in_place + rounding >= need.least;
    return enough ? 0 : need.quantity - in_place;
}

void take_off_fitted(Need& need, const Pieces& pieces) {
    if (const auto found = pieces.fitted.find(need.line); found != pieces.fitted.end())
        need.quantity = std::max(0.0, still_needed(need, found->second));
}

void take_off_fitted(std::vector<Need>& needs, const Pieces& pieces, Buying& buying) {
    std::erase_if(needs, [&](Need& need) {
        take_off_fitted(need, pieces);
        if (need.quantity > rounding) return false;
        const auto found = pieces.fitted.find(need.line);
        const auto& last = found->second.back();
        const auto words = fmt::format("{} ({}{}{})", buying.titles[need.line], last.item,
                                       last.item.empty() ? "" : ", ", last.date);
        if (!among(buying.fitted, words)) buying.fitted.push_back(words);
        return true;
    });
}

// All that each possibility needs, with what stands in and what goes in beside it.
std::vector<std::vector<Need>> possible_needs(const Buying& buying, const Ways& ways) {
    std::vector<std::vector<Need>> all;
    const auto add = [&](std::vector<Need> needs, const std::vector<WithOthers>& some) {
        for (const auto& way : some) needs.insert(needs.end(), way.others.begin(), way.others.end());
        all.push_back(std::move(needs));
    };
    if (buying.possible.empty()) add(buying.needs, ways.settled);
    for (std::size_t i = 0; i < buying.possible.size(); ++i) add(buying.possible[i].needs, ways.possible[i]);
    return all;
}

// Before the market is asked: what is on order, here or fitted is not bought again.
void apply_pieces(Buying& buying, Ways& ways, Session& session, const std::string& vehicle) {
    const auto pieces = pieces_of(session, vehicle, possible_needs(buying, ways));
    buying.here = pieces.here;
    const auto apply = [&](std::vector<Need>& needs) {
        const auto all = needs;
        take_off_fitted(needs, pieces, buying);
        let_kits_here_serve(needs, all, pieces.here, session.catalog());
    };
    apply(buying.needs);
    for (auto& possibility : buying.possible) apply(possibility.needs);
    ways.each([&](WithOthers& way) {
        take_off_fitted(way.need, pieces);
        for (auto& other : way.others) take_off_fitted(other, pieces);
    });
}

void name_way(Buying& buying, const WithOthers& way, const Catalog& catalog) {
    for (const auto& serves : way.need.served_by) {
        buying.stand_ins.insert(serves.item);
        add_note(buying, serves.item,
                 "stands in for " + in_titles(catalog, way.wanted) + ", with what is ordered beside it");
    }
    for (const auto& other : way.others) {
        if (const auto* role = catalog.vocabularies().role(other.line)) buying.titles[other.line] = role->title;
        for (const auto& serves : other.served_by)
            add_note(buying, serves.item, "goes with " + in_titles(catalog, way.offered));
    }
}

// A place that nothing serves alone takes what stands in with other things, offered or not.
std::vector<const WithOthers*> the_only_ways(const std::vector<Need>& needs, const std::vector<WithOthers>& ways) {
    std::vector<const WithOthers*> only;
    for (const auto& need : needs) {
        const auto way = std::find_if(ways.begin(), ways.end(),
                                      [&](const WithOthers& one) { return one.need.line == need.line; });
        if (need.served_by.empty() && way != ways.end()) only.push_back(&*way);
    }
    return only;
}

// What stands in with other things is ordered with them where that is cheapest, or where nothing else is to be had.
void take_ways(Buying& buying, const Ways& ways, const Catalog& catalog, const PurchaseLimits& limits) {
    if (!buying.blocked.empty()) return;
    const auto take = [&](std::vector<Need>& needs, const std::vector<WithOthers>& some, bool bare) {
        auto taken = cheapest_ways(needs, some, buying.market, limits);
        if (taken.empty() && bare) taken = the_only_ways(needs, some);
        needs = with_ways(std::move(needs), taken);
        for (const auto* way : taken) name_way(buying, *way, catalog);
    };
    if (buying.open.empty()) take(buying.needs, ways.settled, false);
    for (std::size_t i = 0; i < buying.possible.size(); ++i) take(buying.possible[i].needs, ways.possible[i], true);
}

void find_not_offered(Buying& buying) {
    std::set<std::string> offered;
    for (const auto& offer : buying.market.offers) offered.insert(offer.item);
    for (const auto& need : buying.needs) {
        const bool served = std::any_of(need.served_by.begin(), need.served_by.end(),
                                        [&](const Serves& one) { return offered.count(one.item) > 0; });
        if (!served) buying.not_offered.push_back(need.line);
    }
}

void add_deciding(Buying& buying, const ListLine& line, const Situation& situation) {
    for (const auto& name : settling_attributes(situation.model().set, situation.narrowing().left,
                                                open_line(line.answer), situation.narrowing().not_asked()))
        add_deciding(buying, situation, name);
}

// What was looked at is ordered or left in by what was found; what the person asks for or leaves out goes before that.
BuyWish with_looked_at(BuyWish wish, const std::map<std::string, WorkRecord>& looked_at) {
    for (const auto& [role, record] : looked_at) {
        if (among(wish.with, role) || among(wish.without, role)) continue;
        (found_bad(record) ? wish.found_bad : wish.left_in).push_back(role);
    }
    return wish;
}

std::string left_in_words(const ListLine& line, const WorkRecord& record) {
    return fmt::format("{} ({}{})", line.answer.title, record.state.empty() ? "" : record.state + ", ", record.date);
}

void check_roles(const PartsList& list, const std::vector<std::string>& roles) {
    std::vector<std::string> known;
    for (const auto& line : list.lines) known.push_back(line.answer.role);
    for (const auto& role : roles)
        if (!among(known, role)) {
            const auto near = nearest(role, known);
            throw Error(Exit::usage, fmt::format("{}: no such place on this list: {}", role,
                                                 near.empty() ? fmt::format("use one of {}", fmt::join(known, ", "))
                                                              : fmt::format("did you mean {}?", near)));
        }
}

}  // namespace

Buying plan_buying(Session& session, const Situation& situation, const BuyWish& asked) {
    Buying buying;
    const auto looked_at = looked_at_of(session, situation.name());
    const auto wish = with_looked_at(asked, looked_at);
    Ways ways;
    if (const auto hour = ShopSettings(session.shop()).get("hour_value")) buying.hour_value = quantity_in(*hour, "");
    buying.list = in_words(make_parts_list(situation.places(), wish.jobs), session.catalog());
    check_roles(buying.list, wish.with);
    check_roles(buying.list, wish.without);
    for (const auto& line : buying.list.lines) {
        if (among(wish.without, line.answer.role)) buying.left_out.push_back(line.answer.title);
        if (among(wish.left_in, line.answer.role) && !goes_in_new(line))
            buying.left_in.push_back(left_in_words(line, looked_at.at(line.answer.role)));
        const bool nothing = line.answer.verdict == Verdict::none_needed && !line.blocks();
        if (!wanted(line, wish) || nothing) continue;
        if (line.waits() && !waits_out_of_reach(line, situation)) {
            buying.blocked.push_back(blocked_by(line, situation));
        } else if (is_open(line) || line.waits()) {
            buying.open.push_back(line.answer.title);
            add_deciding(buying, line, situation);
        } else if (settled_need(line)) {
            buying.needs.push_back(need_of(line, buying.list, situation.places(), wish));
            for (auto& way : served_with_others(line, buying.list, situation.places(), wish))
                ways.settled.push_back(std::move(way));
        } else {
            buying.blocked.push_back(blocked_by(line, situation));
        }
    }
    if (!buying.open.empty() && buying.blocked.empty())
        ways.possible = add_possibilities(buying, session, situation, wish);
    add_notes(buying, buying.list, session.catalog());
    apply_pieces(buying, ways, session, situation.name());
    buying.market = own_market(session, buying.here, items_of(buying, ways));
    take_ways(buying, ways, session.catalog(), wish.limits);
    for (const auto& offer : buying.market.offers)
        if (const auto item = session.catalog().item(offer.item)) buying.titles[offer.item] = item->title;
    for (const auto& piece : buying.here) {
        if (const auto item = session.catalog().item(piece.item)) buying.titles[piece.key()] = item->title;
        add_note(buying, piece.key(),
                 fmt::format("{} {} for {}", piece.came() ? "here since" : "ordered", piece.last,
                             place_titles(session.catalog(), piece.roles)));
    }
    find_not_offered(buying);
    return buying;
}

}  // namespace casebound
