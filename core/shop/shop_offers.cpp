#include "core/shop/shop_offers.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

[[noreturn]] void refuse(const std::string& what) { throw Error(Exit::usage, what); }

constexpr std::string_view standing_offers =
    "SELECT seller, item, pack_quantity, price_cents, available, days, returnable, return_fee, return_days, "
    "core_cents, core_days, note, entered, return_carriage_cents"
    " FROM offers o WHERE NOT withdrawn AND id = (SELECT max(id) FROM offers n WHERE n.seller = o.seller AND n.item = "
    "o.item)";

OfferOnFile offer_of(const Statement& row) {
    OfferOnFile offer;
    offer.seller = row.str(0);
    offer.item = row.str(1);
    offer.pack_quantity = row.real(2);
    offer.price_cents = row.integer(3);
    if (!row.is_null(4)) offer.available = row.integer(4);
    if (!row.is_null(5)) offer.days = static_cast<int>(row.integer(5));
    if (!row.is_null(6)) offer.returnable = row.integer(6) != 0;
    offer.return_fee = row.real(7);
    if (!row.is_null(8)) offer.return_days = static_cast<int>(row.integer(8));
    offer.core_cents = row.integer(9);
    if (!row.is_null(10)) offer.core_days = static_cast<int>(row.integer(10));
    offer.note = row.str(11);
    offer.entered = row.str(12);
    offer.return_carriage_cents = row.integer(13);
    return offer;
}

void check(const SellerTerms& seller) {
    if (seller.name.empty()) refuse("seller: no name is given: write seller=NAME");
    if (seller.carriage_cents < 0 || seller.minimum_cents < 0 || seller.free_from_cents.value_or(0) < 0)
        refuse(fmt::format("seller {}: an amount is below 0: write amounts from 0 up", seller.name));
}

void check(const OfferOnFile& offer) {
    const auto place = fmt::format("offer of {} by {}", offer.item, offer.seller);
    if (offer.item.empty()) refuse("offer: no item is given: write item=KEY");
    if (!(offer.pack_quantity > 0))
        refuse(fmt::format("{}: pack {}: a pack holds more than 0", place, plain_number(offer.pack_quantity)));
    if (offer.price_cents < 0 || offer.core_cents < 0 || offer.days.value_or(0) < 0 ||
        offer.return_carriage_cents < 0 || offer.available.value_or(0) < 0)
        refuse(fmt::format("{}: a figure is below 0: write figures from 0 up", place));
    if (!(offer.return_fee >= 0 && offer.return_fee <= 1))
        refuse(fmt::format("{}: a return fee is a share from 0 % to 100 %", place));
    if (offer.return_days.value_or(1) < 1 || offer.core_days.value_or(1) < 1)
        refuse(fmt::format("{}: days to send back: from 1 up", place));
}

void bind_or_null(Statement& into, int index, std::optional<std::int64_t> value) {
    if (value) into.bind(index, *value);
    else into.bind_null(index);
}

void add(const Database& database, const SellerTerms& seller) {
    Statement insert(
        database,
        "INSERT INTO sellers (name, carriage_cents, free_from_cents, minimum_cents, entered) VALUES (?, ?, ?, ?, ?)");
    insert.bind(1, seller.name).bind(2, seller.carriage_cents).bind(4, seller.minimum_cents).bind(5, today());
    bind_or_null(insert, 3, seller.free_from_cents);
    insert.run();
}

void add(const Database& database, const OfferOnFile& offer, bool withdrawn) {
    Statement insert(database,
                     "INSERT INTO offers (seller, item, withdrawn, pack_quantity, price_cents, available, days, "
                     "returnable, return_fee,"
                     " return_days, core_cents, core_days, note, entered, return_carriage_cents) VALUES (?, ?, ?, ?, "
                     "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    insert.bind(1, offer.seller)
        .bind(2, offer.item)
        .bind(3, std::int64_t{withdrawn})
        .bind(4, offer.pack_quantity)
        .bind(5, offer.price_cents);
    bind_or_null(insert, 6, offer.available);
    bind_or_null(insert, 7, offer.days);
    bind_or_null(insert, 8, offer.returnable);
    insert.bind(9, offer.return_fee);
    bind_or_null(insert, 10, offer.return_days);
    insert.bind(11, offer.core_cents);
    bind_or_null(insert, 12, offer.core_days);
    insert.bind_or_null(13, offer.note).bind(14, today()).bind(15, offer.return_carriage_cents);
    insert.run();
}

bool on_file(const Database& database, std::string_view seller) {
    Statement find(database, "SELECT 1 FROM sellers WHERE name = ?");
    return find.bind(1, seller).step();
}

}  // namespace

std::vector<SellerTerms> ShopOffers::sellers() const {
    std::vector<SellerTerms> all;
    Statement rows(database_,
                   "SELECT name, carriage_cents, free_from_cents, minimum_cents, entered FROM sellers s"
                   " WHERE id = (SELECT max(id) FROM sellers n WHERE n.name = s.name) ORDER BY name");
    while (rows.step()) {
        SellerTerms seller{rows.str(0), rows.integer(1), {}, rows.integer(3), rows.str(4)};
        if (!rows.is_null(2)) seller.free_from_cents = rows.integer(2);
        all.push_back(std::move(seller));
    }
    return all;
}

std::vector<OfferOnFile> ShopOffers::offers(std::string_view item) const {
    std::vector<OfferOnFile> all;
    Statement rows(database_, fmt::format("{} AND (?1 = '' OR item = ?1) ORDER BY item, seller", standing_offers));
    rows.bind(1, item);
    while (rows.step()) all.push_back(offer_of(rows));
    return all;
}

std::optional<OfferOnFile> ShopOffers::offer(std::string_view seller, std::string_view item) const {
    Statement row(database_, fmt::format("{} AND seller = ? AND item = ?", standing_offers));
    return row.bind(1, seller).bind(2, item).step() ? std::optional(offer_of(row)) : std::nullopt;
}

void ShopOffers::put(const std::vector<SellerTerms>& sellers, const std::vector<OfferOnFile>& offers) {
    for (const auto& seller : sellers) check(seller);
    for (const auto& offer : offers) check(offer);
    Transaction transaction(database_);
    for (const auto& seller : sellers) add(database_, seller);
    for (const auto& offer : offers) {
        if (!on_file(database_, offer.seller))
            throw Error(
                Exit::no_input,
                fmt::format(
                    "offer of {}: seller {} is not on file: give the carriage, with carriage=0 when there is none",
                    offer.item, offer.seller));
        add(database_, offer, false);
    }
    transaction.commit();
}

void ShopOffers::withdraw(std::string_view seller, std::string_view item) {
    Transaction transaction(database_);
    const auto standing = offer(seller, item);
    if (!standing)
        throw Error(Exit::no_input,
                    fmt::format("offer of {} by {}: there is none on file: see `casebound offer`", item, seller));
    add(database_, *standing, true);
    transaction.commit();
}

std::vector<OnShelf> ShopOffers::shelf() const {
    std::vector<OnShelf> all;
    Statement rows(
        database_,
        "SELECT item, sum(quantity), max(entered), max(opened) FROM shelf_entries GROUP BY item HAVING sum(quantity) > "
        "1e-9 ORDER BY item");
    while (rows.step()) all.push_back({rows.str(0), rows.real(1), rows.str(2), rows.str(3)});
    return all;
}

double ShopOffers::on_shelf(std::string_view item) const {
    Statement row(database_, "SELECT coalesce(sum(quantity), 0) FROM shelf_entries WHERE item = ?");
    return row.bind(1, item).step() ? row.real(0) : 0;
}

void move_on_shelf(Database& shop, const ShelfMove& move) {
    if (move.item.empty() || move.quantity == 0)
        refuse("shelf: write item=KEY quantity=NUMBER, negative for what is taken");
    const double there = ShopOffers(shop).on_shelf(move.item);
    if (there + move.quantity < -1e-9)
        refuse(fmt::format("shelf: {} of {} cannot be taken: there is {} on record", plain_number(-move.quantity),
                           move.item, plain_number(there)));
    Statement insert(
        shop, "INSERT INTO shelf_entries (item, quantity, why, note, entered, opened) VALUES (?, ?, ?, ?, ?, ?)");
    insert.bind(1, move.item).bind(2, move.quantity).bind(3, move.why).bind_or_null(4, move.note).bind(5, today());
    insert.bind_or_null(6, move.opened);
    insert.run();
}

void ShopOffers::shelve(const ShelfMove& move) {
    Transaction transaction(database_);
    move_on_shelf(database_, move);
    transaction.commit();
}

std::int64_t cents_from(std::string_view what, std::string_view text) {
    const auto point = text.find('.');
    const auto whole = text.substr(0, point);
    const auto part = point == std::string_view::npos ? std::string_view() : text.substr(point + 1);
    const auto digits = [](std::string_view some) {
        return std::all_of(some.begin(), some.end(),
                           [](char c) { return std::isdigit(static_cast<unsigned char>(c)); });
    };
    if (whole.empty() || whole.size() > 9 || part.size() > 2 || (point != std::string_view::npos && part.empty()) ||
        !digits(whole) || !digits(part))
        refuse(
            fmt::format("{}: \"{}\" is not an amount: write it as 12.50, from 0 up, at most two decimals, no currency",
                        what, text));
    std::int64_t cents = std::stoll(std::string(whole)) * 100;
    if (part.size() == 1) cents += (part[0] - '0') * 10;
    if (part.size() == 2) cents += (part[0] - '0') * 10 + (part[1] - '0');
    return cents;
}

}  // namespace casebound
