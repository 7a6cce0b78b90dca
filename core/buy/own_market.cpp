#include "core/buy/own_market.h"

#include "core/buy/rounding.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "core/buy/shelf_keeping.h"
#include "core/ground/dates.h"
#include "core/shop/shop_offers.h"
#include "core/verdict/part_number.h"

namespace casebound {

namespace {

constexpr double least_on_shelf = 0.001;  // less than a mL is nothing

// Whole packs, and what an opened one still holds. Of counted things only whole ones. `days`: until it is here.
void add_at_hand(Market& market, const char* where, const std::string& item, double quantity, double pack, bool counted,
                 std::optional<int> days = 0) {
    const auto whole = std::floor(quantity / pack + rounding);
    auto opened = quantity - whole * pack;
    if (counted) opened = std::floor(opened + rounding);
    Offer offer;
    offer.seller = where;
    offer.item = item;
    offer.days = days;
    offer.available = static_cast<int>(std::min<double>(whole, unlimited_packs - 1));
    if (offer.available > 0) market.offers.push_back(offer);
    if (opened < least_on_shelf) return;
    offer.pack_quantity = opened / pack;
    offer.available = 1;
    market.offers.push_back(offer);
}

bool is_counted(const Catalog& catalog, const std::string& kind_key) {
    const auto* kind = catalog.vocabularies().item_kind(kind_key);
    return !kind || kind->unit == "each";
}

// Without what is kept for an open job, of this vehicle or another.
void add_shelf(Market& market, Session& session, const std::set<std::string>& items) {
    const auto kept = kept_on_shelf(session);
    for (const auto& on_shelf : ShopOffers(session.shop()).shelf()) {
        const auto item = session.catalog().item(on_shelf.item);
        if (!item || items.count(on_shelf.item) == 0) continue;
        double quantity = on_shelf.quantity;
        if (const auto found = kept.find(on_shelf.item); found != kept.end())
            for (const auto& one : found->second) quantity -= one.quantity;
        if (!passed_keeping(session.catalog(), on_shelf).empty())
            quantity -= opened_part(session.catalog(), item->key, on_shelf.quantity);
        if (quantity > least_on_shelf)
            add_at_hand(market, own_shelf_name, item->key, quantity, item->pack_quantity,
                        is_counted(session.catalog(), item->kind));
    }
    if (!market.offers.empty()) market.sellers.push_back({own_shelf_name, 0, {}, 0, true});
}

void add_here(Market& market, const std::vector<Piece>& here, const Catalog& catalog,
              const std::set<std::string>& items) {
    const auto before = market.offers.size();
    for (const auto& piece : here) {
        const auto item = catalog.item(piece.item);
        if (!item || items.count(piece.key()) == 0) continue;
        const auto content = catalog.group(piece.content);
        const double pack = content ? 1 : item->pack_quantity;
        const bool whole = is_counted(catalog, content ? content->kind : item->kind);
        const auto days = piece.arrives.empty() ? std::nullopt : std::optional(days_until(piece.arrives));
        add_at_hand(market, here_name, piece.key(), piece.quantity - piece.awaited, pack, whole);
        add_at_hand(market, here_name, piece.key(), piece.awaited, pack, whole, days);
    }
    if (market.offers.size() > before) market.sellers.push_back({here_name, 0, {}, 0, true});
}

}  // namespace

Market own_market(Session& session, const std::vector<Piece>& here, const std::set<std::string>& items) {
    const ShopOffers offers(session.shop());
    Market market;
    add_shelf(market, session, items);
    add_here(market, here, session.catalog(), items);
    std::set<std::string> sellers;
    std::map<std::string, std::string> as_compared;
    for (const auto& item : items) as_compared.emplace(compared_number(item), item);
    for (auto on_file : offers.offers()) {
        if (items.count(on_file.item) == 0) {  // put on file before the part was in a pack, and typed otherwise
            const auto same = as_compared.find(compared_number(on_file.item));
            if (same == as_compared.end() || session.catalog().item(on_file.item)) continue;
            on_file.item = same->second;
        }
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

}  // namespace casebound
