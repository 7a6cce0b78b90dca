// Offers on file and the own shelf.
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/buy/order_lines.h"
#include "core/buy/order_report.h"
#include "core/buy/order_text.h"
#include "core/buy/shelf_keeping.h"
#include "core/commands/offer_file.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/shop/shop_settings.h"
#include "core/verdict/part_number.h"
#include "core/work/key_value_args.h"
#include "core/work/record_words.h"

namespace casebound {

namespace {

Json json_of_offer(const OfferOnFile& offer) {
    Json json{{"seller", offer.seller},
              {"item", offer.item},
              {"pack", offer.pack_quantity},
              {"price_cents", offer.price_cents},
              {"days", offer.days ? Json(*offer.days) : Json(nullptr)},
              {"returnable", offer.returnable ? Json(*offer.returnable) : Json(nullptr)},
              {"return_fee", offer.return_fee},
              {"return_carriage_cents", offer.return_carriage_cents},
              {"core_cents", offer.core_cents},
              {"note", offer.note},
              {"entered", offer.entered}};
    json["available"] = offer.available ? Json(*offer.available) : Json(nullptr);
    json["return_days"] = offer.return_days ? Json(*offer.return_days) : Json(nullptr);
    json["core_days"] = offer.core_days ? Json(*offer.core_days) : Json(nullptr);
    return json;
}

std::string terms_text(const OfferOnFile& offer, const std::string& currency) {
    std::string terms = !offer.returnable ? "return not said" : *offer.returnable ? "may go back" : "cannot go back";
    if (offer.returnable.value_or(false) && offer.return_fee > 0)
        terms += fmt::format(", {} % kept", plain_number(offer.return_fee * 100, 1));
    if (offer.core_cents > 0) terms += fmt::format("; core charge {}", money_text(offer.core_cents, currency));
    if (offer.entered != today()) terms += "; of " + offer.entered;
    return terms;
}

// "16.00", and of a pack "16.00 for 2".
std::string price_text(const OfferOnFile& offer, const std::string& currency) {
    const auto price = money_text(offer.price_cents, currency);
    return offer.pack_quantity == 1 ? price : fmt::format("{} for {}", price, plain_number(offer.pack_quantity, 3));
}

Result offers_answer(Session& session, const std::vector<OfferOnFile>& offers, const std::string& notes = {}) {
    const ShopOffers on_file(session.shop());
    const auto currency = currency_of(session);
    if (session.json()) {
        auto json = document("offers");
        json["currency"] = currency;
        json["offers"] = Json::array();
        for (const auto& offer : offers) json["offers"].push_back(json_of_offer(offer));
        json["sellers"] = Json::array();
        for (const auto& seller : on_file.sellers())
            json["sellers"].push_back(
                {{"name", seller.name},
                 {"carriage_cents", seller.carriage_cents},
                 {"free_from_cents", seller.free_from_cents ? Json(*seller.free_from_cents) : Json(nullptr)},
                 {"minimum_cents", seller.minimum_cents},
                 {"entered", seller.entered}});
        return {Exit::yes, json_text(json)};
    }
    if (offers.empty())
        return {Exit::yes,
                notes + "No offer on file: casebound offer add seller=NAME carriage=0 item=KEY price=12.50\n"};
    Table table({"item", "seller", "price", "days", "terms"});
    for (const auto& offer : offers) {
        table.row({offer.item, offer.seller, price_text(offer, currency),
                   offer.days ? fmt::format("{}", *offer.days) : "not said", terms_text(offer, currency)});
    }
    std::string sellers;
    for (const auto& seller : on_file.sellers())
        sellers += wrapped(
            fmt::format("{}: carriage {}{}{}", seller.name, money_text(seller.carriage_cents, currency),
                        seller.free_from_cents ? ", free from " + money_text(*seller.free_from_cents, currency) : "",
                        seller.minimum_cents > 0 ? ", least order " + money_text(seller.minimum_cents, currency) : ""),
            2, 2);
    return {Exit::yes, notes + table.text() + sellers + currency_hint(currency)};
}

std::string unknown_note(Session& session, const std::string& item) {
    if (session.catalog().item(item)) return "";
    const auto near = session.catalog().near(item, "items");
    return wrapped(fmt::format("Noted, but {} is no item of a loaded pack{}.", item,
                               near.empty() ? "" : fmt::format(": did you mean {}?", near.front())),
                   0, 2);
}

Result run_offer_add(Session& session, const Args& args) {
    auto made = offer_from(KeyValueArgs(args.words, 0, offer_keys()));
    made.offer.item = item_meant(session.catalog(), made.offer.item);
    ShopOffers offers(session.shop());
    std::vector<SellerTerms> sellers;
    if (made.terms.any()) sellers.push_back(made.terms.of(made.offer.seller));
    offers.put(sellers, {made.offer});
    return offers_answer(session, offers.offers(made.offer.item), unknown_note(session, made.offer.item));
}

// What a seller's list no longer has stays on offer at its old price until somebody takes it away.
std::string not_listed_text(const std::vector<OfferOnFile>& on_file, const std::vector<OfferOnFile>& listed) {
    constexpr std::size_t most_named = 5;
    std::map<std::string, std::vector<std::string>> by_seller;
    std::set<std::pair<std::string, std::string>> here;
    for (const auto& offer : listed) {
        by_seller.try_emplace(offer.seller);
        here.emplace(offer.seller, offer.item);
    }
    for (const auto& old : on_file) {
        const auto seller = by_seller.find(old.seller);
        if (seller != by_seller.end() && !here.contains({old.seller, old.item}) && old.entered != today())
            seller->second.push_back(fmt::format("{} of {}", old.item, old.entered));
    }
    std::string out;
    for (auto& [seller, items] : by_seller) {
        if (items.empty()) continue;
        const auto count = items.size();
        if (count > most_named) items.resize(most_named);
        out += wrapped(fmt::format("{}: still on offer, and not in this file: {}{}. What is no longer sold: casebound "
                                   "offer withdraw SELLER ITEM",
                                   seller, fmt::join(items, ", "),
                                   count > most_named ? fmt::format(" and {} more", count - most_named) : ""),
                       0, 2);
    }
    return out;
}

Result run_offer_load(Session& session, const Args& args) {
    const auto read = read_offers(args.words.at(0),
                                  [&](const std::string& item) { return item_meant(session.catalog(), item); });
    std::string notes;
    for (const auto& offer : read.offers) notes += unknown_note(session, offer.item);
    ShopOffers on_file(session.shop());
    notes += not_listed_text(on_file.offers(), read.offers);
    on_file.put(read.sellers, read.offers);
    notes += fmt::format("{} on file.\n", plural(read.offers.size(), "offer"));
    return offers_answer(session, on_file.offers(), notes);
}

Result run_offer_list(Session& session, const Args& args) {
    return offers_answer(
        session, ShopOffers(session.shop())
                     .offers(args.words.empty() ? std::string() : item_meant(session.catalog(), args.words[0])));
}

Result run_offer_withdraw(Session& session, const Args& args) {
    ShopOffers offers(session.shop());
    const auto on_file = offers.offers(args.words.at(1));  // as it was typed then, else as it is meant
    offers.withdraw(args.words.at(0), on_file.empty() ? item_meant(session.catalog(), args.words[1]) : args.words[1]);
    return offers_answer(session, offers.offers(),
                         fmt::format("{} by {}: no longer offered.\n", args.words[1], args.words[0]));
}

// "" for an item of no loaded pack.
std::string unit_of(Session& session, const std::string& key) {
    const auto item = session.catalog().item(key);
    const auto* kind = item ? session.catalog().vocabularies().item_kind(item->kind) : nullptr;
    return kind ? kind->unit : "";
}

Result shelf_answer(Session& session) {
    const auto shelf = ShopOffers(session.shop()).shelf();
    if (session.json()) {
        auto json = document("shelf");
        json["shelf"] = Json::array();
        for (const auto& one : shelf)
            json["shelf"].push_back({{"item", one.item},
                                     {"quantity", one.quantity},
                                     {"unit", unit_of(session, one.item)},
                                     {"last", one.last},
                                     {"opened", one.opened},
                                     {"passed", passed_keeping(session.catalog(), one)}});
        return {Exit::yes, json_text(json)};
    }
    if (shelf.empty()) return {Exit::yes, "Nothing on the shelf.\n"};
    Table table({"item", "quantity", "last entry", "what it is"});
    for (const auto& one : shelf) {
        const auto item = session.catalog().item(one.item);
        table.row({one.item, amount_text(one.quantity, item ? unit_of(session, one.item) : "each"), one.last,
                   item ? item->title : "in no loaded pack"});
        if (const auto passed = passed_keeping(session.catalog(), one); !passed.empty())
            table.under(passed + ": not used for an order");
        else if (!one.opened.empty()) table.under("opened " + one.opened);
    }
    return {Exit::yes, table.text()};
}

Result run_shelf_put(Session& session, const Args& args) {
    const KeyValueArgs words(args.words, 0, {"item", "quantity", "note", "why", "opened"});
    const auto item = item_meant(session.catalog(), words.need("item"));
    const auto unit = unit_of(session, item);
    words.need("quantity");
    const auto quantity = *words.number("quantity", unit == "each" ? "" : unit);
    const auto opened = date_if(words, "opened");
    if (opened > today())
        throw Error(Exit::usage, fmt::format("opened: {} has not come yet: write the day it was opened", opened));
    ShopOffers(session.shop())
        .shelve({item, quantity, words.text("why", quantity < 0 ? "taken" : "counted"), words.text("note"), opened});
    return shelf_answer(session);
}

// What came for the vehicle's jobs and was not used goes on the shelf, once.
Result run_shelf_keep(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    ShopRecords records(session.shop());
    std::vector<std::int64_t> closed;
    for (const auto& closing : records.closings(vehicle)) closed.push_back(closing.job);
    NewWork work;
    for (const auto& one : left_for_the_shelf(records.events(vehicle), closed)) {
        LineEvent event;
        event.job = one.job;
        event.role = one.role;
        event.event = "left_over";
        event.item = one.item;
        event.quantity = one.quantity;
        work.events.push_back(event);
        work.shelf.push_back(
            {one.item, one.quantity, "left over", vehicle, day_opened(session.catalog(), one.item, one.quantity, "")});
    }
    records.add(vehicle, work);
    return shelf_answer(session);
}

Result run_shelf_list(Session& session, const Args&) { return shelf_answer(session); }

}  // namespace

std::vector<Command> offer_commands() {
    return {
        {"offer add",
         "seller=NAME item=KEY price=12.50 [KEY=VALUE...]",
         "put an offer on file; carriage, free-from and minimum are the seller's, for all that is ordered there",
         1,
         any_number,
         {dry_run},
         one_write<run_offer_add>,
         "casebound offer add seller=Gullane item=PF-33 price=12.50 carriage=4.90 days=2 return-fee=15%",
         {{"KEY", as_typed(offer_keys())}}},
        {"offer load",
         "FILE",
         "put the offers of a CSV file, or - for standard input, on file; its header names the keys of `offer add`",
         1,
         1,
         {dry_run},
         one_write<run_offer_load>,
         "casebound offer load offers.csv"},
        {"offer list", "[ITEM]", "the offers on file", 0, 1, {}, run_offer_list, "casebound offer list"},
        {"offer withdraw",
         "SELLER ITEM",
         "an offer that no longer stands",
         2,
         2,
         {dry_run},
         one_write<run_offer_withdraw>,
         "casebound offer withdraw Gullane PF-33"},
        {"shelf put",
         "item=KEY quantity=NUMBER [opened=DATE] [note=TEXT]",
         "what came on the own shelf, or, below 0, was taken from it",
         2,
         any_number,
         {dry_run},
         one_write<run_shelf_put>,
         "casebound shelf put item=PF-33 quantity=1"},
        {"shelf keep",
         "VEHICLE",
         "put on the shelf what came for its jobs and was not used",
         1,
         1,
         {dry_run},
         one_write<run_shelf_keep>,
         "casebound shelf keep van"},
        {"shelf list", "", "what lies on the own shelf", 0, 0, {}, run_shelf_list, "casebound shelf list"},
    };
}

}  // namespace casebound
