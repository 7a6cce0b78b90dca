// Offers on file, sellers, and the own shelf.
#include <fmt/format.h>

#include "core/cover/purchase.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/shop/shop_offers.h"

namespace casebound {

namespace {

constexpr std::size_t rows_a_page = 100;

std::string terms_of(const OfferOnFile& offer, const std::string& currency) {
    std::string text = !offer.returnable   ? "return not said: ask first"
                       : *offer.returnable ? "may go back"
                                           : "cannot go back";
    if (offer.returnable.value_or(false) && offer.return_fee > 0)
        text += fmt::format(", {} % is kept", plain_number(offer.return_fee * 100, 1));
    if (offer.core_cents > 0) text += fmt::format("; core charge {}", money_text(offer.core_cents, currency));
    return text;
}

std::string here(std::optional<int> days) {
    if (!days) return "days until it is here: not said";
    return *days == 0 ? "here at once" : fmt::format("here in {}", plural(static_cast<std::size_t>(*days), "day"));
}

void write_offers(Html& html, const Visit& visit) {
    const auto offers = ShopOffers(visit.session.shop()).offers(visit.asked("item"));
    const auto currency = visit.currency();
    if (offers.empty()) return html.element("p", "No offer on file.");
    write_currency_hint(html, visit);
    const auto stretch = stretch_of(visit, offers.size(), rows_a_page);
    const auto list = html.in("ul", {{"class", "told"}});
    for (std::size_t i = stretch.from; i < stretch.to; ++i) {
        const auto& offer = offers[i];
        const auto item = html.in("li");
        html.element("strong",
                     fmt::format("{} by {}: {}", offer.item, offer.seller, money_text(offer.price_cents, currency)));
        html.element(
            "span",
            fmt::format("{} in a pack; {}; {}{}", plain_number(offer.pack_quantity, 2), here(offer.days),
                        terms_of(offer, currency),
                        visit.session.catalog().item(offer.item) ? "" : "; in no loaded pack, so it serves no line"));
        write_form(html, visit,
                   {fmt::format("withdraw-offer/{}/{}", i, offer.item),
                    "",
                    fmt::format("Take {} by {} off the file", offer.item, offer.seller),
                    {},
                    {},
                    {{"seller", offer.seller}, {"item", offer.item}}});
    }
}

void write_sellers(Html& html, const Visit& visit) {
    const auto currency = visit.currency();
    const auto sellers = ShopOffers(visit.session.shop()).sellers();
    if (sellers.empty()) return;
    html.element("h2", "Sellers");
    HtmlTable table(html, {"seller", "carriage", "free from", "least order"}, "Sellers", false);
    for (const auto& seller : sellers)
        table.row({seller.name, money_text(seller.carriage_cents, currency),
                   seller.free_from_cents ? money_text(*seller.free_from_cents, currency) : "",
                   seller.minimum_cents > 0 ? money_text(seller.minimum_cents, currency) : ""});
}

Form offer_form(const Visit& visit) {
    const auto currency = visit.currency();
    return {
        "offer",
        "Another offer",
        "Put it on file",
        {{"item", "Part number", Field::Kind::words, "", "", visit.asked("item"), {}, true},
         {"seller", "Seller", Field::Kind::words, "", "", "", {}, true},
         {"price", "Price of a pack", Field::Kind::number, currency, "", "", {}, true},
         {"carriage", "Carriage of this seller", Field::Kind::number, currency,
          "Needed once for each seller; 0 when there is none."},
         {"days", "Here in", Field::Kind::number, "days", "0 when it is here at once; left empty, it is not said."}},
        {{"pack", "Items in a pack", Field::Kind::number},
         {"available", "Packs available", Field::Kind::number},
         {"free_from", "Carriage free from", Field::Kind::number, currency},
         {"minimum", "Least order", Field::Kind::number, currency},
         {"returnable",
          "May it go back?",
          Field::Kind::choice,
          "",
          "",
          "",
          {{"", "not said"}, {"yes", "it may go back"}, {"no", "it cannot go back"}}},
         {"return_fee", "Share of the price that is kept", Field::Kind::number, "", "15% or 0.15"},
         {"return_carriage", "Sending a pack back costs", Field::Kind::number, currency},
         {"return_days", "May go back within", Field::Kind::number, "days"},
         {"core", "Core charge", Field::Kind::number, currency},
         {"core_days", "Old part back within", Field::Kind::number, "days"},
         {"note", "Note"}}};
}

void write_shelf(Html& html, const Visit& visit) {
    html.element("h2", "Own shelf");
    const auto shelf = ShopOffers(visit.session.shop()).shelf();
    if (shelf.empty()) {
        html.element("p", "Nothing on the shelf.");
        return;
    }
    const auto stretch = stretch_of(visit, shelf.size(), rows_a_page, "shelf");
    {
        HtmlTable table(html, {"item", "quantity", "last entry", "what it is"}, "Own shelf", false);
        for (std::size_t i = stretch.from; i < stretch.to; ++i) {
            const auto item = visit.session.catalog().item(shelf[i].item);
            table.row({shelf[i].item, plain_number(shelf[i].quantity, 2), shelf[i].last,
                       item ? item->title : "in no loaded pack"});
        }
    }
    write_stretch(html, visit, stretch, rows_a_page, "shelf");
}

void show_offers(Visit& visit, Page& page) {
    page.title = "Offers and shelf";
    auto& html = page.main;
    const auto all = ShopOffers(visit.session.shop()).offers(visit.asked("item")).size();
    html.element("h2", "Offers on file");
    write_offers(html, visit);
    write_stretch(html, visit, stretch_of(visit, all, rows_a_page), rows_a_page);
    write_form(html, visit, offer_form(visit));
    if (visit.request.may_edit) {
        const auto line = html.in("p");
        html.link("/lists", "Take over a seller's list", {{"class", "button"}});
    }
    write_sellers(html, visit);
    write_shelf(html, visit);
    write_form(html, visit,
               {"shelf",
                "Put on the shelf, or take off it",
                "Write it down",
                {{"item", "Part number", Field::Kind::words, "", "", "", {}, true},
                 {"quantity",
                  "Quantity",
                  Field::Kind::number,
                  "",
                  "With its unit for a fluid; below 0 when it was taken.",
                  "",
                  {},
                  true},
                 {"note", "Note"}}});
}

std::string act_offer(Visit& visit) {
    Args args{key_value_args_of(
                  visit, {"item", "seller", "price", "carriage", "days", "pack", "available", "free_from", "minimum",
                          "returnable", "return_fee", "return_carriage", "return_days", "core", "core_days", "note"}),
              {}};
    run_command(visit.session, "offer add", args);
    return "";
}

std::string act_withdraw(Visit& visit) {
    run_command(visit.session, "offer withdraw", Args{{visit.typed("seller"), visit.typed("item")}, {}});
    return "";
}

std::string act_shelf(Visit& visit) {
    run_command(visit.session, "shelf put", Args{key_value_args_of(visit, {"item", "quantity", "note"}), {}});
    return "";
}

}  // namespace

std::vector<Route> offer_routes() { return {{"/offers", "Offers and shelf", show_offers}}; }

std::vector<Action> offer_actions() {
    return {{"offer", act_offer}, {"withdraw-offer", act_withdraw}, {"shelf", act_shelf}};
}

}  // namespace casebound
