#include "core/buy/buying.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

namespace casebound {

namespace {

bool holds(const std::vector<std::string>& keys, const std::string& key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
}

bool wanted(const ListLine& line, const BuyWish& wish) {
    return !holds(wish.without, line.answer.role) && (line.must_order() || holds(wish.with, line.answer.role));
}

// 3 % and 0.3 L for what is spilt and stays in the jug (common practice, no source).
double reserve_of(const ListLine& line, const BuyWish& wish) {
    if (line.answer.unit != "L") return 0;
    return wish.reserve_l.value_or(line.quantity_high * 0.03 + 0.3);
}

void add_members(std::vector<Serves>& served, const std::vector<Member>& members, const std::string& spec) {
    for (const auto& member : members)
        if (member.withdrawn.empty() && member.basis != Basis::claimed)
            served.push_back({member.item, member.pack_quantity, spec});
}

// Of what stands in, too, a part that is also in a group that is ruled out is not taken.
void add_stand_ins(std::vector<Serves>& served, const ListLine& line, const Places& places, bool counted) {
    for (const auto& swap : line.stand_ins) {
        const auto known = places.judge().catalog().group(swap.offered_group);
        if (!may_be_ordered(swap) || !known) continue;
        GroupAnswer group;
        group.id = known->id;
        group.key = known->key;
        group.on = places.judge().narrowing().left;
        add_members(served, places.members(line.answer, group), counted ? "" : group.key);
    }
}

// Kits whose every part that the list needs is right; the list has checked that. Each thing in them is counted once.
void add_kits(std::vector<Serves>& served, const ListLine& line, const PartsList& list, const Catalog& catalog) {
    for (const auto& kit : list.kits)
        for (const auto& row : catalog.facts().rows("kit_contents", "kit", kit.item))
            for (const auto& option : line.options)
                if (option.group == row.text("group_key"))
                    served.push_back({kit.item, row.number("quantity").value_or(1), {}, option.group});
}

// An item in two specs counts as the first; of a kit two things may serve.
void keep_first(std::vector<Serves>& served) {
    std::set<std::pair<std::string, std::string>> known;
    std::erase_if(served, [&](const Serves& one) {
        return known.contains({one.item, ""}) || !known.emplace(one.item, one.content).second;
    });
}

Need need_of(const ListLine& line, const PartsList& list, const Places& places, const BuyWish& wish) {
    const double reserve = reserve_of(line, wish);
    Need need{line.answer.role, line.quantity_high + reserve, line.answer.unit, {}, reserve};
    const bool counted = line.answer.unit == "each";
    for (const auto& option : line.options) add_members(need.served_by, option.members, counted ? "" : option.group);
    add_stand_ins(need.served_by, line, places, counted);
    if (counted) add_kits(need.served_by, line, list, places.judge().catalog());
    keep_first(need.served_by);
    return need;
}

void note(Buying& buying, const std::string& item, const std::string& text) {
    auto& notes = buying.notes[item];
    if (!holds(notes, text)) notes.push_back(text);
}

// What the buyer wants to know of an item beside its price.
void add_notes(Buying& buying, const ListLine& line, const Catalog& catalog) {
    buying.titles[line.answer.role] = line.answer.title;
    if (line.answer.unit != "each")
        for (const auto& option : line.options)
            for (const auto& member : option.members) note(buying, member.item, "spec " + option.group);
    for (const auto& swap : line.stand_ins) {
        const auto group = catalog.group(swap.offered_group);
        if (!group || !may_be_ordered(swap)) continue;
        for (const auto& member : catalog.members(group->id))
            note(buying, member.item, "stands in for " + swap.wanted_group);
    }
}

void add_notes(Buying& buying, const PartsList& list, const Catalog& catalog) {
    for (const auto& line : list.lines) add_notes(buying, line, catalog);
    for (const auto& kit : list.kits)
        if (!kit.surplus.empty())
            note(buying, kit.item,
                 fmt::format("kit; also holds {}, which no line needs", fmt::join(kit.surplus, ", ")));
}

std::string why_blocked(const ListLine& line) {
    if (!line.held.empty()) return held_back(line);
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

Blocked blocked_by(const ListLine& line) {
    return {line.answer.title, why_blocked(line),
            line.answer.verdict == Verdict::not_recorded || !line.held.empty() ? line.answer.role : ""};
}

bool is_open(const ListLine& line) { return line.answer.verdict == Verdict::check_first || !line.only_where.empty(); }

bool settled_need(const ListLine& line) { return line.answer.verdict == Verdict::fits && line.quantity_high > 0; }

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
        const auto where = [&](const Bits& on) {
            return fmt::format("{}", fmt::join(describe_in_pieces(set, on, left, prefer), ", or "));
        };
        for (const auto& [on, one] : needs_)
            buying.possible.push_back({where(on), set.weight(on) / set.weight(left), one.needs});
        for (const auto& [on, line] : blocked_)
            buying.blocked.push_back({line.title,
                                      on == left ? line.why : fmt::format("{} (where {})", line.why, where(on)),
                                      line.may_leave_out});
    }

private:
    std::vector<std::pair<Bits, Possibility>> needs_;
    std::vector<std::pair<Bits, Blocked>> blocked_;
};

constexpr std::size_t most_kinds = 60;

void add_possibilities(Buying& buying, Session& session, const Situation& situation, const BuyWish& wish) {
    const auto columns = hinges(buying.list, situation, wish);
    const auto kinds = kinds_left(situation, columns);
    if (kinds.size() > most_kinds) {
        buying.blocked.push_back(
            {"too much is open",
             fmt::format("{} kinds of this vehicle are still possible: find out first", kinds.size())});
        return;
    }
    const auto told = session.shop().told(situation.name());
    KindsApart apart;
    for (const auto& kind : kinds) {
        const Situation supposed(session.catalog(), session.plugins(), situation.vehicle(), told, kind);
        const auto list = make_parts_list(supposed.places(), wish.jobs);
        add_notes(buying, list, session.catalog());
        std::vector<Need> needs;
        for (const auto& line : list.lines) {
            if (!wanted(line, wish) || line.answer.verdict == Verdict::none_needed) continue;
            if (settled_need(line) && line.held.empty()) needs.push_back(need_of(line, list, supposed.places(), wish));
            else apart.block(kind, blocked_by(line));
        }
        apart.need(kind, std::move(needs));
    }
    auto prefer = buying.deciding;
    for (const auto* column : columns)
        if (!holds(prefer, column->attribute.name)) prefer.push_back(column->attribute.name);
    apart.put(buying, situation, prefer);
}

constexpr double least_on_shelf = 0.001;  // less than a mL is nothing
constexpr double rounding = 1e-6;         // of sums of what came and went

// Whole packs, and what an opened one still holds. Of counted things only whole ones.
void add_at_hand(Market& market, const char* where, const std::string& item, double quantity, double pack,
                 bool counted) {
    const auto whole = std::floor(quantity / pack + rounding);
    auto opened = quantity - whole * pack;
    if (counted) opened = std::floor(opened + rounding);
    Offer offer;
    offer.seller = where;
    offer.item = item;
    offer.days = 0;
    offer.available = static_cast<int>(std::min<double>(whole, unlimited_packs - 1));
    if (offer.available > 0) market.offers.push_back(offer);
    if (opened < least_on_shelf) return;
    offer.pack_quantity = opened / pack;
    offer.available = 1;
    market.offers.push_back(offer);
}

bool counted(const Catalog& catalog, const Item& item) {
    const auto* kind = catalog.vocabularies().item_kind(item.kind);
    return !kind || kind->unit == "each";
}

// Without what is kept for an open job, of this vehicle or another.
void add_shelf(Market& market, Session& session, const std::set<std::string>& items) {
    const auto kept = kept_on_shelf(session);
    for (const auto& on_shelf : ShopOffers(session.shop().database()).shelf()) {
        const auto item = session.catalog().item(on_shelf.item);
        if (!item || items.count(on_shelf.item) == 0) continue;
        double quantity = on_shelf.quantity;
        if (const auto found = kept.find(on_shelf.item); found != kept.end())
            for (const auto& one : found->second) quantity -= one.quantity;
        if (quantity > least_on_shelf)
            add_at_hand(market, own_shelf_name, item->key, quantity, item->pack_quantity,
                        counted(session.catalog(), *item));
    }
    if (!market.offers.empty()) market.sellers.push_back({own_shelf_name, 0, {}, 0, true});
}

void add_here(Market& market, const std::vector<Piece>& here, const Catalog& catalog,
              const std::set<std::string>& items) {
    const auto before = market.offers.size();
    for (const auto& piece : here) {
        const auto item = catalog.item(piece.item);
        if (!item || items.count(piece.key()) == 0) continue;
        const bool in_kit = !piece.content.empty();
        add_at_hand(market, here_name, piece.key(), piece.quantity, in_kit ? 1 : item->pack_quantity,
                    in_kit || counted(catalog, *item));
    }
    if (market.offers.size() > before) market.sellers.push_back({here_name, 0, {}, 0, true});
}

Market market_for(Session& session, const std::vector<Piece>& here, const std::set<std::string>& items) {
    const ShopOffers offers(session.shop().database());
    Market market;
    add_shelf(market, session, items);
    add_here(market, here, session.catalog(), items);
    std::set<std::string> sellers;
    for (const auto& on_file : offers.offers()) {
        if (items.count(on_file.item) == 0) continue;
        Offer offer{on_file.seller, on_file.item, on_file.price_cents, on_file.pack_quantity};
        if (on_file.available)
            offer.available = static_cast<int>(std::min<std::int64_t>(*on_file.available, unlimited_packs));
        offer.days = on_file.days;
        offer.returnable = on_file.returnable;
        offer.return_fee = on_file.return_fee;
        offer.return_carriage_cents = on_file.return_carriage_cents;
        if (on_file.return_days) offer.return_by = fmt::format("within {} days of coming", *on_file.return_days);
        offer.core_cents = on_file.core_cents;
        if (on_file.core_days) offer.core_return_by = fmt::format("within {} days of coming", *on_file.core_days);
        market.offers.push_back(std::move(offer));
        sellers.insert(on_file.seller);
    }
    for (const auto& seller : offers.sellers())
        if (sellers.count(seller.name))
            market.sellers.push_back(
                {seller.name, seller.carriage_cents, seller.free_from_cents, seller.minimum_cents, false});
    return market;
}

std::set<std::string> items_of(const Buying& buying) {
    std::set<std::string> items;
    const auto add = [&](const std::vector<Need>& needs) {
        for (const auto& need : needs)
            for (const auto& serves : need.served_by) items.insert(serves.item);
    };
    add(buying.needs);
    for (const auto& possibility : buying.possible) add(possibility.needs);
    return items;
}

// A thing out of a kit that is here serves as it would out of one that is bought.
void let_kits_here_serve(std::vector<Need>& needs, const std::vector<Piece>& here) {
    for (auto& need : needs) {
        const auto ways = need.served_by;
        for (const auto& way : ways)
            for (const auto& piece : here)
                if (!piece.content.empty() && way.item == piece.item && way.content == piece.content)
                    need.served_by.push_back({piece.key(), 1});
    }
}

// What is still needed once what is fitted is taken off; all, when what is fitted is not of what serves here.
double still_needed(const Need& need, const std::vector<Fitted>& fitted) {
    double still = need.quantity;
    for (const auto& one : fitted) {
        const bool right = one.item.empty() || std::any_of(need.served_by.begin(), need.served_by.end(),
                                                           [&](const Serves& way) { return way.item == one.item; });
        if (right) still -= need.unit != "each" || one.quantity == 0 ? still : one.quantity;
    }
    return still;
}

void take_off_fitted(std::vector<Need>& needs, const Pieces& pieces, Buying& buying) {
    std::erase_if(needs, [&](Need& need) {
        const auto found = pieces.fitted.find(need.line);
        if (found == pieces.fitted.end()) return false;
        need.quantity = still_needed(need, found->second);
        if (need.quantity > rounding) return false;
        const auto& last = found->second.back();
        const auto words = fmt::format("{} ({}{}{})", buying.titles[need.line], last.item,
                                       last.item.empty() ? "" : ", ", last.date);
        if (!holds(buying.fitted, words)) buying.fitted.push_back(words);
        return true;
    });
}

// Before the market is asked: what is on order, here or fitted is not bought again.
void apply_pieces(Buying& buying, Session& session, const std::string& vehicle) {
    auto all = buying.needs;
    for (const auto& possibility : buying.possible)
        all.insert(all.end(), possibility.needs.begin(), possibility.needs.end());
    const auto pieces = pieces_of(session, vehicle, all);
    buying.here = pieces.here;
    const auto apply = [&](std::vector<Need>& needs) {
        take_off_fitted(needs, pieces, buying);
        let_kits_here_serve(needs, pieces.here);
    };
    apply(buying.needs);
    for (auto& possibility : buying.possible) apply(possibility.needs);
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
    const auto& set = situation.model().set;
    for (const auto& name : settling_attributes(set, situation.narrowing().left, open_line(line.answer),
                                                situation.narrowing().told_once())) {
        if (holds(buying.deciding, name)) continue;
        buying.deciding.push_back(name);
        if (const auto* column = set.column(name)) buying.finding_out_minutes += effort_minutes(column->attribute);
    }
}

void check_roles(const PartsList& list, const std::vector<std::string>& roles) {
    std::vector<std::string> known;
    for (const auto& line : list.lines) known.push_back(line.answer.role);
    for (const auto& role : roles)
        if (!holds(known, role)) {
            const auto near = nearest(role, known);
            throw Error(Exit::usage, fmt::format("{}: no such line on this list: {}", role,
                                                 near.empty() ? fmt::format("use one of {}", fmt::join(known, ", "))
                                                              : fmt::format("did you mean {}?", near)));
        }
}

}  // namespace

bool may_be_ordered(const SwapAnswer& swap) { return swap.verdict == SwapVerdict::yes && swap.also_requires.empty(); }

Buying plan_buying(Session& session, const Situation& situation, const BuyWish& wish) {
    Buying buying;
    buying.list = make_parts_list(situation.places(), wish.jobs);
    check_roles(buying.list, wish.with);
    check_roles(buying.list, wish.without);
    for (const auto& line : buying.list.lines) {
        if (holds(wish.without, line.answer.role)) buying.left_out.push_back(line.answer.title);
        const bool nothing = line.answer.verdict == Verdict::none_needed && !line.blocks();
        if (!wanted(line, wish) || nothing) continue;
        if (!line.held.empty()) {
            buying.blocked.push_back(blocked_by(line));
        } else if (is_open(line)) {
            buying.open.push_back(line.answer.title);
            add_deciding(buying, line, situation);
        } else if (settled_need(line)) {
            buying.needs.push_back(need_of(line, buying.list, situation.places(), wish));
        } else {
            buying.blocked.push_back(blocked_by(line));
        }
    }
    if (!buying.open.empty() && buying.blocked.empty()) add_possibilities(buying, session, situation, wish);
    add_notes(buying, buying.list, session.catalog());
    apply_pieces(buying, session, situation.name());
    buying.market = market_for(session, buying.here, items_of(buying));
    for (const auto& offer : buying.market.offers)
        if (const auto item = session.catalog().item(offer.item)) buying.titles[offer.item] = item->title;
    for (const auto& piece : buying.here) {
        if (const auto item = session.catalog().item(piece.item)) buying.titles[piece.key()] = item->title;
        note(buying, piece.key(),
             fmt::format("{} {} for {}", piece.came ? "here since" : "ordered", piece.last, piece.roles));
    }
    find_not_offered(buying);
    return buying;
}

}  // namespace casebound
