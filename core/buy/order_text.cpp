#include "core/buy/order_text.h"
#include "core/ground/shown.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/report.h"
#include "core/shop/shop_settings.h"

namespace casebound {

std::string money_text(std::int64_t cents, const std::string& currency) {
    return currency.empty() ? cents_text(cents) : fmt::format("{} {}", cents_text(cents), currency);
}

std::string currency_of(Session& session) { return ShopSettings(session.shop()).get("currency").value_or(""); }

std::string currency_hint(const std::string& currency) {
    return currency.empty() ? "Prices have no currency yet (cu): casebound shop set currency=EUR, or another.\n" : "";
}

std::string amount_text(double value, const std::string& unit) { return shown_quantity(value, unit); }

std::string days_text(int days) {
    return days == 0 ? "at once" : "in " + plural(static_cast<std::size_t>(days), "day");
}

std::string packs_text(int packs, double pack_quantity) {
    if (pack_quantity == 1) return fmt::format("{}", packs);
    return fmt::format("{} of {}", plural(static_cast<std::size_t>(packs), "pack"), plain_number(pack_quantity, 3));
}

std::string here_text(std::optional<int> days) { return days ? "here " + days_text(*days) : "days not said"; }

std::vector<std::string> days_not_said_by(const Order& order) {
    std::vector<std::string> sellers;
    for (const auto& seller : order.sellers)
        if (!seller.days) sellers.push_back(seller.seller);
    return sellers;
}

std::string arrival_text(const Order& order) {
    if (order.days)
        return fmt::format("Everything is here {}{}.", days_text(*order.days),
                           *order.days > 0 ? ": start then, not before" : "");
    std::optional<int> rest;
    for (const auto& seller : order.sellers)
        if (seller.days && !seller.own_shelf) rest = std::max(rest.value_or(0), *seller.days);
    return fmt::format("Arrival not known: days not said by {}{}.", fmt::join(days_not_said_by(order), ", "),
                       rest ? fmt::format("; the rest is here {}", days_text(*rest)) : "");
}

std::string return_text(const Offer& offer, const std::string& currency) {
    if (!offer.returnable) return fmt::format("return not said by {}: ask first", offer.seller);
    if (!*offer.returnable) return "cannot go back";
    std::vector<std::string> lost;
    if (offer.return_fee > 0) lost.push_back(fmt::format("{} % is kept", plain_number(offer.return_fee * 100, 1)));
    if (offer.return_carriage_cents > 0)
        lost.push_back(fmt::format("{} to send one back", money_text(offer.return_carriage_cents, currency)));
    return fmt::format("may go back{}{}{}{}", offer.return_by.empty() ? "" : " ", offer.return_by,
                       lost.empty() ? "" : "; ", fmt::join(lost, ", "));
}

std::vector<std::string> deciding_titles(const Buying& buying) {
    std::vector<std::string> titles;
    for (const auto& key : buying.deciding) titles.push_back(title_of(buying, key));
    return titles;
}

std::string as_typed(const std::string& told) {
    const auto sign = told.find('=');
    const auto words = spaced(told.substr(0, sign)) + (sign == std::string::npos ? "" : told.substr(sign));
    return words.find(' ') == std::string::npos ? words : '"' + words + '"';
}

bool settled_by_question(const Buying& buying) {
    return question_comes_first(buying.list) && buying.deciding.size() == 1 &&
           buying.deciding.front() == buying.list.next->column->attribute.name;
}

std::string settling_text(const Buying& buying, const std::string& vehicle, const std::string& price) {
    const auto* asked = question_comes_first(buying.list) ? &buying.list.next->column->attribute : nullptr;
    const auto titles = fmt::format("{}", fmt::join(deciding_titles(buying), " and "));
    if (asked && !among(buying.deciding, asked->name))  // one thing to do next, and this after it
        return wrapped(fmt::format("If that does not tell: {}; {}.", titles, price), 0, 2);
    if (settled_by_question(buying)) return wrapped(fmt::format("All told, with getting at it: {}.", price), 0, 2);
    std::vector<std::string> names;
    for (const auto& key : buying.deciding) names.push_back(spaced(key));
    return wrapped(fmt::format("It hangs on: {}; {}.", titles, price), 0, 2) +
           wrapped(fmt::format("casebound vehicle tell {} {} VALUE measured", vehicle, fmt::join(names, " VALUE ")), 2,
                   4);
}

std::string first_of(const std::vector<std::string>& names) {
    constexpr std::size_t most = 6;
    if (names.size() <= most) return fmt::format("{}", fmt::join(names, ", "));
    return fmt::format("{} and {} more", fmt::join(names.begin(), names.begin() + most - 1, ", "),
                       names.size() - most + 1);
}

std::string title_of(const Buying& buying, const std::string& key) {
    const auto found = buying.titles.find(key);
    return found == buying.titles.end() ? key : found->second;
}

// What is here of a kit is counted part by part; it is one kit to read.
std::string item_words(const Buying& buying, const std::string& key) {
    const auto piece = std::find_if(buying.here.begin(), buying.here.end(),
                                    [&](const Piece& one) { return one.key() == key; });
    return piece == buying.here.end() ? key : named(piece->item, piece->content);
}

std::string titles_of(const Buying& buying, const std::vector<std::string>& keys) {
    std::vector<std::string> titles;
    for (const auto& key : keys) titles.push_back(title_of(buying, key));
    return listed_titles(titles);
}

std::int64_t tax_cents(const Order& order, double percent) {
    return std::llround(static_cast<double>(order.goods_cents + order.carriage_cents) * percent / 100);
}

std::optional<std::int64_t> pro_rata_cents(const Order& order, const Bought& bought) {
    double cents = 0;
    for (const auto& seller : order.sellers)
        for (const auto& line : seller.lines) {
            if (std::find(line.serves.begin(), line.serves.end(), bought.line) == line.serves.end()) continue;
            if (seller.own_shelf || line.serves.size() > 1 || line.packs == line.padding) return std::nullopt;
            cents += static_cast<double>(line.cents) * (line.packs - line.padding) / line.packs;
        }
    return std::llround(cents * bought.spare() / bought.bought);
}

namespace {

// What an opened one at hand still holds.
std::string opened_text(const Buying& buying, const OrderLine& line) {
    const auto pack = line.pack_quantity;
    const auto needs = [&](const Need& need) { return need.line == line.serves.front(); };
    const auto of = [&](const std::vector<Need>& some) -> std::optional<std::string> {
        const auto need = std::find_if(some.begin(), some.end(), needs);
        if (need == some.end()) return std::nullopt;
        for (const auto& way : need->served_by)
            if (way.item == line.item) return "opened, " + amount_text(pack * way.quantity, need->unit);
        return std::nullopt;
    };
    if (line.serves.empty()) return plain_number(pack, 2);
    if (auto text = of(buying.needs)) return *text;
    for (const auto& possibility : buying.possible)
        if (auto text = of(possibility.needs)) return *text;
    return plain_number(pack, 2);
}

}  // namespace

bool is_opened(const SellerOrder& seller, const OrderLine& line) { return seller.own_shelf && line.pack_quantity != 1; }

std::string packs_words(const Buying& buying, const SellerOrder& seller, const OrderLine& line) {
    return is_opened(seller, line) ? opened_text(buying, line) : packs_text(line.packs, line.pack_quantity);
}

std::vector<std::string> line_terms(const Buying& buying, const SellerOrder& seller, const OrderLine& line,
                                    const std::string& currency) {
    const auto& offer = buying.market.offers.at(line.offer);
    std::vector<std::string> notes;
    if (const auto found = buying.notes.find(line.item); found != buying.notes.end())
        notes.insert(notes.end(), found->second.begin(), found->second.end());
    if (line.padding > 0)
        notes.push_back(fmt::format("{} of them only to reach free carriage or the least order", line.padding));
    if (offer.core_cents > 0)
        notes.push_back(fmt::format("core charge {}{}", money_text(offer.core_cents * line.packs, currency),
                                    offer.core_return_by.empty() ? "" : ", old part back " + offer.core_return_by));
    if (!seller.own_shelf) notes.push_back(return_text(offer, currency));
    return notes;
}

namespace {

std::string offer_notes(const Buying& buying, const SellerOrder& seller, const OrderLine& line,
                        const std::string& currency) {
    auto notes = line_terms(buying, seller, line, currency);
    if (const auto title = title_of(buying, line.item); title != line.item) notes.insert(notes.begin(), title);
    return fmt::format("{}", fmt::join(notes, "; "));
}

std::string carriage_text(const SellerOrder& seller, const Market& market, const std::string& currency) {
    if (!seller.carriage_free)
        return seller.carriage_cents == 0 ? "no carriage" : "carriage " + money_text(seller.carriage_cents, currency);
    for (const auto& one : market.sellers)
        if (one.name == seller.seller && one.free_from_cents)
            return fmt::format("carriage free from {} on", money_text(*one.free_from_cents, currency));
    return "carriage free";
}

std::string seller_text(const Buying& buying, const SellerOrder& seller, const std::string& currency) {
    std::string out = seller.own_shelf
                          ? wrapped(fmt::format("{}: take", seller.seller))
                          : wrapped(fmt::format("{}: goods {}, {}, {}", seller.seller,
                                                money_text(seller.goods_cents, currency),
                                                carriage_text(seller, buying.market, currency), here_text(seller.days)),
                                    0, 2);
    Table table({"item", "packs", "price", "for"});
    for (const auto& line : seller.lines) {
        table.row({item_words(buying, line.item), packs_words(buying, seller, line), money_text(line.cents, currency),
                   titles_of(buying, line.serves)});
        if (const auto notes = offer_notes(buying, seller, line, currency); !notes.empty()) table.under(notes);
    }
    return out + table.text();
}

std::string left_over_text(const Buying& buying, const Order& order, const std::string& currency) {
    std::string out;
    for (const auto& bought : order.bought) {
        const auto title = title_of(buying, bought.line);
        if (bought.spare() <= 1e-9) {
            if (bought.reserve > 0) out += wrapped(fmt::format("Needed of {}: {}.", title, need_text(bought)), 2, 4);
            continue;
        }
        const auto worth = pro_rata_cents(order, bought);
        out += wrapped(
            fmt::format("Left over for the shelf: {} of {}{}.{}", amount_text(bought.spare(), bought.unit), title,
                        worth ? fmt::format(", {} pro rata (not counted)", money_text(*worth, currency)) : "",
                        bought.reserve > 0 ? fmt::format(" Needed: {}.", need_text(bought)) : ""),
            2, 4);
    }
    return out;
}

// What is to be paid beside the total, and what of it comes back.
std::string to_pay_text(const Order& order, double tax_percent, const std::string& currency) {
    const auto tax = tax_cents(order, tax_percent);
    std::string out;
    if (tax > 0)
        out += wrapped(fmt::format("Sales tax of {} % on top: {}, together {}.", plain_number(tax_percent, 3),
                                   money_text(tax, currency), money_text(order.total_cents + tax, currency)),
                       0, 2);
    if (const auto cores = cores_text(order, currency); !cores.empty()) out += wrapped(cores, 0, 2);
    return out;
}

}  // namespace

bool cores_lost(const Order& order) { return order.total_cents > order.goods_cents + order.carriage_cents; }

std::string total_text(const Order& order, const std::string& currency) {
    return fmt::format("Total {}: goods {}, carriage {}{}", money_text(order.total_cents, currency),
                       money_text(order.goods_cents, currency), money_text(order.carriage_cents, currency),
                       cores_lost(order) ? ", core charges " + money_text(order.core_cents, currency) : "");
}

std::string cores_text(const Order& order, const std::string& currency) {
    if (order.core_cents <= 0) return "";
    return fmt::format("Core charges of {} {}.", money_text(order.core_cents, currency),
                       cores_lost(order) ? "are in the total, and lost: there is no old part to hand in"
                                         : "on top come back with the old parts, in time");
}

std::string need_text(const Bought& bought) {
    const auto needed = amount_text(bought.needed, bought.unit);
    return bought.reserve > 0 ? fmt::format("{}, of which {} reserve", needed, amount_text(bought.reserve, bought.unit))
                              : needed;
}

std::string order_text(const Buying& buying, const Order& order, double tax_percent, const std::string& currency) {
    std::string out;
    for (const auto& seller : order.sellers) out += seller_text(buying, seller, currency);
    const auto unit = currency.empty() ? "cu" : currency;  // what is to be paid is never a bare number
    out += wrapped(fmt::format("{}. {}", total_text(order, unit), arrival_text(order)), 0, 2);
    return out + to_pay_text(order, tax_percent, currency) + left_over_text(buying, order, currency);
}

namespace {

template <class Number> Json or_null(const std::optional<Number>& value) {
    return value ? Json(*value) : Json(nullptr);
}

}  // namespace

Json json_of(const Order& order, double tax_percent) {
    Json json{{"total_cents", order.total_cents},
              {"goods_cents", order.goods_cents},
              {"carriage_cents", order.carriage_cents},
              {"core_cents", order.core_cents},
              {"cores_lost", cores_lost(order)},
              {"tax_cents", tax_cents(order, tax_percent)},
              {"days", or_null(order.days)},
              {"days_not_said_by", days_not_said_by(order)},
              {"seller_count", order.seller_count}};
    json["sellers"] = Json::array();
    for (const auto& seller : order.sellers) {
        Json one{{"seller", seller.seller},
                 {"own_shelf", seller.own_shelf},
                 {"carriage_free", seller.carriage_free},
                 {"goods_cents", seller.goods_cents},
                 {"carriage_cents", seller.carriage_cents},
                 {"core_cents", seller.core_cents},
                 {"days", or_null(seller.days)}};
        one["lines"] = Json::array();
        for (const auto& line : seller.lines)
            one["lines"].push_back({{"item", line.item},
                                    {"packs", line.packs},
                                    {"pack", line.pack_quantity},
                                    {"padding", line.padding},
                                    {"cents", line.cents},
                                    {"serves", line.serves},
                                    {"gives", line.gives}});
        json["sellers"].push_back(std::move(one));
    }
    json["bought"] = Json::array();
    for (const auto& bought : order.bought) {
        Json one{{"role", bought.line},     {"unit", bought.unit},     {"needed", bought.needed},
                 {"bought", bought.bought}, {"spare", bought.spare()}, {"reserve", bought.reserve}};
        const auto worth = pro_rata_cents(order, bought);
        one["spare_pro_rata_cents"] = or_null(worth);
        json["bought"].push_back(std::move(one));
    }
    return json;
}

}  // namespace casebound
