#include "core/cover/purchase_model.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

constexpr double millionths = 1e6;
constexpr double most_quantity = 1e6;
constexpr auto one_piece = static_cast<std::int64_t>(millionths);
constexpr std::size_t most_groups = 1000, most_ways = 24;

[[noreturn]] void bad(const std::string& what) { throw Error(Exit::bad_data, what); }

std::int64_t in_millionths(double quantity) { return std::llround(quantity * millionths); }

double from_millionths(std::int64_t quantity) { return static_cast<double>(quantity) / millionths; }

void check_quantity(const std::string& where, double quantity) {
    if (quantity >= 1 / millionths && quantity <= most_quantity) return;
    bad(fmt::format("{}: quantity {}: give more than 0 and at most {}", where, quantity, most_quantity));
}

// Pieces are whole: 1.2 of them are two.
std::int64_t wanted_by(const Need& need) {
    const std::int64_t wanted = in_millionths(need.quantity);
    return need.unit == "each" ? (wanted + one_piece - 1) / one_piece * one_piece : wanted;
}

std::int64_t given_by(const Need& need, const Offer& offer) {
    std::int64_t given = 0;
    for (const Serves& way : need.served_by)
        if (way.item == offer.item) given += in_millionths(offer.pack_quantity * way.quantity);
    return given;
}

// Nothing is known to be here by a day when one part of it is not.
std::optional<int> later(std::optional<int> a, std::optional<int> b) {
    return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
}

std::string days_words(int days) { return fmt::format("{} day{}", days, days == 1 ? "" : "s"); }

void check_need(const Need& need) {
    check_quantity(fmt::format("line {}", need.line), need.quantity);
    std::set<std::pair<std::string, std::string>> items;
    for (const Serves& way : need.served_by) {
        check_quantity(fmt::format("line {}: item {}", need.line, way.item), way.quantity);
        if (!items.emplace(way.item, way.content).second)
            bad(fmt::format("line {}: item {} stands twice: leave one", need.line, way.item));
    }
}

}  // namespace

PurchaseModel::PurchaseModel(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits,
                             const std::vector<char>& without, const std::vector<std::size_t>& possibility)
    : needs_(needs), market_(market), limits_(limits), possibility_(possibility) {
    check();
    check_contents();
    add_sellers();
    for (const Need& need : needs) wanted_.push_back(wanted_by(need));
    add_offers(without);
    add_columns();
    add_groups();
    if (limits.most_sellers) problem_.most_sellers = std::max(0, *limits.most_sellers);
}

void PurchaseModel::check() const {
    std::set<std::string> lines, sellers;
    for (const Need& need : needs_) {
        check_need(need);
        if (!lines.insert(need.line).second) bad(fmt::format("line {} stands twice: add the quantities up", need.line));
    }
    for (const Seller& seller : market_.sellers) {
        if (!sellers.insert(seller.name).second) bad(fmt::format("seller {} stands twice: leave one", seller.name));
        if (seller.carriage_cents < 0 || seller.minimum_cents < 0 || seller.free_from_cents.value_or(0) < 0)
            bad(fmt::format("seller {}: carriage, threshold or minimum order below 0: give what they ask",
                            seller.name));
    }
    for (const Offer& offer : market_.offers) {
        check_offer(offer);
        if (!sellers.contains(offer.seller))
            bad(fmt::format("offer {} of {}: the seller is not described: add what carriage they ask", offer.item,
                            offer.seller));
    }
}

// What a pack holds is the same for every line that takes it.
void PurchaseModel::check_contents() const {
    std::map<std::pair<std::string, std::string>, std::pair<double, const Need*>> known;  // item, content
    for (const Need& need : needs_)
        for (const Serves& way : need.served_by) {
            const auto& [quantity,
                         other] = known.try_emplace({way.item, way.content}, way.quantity, &need).first->second;
            if (quantity != way.quantity)
                bad(fmt::format(
                    "item {}: gives {} of line {} and {} of line {}: what it holds is shared; make it equal", way.item,
                    quantity, other->line, way.quantity, need.line));
        }
}

void PurchaseModel::check_offer(const Offer& offer) const {
    const std::string where = fmt::format("offer {} of {}", offer.item, offer.seller);
    check_quantity(where, offer.pack_quantity);
    if (offer.pack_cents < 0 || offer.core_cents < 0)
        bad(fmt::format("{}: price below 0: give the price of a pack", where));
    if (offer.available < 0 || offer.days.value_or(0) < 0)
        bad(fmt::format("{}: packs or days below 0: give what there is", where));
    if (!(offer.return_fee >= 0 && offer.return_fee <= 1))
        bad(fmt::format("{}: return fee {}: give a share from 0 to 1", where, offer.return_fee));
}

void PurchaseModel::add_sellers() {
    sellers_.resize(market_.sellers.size());
    std::iota(sellers_.begin(), sellers_.end(), std::size_t{0});
    std::sort(sellers_.begin(), sellers_.end(),
              [&](std::size_t a, std::size_t b) { return market_.sellers[a].name < market_.sellers[b].name; });
    for (const std::size_t s : sellers_) {
        const Seller& seller = market_.sellers[s];
        problem_.sellers.push_back({seller.carriage_cents, seller.free_from_cents.value_or(never_free_cents),
                                    seller.minimum_cents, !seller.own_shelf});
    }
}

bool PurchaseModel::in_time(const Offer& offer) const {
    return !limits_.within_days || (offer.days && *offer.days <= *limits_.within_days);
}

void PurchaseModel::add_offers(const std::vector<char>& without) {
    std::vector<std::size_t> sorted(market_.offers.size());
    std::iota(sorted.begin(), sorted.end(), std::size_t{0});
    std::stable_sort(sorted.begin(), sorted.end(), [&](std::size_t a, std::size_t b) {
        const auto key = [](const Offer& o) {
            return std::tie(o.seller, o.item, o.pack_quantity, o.pack_cents, o.core_cents, o.days);
        };
        return key(market_.offers[a]) < key(market_.offers[b]);
    });
    for (const std::size_t o : sorted) {
        const Offer& offer = market_.offers[o];
        if (!in_time(offer) || (!without.empty() && without[o])) continue;
        const auto seller = std::find_if(sellers_.begin(), sellers_.end(),
                                         [&](std::size_t s) { return market_.sellers[s].name == offer.seller; });
        problem_.offers.push_back({static_cast<std::size_t>(seller - sellers_.begin()), offer.pack_cents,
                                   std::min(offer.available, unlimited_packs), offer.core_cents == 0});
        offers_.push_back(o);
        add_lots(offers_.size() - 1);
    }
}

void PurchaseModel::add_lots(std::size_t o) {
    std::map<std::pair<std::size_t, std::string>, std::size_t> known;  // possibility, content
    for (std::size_t i = 0; i < needs_.size(); ++i)
        for (const Serves& way : needs_[i].served_by) {
            const std::int64_t amount = in_millionths(offer(o).pack_quantity * way.quantity);
            if (way.item != offer(o).item || amount == 0) continue;
            const auto [lot, is_new] = known.try_emplace({possibility(i), way.content}, lots_.size());
            if (is_new) lots_.push_back({o, amount, {}});
            lots_[lot->second].takers.push_back(i);
        }
}

void PurchaseModel::add_columns() {
    class_of_ = alike(lots_, needs_.size());
    for (std::size_t i = 0; i < needs_.size(); ++i) {
        if (class_of_[i] == first_of_.size()) first_of_.push_back(i), class_wanted_.push_back(0);
        class_wanted_[class_of_[i]] += wanted_[i];
    }
    std::vector<std::vector<Lot>> packs(offers_.size());
    for (Lot lot : lots_) {
        for (std::size_t& taker : lot.takers) taker = class_of_[taker];
        std::sort(lot.takers.begin(), lot.takers.end());
        lot.takers.erase(std::unique(lot.takers.begin(), lot.takers.end()), lot.takers.end());
        packs[lot.column].push_back(std::move(lot));
    }
    for (std::size_t o = 0; o < packs.size(); ++o)
        for (const auto& way : ways(packs[o])) add_column(o, way);
}

// Poured things and what may be meant for several possibilities are not dealt out.
std::vector<std::vector<Lot>> PurchaseModel::ways(const std::vector<Lot>& pack) const {
    const bool counted = std::all_of(pack.begin(), pack.end(), [&](const Lot& lot) {
        return lot.takers.size() == 1 || needs_[first_of_[lot.takers.front()]].unit == "each";
    });
    const auto dealt = counted && possibility_.empty() ? ways_to_deal(pack, class_wanted_, one_piece, most_ways)
                                                       : std::nullopt;
    return dealt ? *dealt : std::vector<std::vector<Lot>>{pack};
}

// What it gives is added group by group.
void PurchaseModel::add_column(std::size_t o, const std::vector<Lot>& way) {
    const std::int64_t core = limits_.cores_come_back ? 0 : offer(o).core_cents;
    for (Lot lot : way) {
        lot.column = problem_.columns.size();
        dealt_.push_back(std::move(lot));
    }
    problem_.columns.push_back({o, offer(o).pack_cents + core, {}});
}

void PurchaseModel::add_groups() {
    const auto groups = groups_that_share(dealt_, first_of_.size(), most_groups);
    if (!groups)
        bad("too many lines share parts with one another for the cheapest order to be found: order fewer jobs at once");
    groups_ = *groups;
    for (const NeedGroup& group : groups_) add_group(group);
}

// By column, in millionths.
std::vector<std::int64_t> PurchaseModel::given_to(const NeedGroup& group) const {
    std::vector<std::int64_t> given(problem_.columns.size());
    for (const Lot& lot : dealt_) {
        const auto takes = [&](std::size_t one) { return std::binary_search(group.begin(), group.end(), one); };
        if (std::any_of(lot.takers.begin(), lot.takers.end(), takes)) given[lot.column] += lot.amount;
    }
    return given;
}

// Amounts in the largest unit that divides what every pack gives; what the group wants is rounded up to it.
void PurchaseModel::add_group(const NeedGroup& group) {
    const auto given = given_to(group);
    std::int64_t wanted = 0, unit = 0;
    for (const std::size_t one : group) wanted += class_wanted_[one];
    for (const std::int64_t amount : given) unit = std::gcd(unit, amount);
    if (unit == 0) unit = wanted;
    const std::int64_t units = (wanted + unit - 1) / unit;
    if (units > std::numeric_limits<int>::max() / 2)
        bad(fmt::format("line {}: its packs have no common measure: round what they hold",
                        needs_[first_of_[group.front()]].line));
    for (std::size_t j = 0; j < given.size(); ++j)
        if (given[j] > 0)
            problem_.columns[j].gives.push_back(
                {problem_.needs.size(), static_cast<int>(std::min(given[j] / unit, units))});
    problem_.needs.push_back(static_cast<int>(units));
}

std::vector<std::size_t> PurchaseModel::possibilities() const {
    std::vector<std::size_t> found;
    for (const NeedGroup& group : groups_) found.push_back(possibility(first_of_[group.front()]));
    return found;
}

bool PurchaseModel::can_reach_minimum(std::size_t seller) const {
    std::int64_t goods = 0;
    for (const CoverOffer& offer : problem_.offers) {
        if (offer.seller != seller) continue;
        if (offer.available >= unlimited_packs && offer.goods_cents > 0) return true;
        goods += offer.goods_cents * offer.available;
    }
    return goods >= problem_.sellers[seller].minimum_cents;
}

// From everyone whose minimum order can be reached, by offer; no more than all lines together could use.
std::vector<int> PurchaseModel::to_be_had() const {
    const std::int64_t wanted = std::accumulate(wanted_.begin(), wanted_.end(), std::int64_t{0});
    std::vector<int> packs(offers_.size());
    for (const Lot& lot : lots_) {
        const CoverOffer& offer = problem_.offers[lot.column];
        const std::int64_t enough = std::min<std::int64_t>((wanted + lot.amount - 1) / lot.amount, offer.available);
        if (can_reach_minimum(offer.seller)) packs[lot.column] = std::max(packs[lot.column], static_cast<int>(enough));
    }
    return packs;
}

// In millionths, by lot.
std::vector<std::int64_t> PurchaseModel::held(const std::vector<int>& packs) const {
    std::vector<std::int64_t> held;
    for (const Lot& lot : lots_) held.push_back(lot.amount * packs[lot.column]);
    return held;
}

std::string PurchaseModel::why_not_at_all(std::size_t need) const {
    bool late = false, unsaid = false;
    for (const Offer& offer : market_.offers) {
        if (in_time(offer) || given_by(needs_[need], offer) == 0) continue;
        (offer.days ? late : unsaid) = true;
    }
    for (std::size_t o = 0; o < offers_.size(); ++o) {
        const std::size_t s = problem_.offers[o].seller;
        if (given_by(needs_[need], offer(o)) > 0 && !can_reach_minimum(s))
            return fmt::format("the minimum order of {}, {}, cannot be reached", seller(s).name,
                               cents_text(seller(s).minimum_cents));
    }
    if (unsaid) return fmt::format("nobody promises it within {}: days not said", days_words(*limits_.within_days));
    if (late) return fmt::format("not to be had within {}", days_words(*limits_.within_days));
    return needs_[need].served_by.empty() ? "no item is known that serves it" : "";
}

std::string PurchaseModel::reason(std::size_t need, const std::vector<std::int64_t>& held) const {
    if (auto why = why_not_at_all(need); !why.empty()) return why;
    std::int64_t alone = 0;
    for (std::size_t l = 0; l < lots_.size(); ++l)
        if (std::count(lots_[l].takers.begin(), lots_[l].takers.end(), need) > 0) alone += held[l];
    if (alone == 0) return "nobody offers it";
    return alone < wanted_[need] ? "not enough of it is offered"
                                 : "not enough of it is offered for all the places that take the same";
}

std::vector<Unmet> PurchaseModel::unmet() const {
    const auto offered = held(to_be_had());
    std::vector<std::int64_t> missing = wanted_;
    for (const LotShare& share : shared_out(lots_, offered, wanted_)) missing[share.need] -= share.amount;
    std::vector<Unmet> unmet;
    for (std::size_t i = 0; i < needs_.size(); ++i)
        if (missing[i] > 0)
            unmet.push_back(
                {needs_[i].line, needs_[i].unit, from_millionths(missing[i]), reason(i, offered), needs_[i].title});
    return unmet;
}

OrderLine PurchaseModel::order_line(std::size_t o, const Given& given) const {
    OrderLine line{offer(o).item, offers_[o], given.packs[o] + given.padding[o], given.padding[o], 0, {}, {}};
    line.pack_quantity = offer(o).pack_quantity;
    line.cents = offer(o).pack_cents * line.packs;
    std::map<std::size_t, std::int64_t> by_need;
    for (const LotShare& share : given.shares)
        if (lots_[share.lot].column == o) by_need[share.need] += share.amount;
    for (const auto& [need, amount] : by_need) {
        line.serves.push_back(needs_[need].line);
        line.gives.push_back(from_millionths(amount));
    }
    return line;
}

SellerOrder PurchaseModel::seller_order(std::size_t s, const Given& given, const std::vector<int>& may_go_back) const {
    std::int64_t counting = 0;
    SellerOrder part{
        seller(s).name, seller(s).own_shelf, false, 0, 0, 0, 0, {}};  // at once, as long as nothing is later
    for (std::size_t o = 0; o < offers_.size(); ++o) {
        if (problem_.offers[o].seller != s || given.packs[o] + given.padding[o] == 0) continue;
        part.lines.push_back(order_line(o, given));
        part.goods_cents += part.lines.back().cents;
        counting += part.lines.back().cents - (may_go_back.empty() ? 0 : offer(o).pack_cents * may_go_back[o]);
        part.core_cents += offer(o).core_cents * part.lines.back().packs;
        part.days = later(part.days, offer(o).days);
    }
    part.carriage_free = seller(s).carriage_cents > 0 && counting >= problem_.sellers[s].free_from_cents;
    if (!part.carriage_free && !part.lines.empty()) part.carriage_cents = seller(s).carriage_cents;
    return part;
}

std::vector<int> PurchaseModel::packs_by_offer(const CoverAnswer& answer) const {
    std::vector<int> packs(offers_.size());
    for (std::size_t j = 0; j < answer.packs.size(); ++j) packs[problem_.columns[j].offer] += answer.packs[j];
    return packs;
}

std::vector<Bought> PurchaseModel::bought(const std::vector<LotShare>& shares) const {
    std::vector<std::int64_t> given(needs_.size());
    for (const LotShare& share : shares) given[share.need] += share.amount;
    std::vector<Bought> bought;
    for (std::size_t i = 0; i < needs_.size(); ++i)
        bought.push_back(
            {needs_[i].line, needs_[i].unit, needs_[i].quantity, from_millionths(given[i]), needs_[i].reserve});
    return bought;
}

Order PurchaseModel::order(const CoverAnswer& answer, const std::vector<int>& may_go_back) const {
    Given given{packs_by_offer(answer), answer.padding, {}};
    given.shares = shared_out(lots_, held(given.packs), wanted_);
    give_the_rest(given.shares, lots_, held(given.packs));
    Order order;
    order.bought = bought(given.shares);
    auto with_padding = given.packs;
    for (std::size_t o = 0; o < with_padding.size(); ++o) with_padding[o] += given.padding[o];
    give_the_rest(given.shares, lots_, held(with_padding));
    order.days = 0;
    for (std::size_t s = 0; s < problem_.sellers.size(); ++s) {
        SellerOrder part = seller_order(s, given, may_go_back);
        if (part.lines.empty()) continue;
        order.goods_cents += part.goods_cents;
        order.carriage_cents += part.carriage_cents;
        order.core_cents += part.core_cents;
        order.days = later(order.days, part.days);
        order.seller_count += !part.own_shelf;
        order.sellers.push_back(std::move(part));
    }
    order.total_cents = order.goods_cents + order.carriage_cents + (limits_.cores_come_back ? 0 : order.core_cents);
    return order;
}

}  // namespace casebound
