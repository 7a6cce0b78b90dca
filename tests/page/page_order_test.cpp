// The page of an order: what is written down is what was shown, beside each part stands what the command says of it,
// and the three ways to order name the parts.
#include <catch2/catch.hpp>

#include "core/shop/shop_records.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const std::string order_address = "/vehicle/bookvan/order?job=pan-service&without=drain-plug-washer";

void put_on_file(const PageShop& shop, const std::string& item, const std::string& price, Fields more = {},
                 const std::string& seller = "Pier") {
    Fields all{{"form", "offer"}, {"item", item},       {"seller", seller},
               {"price", price},  {"carriage", "4.50"}, {"days", "3"}};
    all.insert(all.end(), more.begin(), more.end());
    REQUIRE(shop.post("/offers", all).status == 303);
}

// The filter may go back and 20 % is kept, the seal cannot, of the gasket nothing is said; the fluid has a core charge.
struct OfferedShop : PageShop {
    OfferedShop() {
        add_bookvan();
        post("/vehicle/bookvan",
             {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}, {"evidence", "measured"}});
        put_on_file(*this, "LD-2141", "24", {{"returnable", "yes"}, {"return_fee", "20%"}, {"return_days", "14"}});
        put_on_file(*this, "LD-4230", "3", {{"returnable", "no"}});
        put_on_file(*this, "LD-5216", "11");
        put_on_file(*this, "Q-QF4-5", "36", {{"core", "7"}, {"core_days", "20"}});
    }
};

// What the form of the order carries unseen; "": no such form is shown.
std::string shown_mark(const PageReply& reply) {
    const Document page(reply.body);
    for (const auto* input : page.all("input"))
        if (input->attribute("name") == "shown") return input->attribute("value");
    return "";
}

std::size_t events_of_bookvan(const PageShop& shop) {
    return ShopRecords(shop.session->shop()).events("bookvan").size();
}

}  // namespace

TEST_CASE("an order that has changed since it was shown is not written down, and the new one is shown") {
    const OfferedShop shop;
    const auto mark = shown_mark(shop.get(order_address));
    REQUIRE_FALSE(mark.empty());
    CHECK(shown_mark(shop.get(order_address)) == mark);
    put_on_file(shop, "LD-2141", "9", {}, "Nord");  // 9 and 4.50 of carriage are less than 24
    const auto refused = shop.post(order_address, {{"form", "ordered"}, {"shown", mark}});
    CHECK(refused.status == 422);
    CHECK(says(refused, "This is not the order that was shown: it has changed since."));
    CHECK(says(refused, "From Nord"));
    CHECK(shop.post(order_address, {{"form", "ordered"}}).status == 422);
    CHECK(events_of_bookvan(shop) == 0);
    CHECK(shown_mark(refused) != mark);
    CHECK(shop.post(order_address, {{"form", "ordered"}, {"shown", shown_mark(refused)}}).status == 303);
    CHECK(events_of_bookvan(shop) == 4);
}

TEST_CASE("a changed term of return is another order, though the price is the same") {
    const OfferedShop shop;
    const auto mark = shown_mark(shop.get(order_address));
    put_on_file(shop, "LD-2141", "24", {{"returnable", "no"}});
    CHECK(shop.post(order_address, {{"form", "ordered"}, {"shown", mark}}).status == 422);
    CHECK(events_of_bookvan(shop) == 0);
}

TEST_CASE("beside each part of the order stand its terms") {
    const OfferedShop shop;
    const auto page = shop.get(order_address);
    CHECK(says(page, "20 % is kept"));
    CHECK(says(page, "cannot go back"));
    CHECK(says(page, "return not said by Pier: ask first"));
    CHECK(says(page, "core charge 7.00, old part back "));
}

TEST_CASE("what is all on order already is not offered to be written down again") {
    const OfferedShop shop;
    REQUIRE(shop.post(order_address, {{"form", "ordered"}, {"shown", shown_mark(shop.get(order_address))}}).status ==
            303);
    const auto page = shop.get(order_address);
    CHECK(says(page, "Nothing is left to order: all of it is on order or here."));
    CHECK(shown_mark(page).empty());
    CHECK_FALSE(says(page, "Total 0.00"));
    CHECK_FALSE(says(page, "Proven"));
    CHECK(shop.post(order_address, {{"form", "ordered"}, {"shown", ""}}).status == 422);
    CHECK(events_of_bookvan(shop) == 4);
}

// Each part costs 20 and the carriage 4.50. Hydraulic: one pair of mounts and 4 bolts, 5 x 20 + 4.50 = 104.50; solid: a
// left one, a right one and 4 bolts, 6 x 20 + 4.50 = 124.50.
TEST_CASE("the three ways to order name what to order, now and once it is known, and what is left over") {
    PageShop shop;
    shop.add_bookvan();
    for (const auto* item : {"MR-P42", "Q420-1010", "Q420-1020", "Q901-1035"}) put_on_file(shop, item, "20");
    const auto page = shop.get("/vehicle/bookvan/order?job=engine-mounts");
    CHECK(says(page, "Then in every case: 4 x Q901-1035 from Pier."));
    CHECK(says(page, "hydraulic (50 %): 104.50; then order 1 x MR-P42 from Pier"));
    CHECK(says(page, "solid (50 %): 124.50; then order 1 x Q420-1010 from Pier, 1 x Q420-1020 from Pier"));
    CHECK(says(page, "Order now: 1 x MR-P42 from Pier, 4 x Q901-1035 from Pier."));
    CHECK(says(page, "left over: 1 x MR-P42"));
    CHECK(says(page, "left over: 1 x Q420-1010; left over: 1 x Q420-1020"));
}

TEST_CASE(
    "what is on order and serves no line any more, and what was looked at and left in, is said beside the order") {
    const OfferedShop shop;
    CHECK_FALSE(says(shop.get(order_address), "CHECK"));
    REQUIRE(shop.post(order_address, {{"form", "ordered"}, {"shown", shown_mark(shop.get(order_address))}}).status ==
            303);
    for (int times = 0; times < 2; ++times)  // what comes out twice stands
        shop.post("/vehicle/bookvan",
                  {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "61mm"}, {"evidence", "measured"}});
    CHECK(says(shop.get(order_address), "CHECK: LD-2141, ordered"));
    CHECK(says(shop.get(order_address), "serves no line of this order: stop it or send it back"));
    REQUIRE(shop.post("/vehicle/bookvan/record",
                      {{"form", "record/part"}, {"what", "looked_at"}, {"role", "pan-gasket"}, {"state", "sound"}})
                .status == 303);
    CHECK(says(shop.get(order_address), "Looked at and left in: pan gasket (sound"));
}
