// The page of what was done: a job that cannot be ended says why, entries have numbers, what is on order is filled in.
#include <catch2/catch.hpp>

#include <algorithm>

#include "core/shop/shop_records.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const std::string record_address = "/vehicle/bookvan/record";

struct BegunShop : PageShop {
    BegunShop() {
        add_bookvan();
        REQUIRE(post(record_address, {{"form", "record/start"}, {"job", "pan-service"}}).status == 303);
    }
};

void order_part(const PageShop& shop, const std::string& role, const std::string& item) {
    REQUIRE(
        shop.post(record_address,
                  {{"form", "record/part"}, {"what", "ordered"}, {"role", role}, {"item", item}, {"seller", "Pier"}})
            .status == 303);
}

}  // namespace

TEST_CASE("a job with open lines is not ended: what is open is said beside the form, which keeps what was typed") {
    const BegunShop shop;
    const Fields ending{{"form", "close"}, {"job", "1"},   {"cause", "seal in the case"},
                        {"worked", "yes"}, {"hours", "3"}, {"money", "80"}};
    const auto refused = shop.post(record_address, ending);
    CHECK(refused.status == 422);
    CHECK(says(refused, "not closed"));
    CHECK(says(refused, "pan gasket: TO ORDER"));
    CHECK(typed_value(refused, "close-cause") == "seal in the case");
    CHECK(typed_value(refused, "close-hours") == "3");
    CHECK(typed_value(refused, "close-money") == "80");
    CHECK(ShopRecords(shop.session->shop()).closings("bookvan").empty());
    auto accepted = ending;
    accepted.emplace_back("open", "accepted");
    CHECK(shop.post(record_address, accepted).status == 303);
    accepted.emplace_back("note", "sent from an old page");
    CHECK(shop.post(record_address, accepted).status == 422);  // it is closed already
    CHECK(ShopRecords(shop.session->shop()).closings("bookvan").at(0).worked == "not_known");
}

TEST_CASE("each thing that happened to a part stands with the number by which it is corrected") {
    const BegunShop shop;
    order_part(shop, "pan-filter", "LD-2141");
    order_part(shop, "pan-gasket", "LD-5216");
    const auto page = shop.get(record_address);
    const Document document(page.body);
    const auto table = std::find_if(document.elements.begin(), document.elements.end(), [](const Element& one) {
        return one.name == "table" && one.text.find("What happened, newest first") != std::string::npos;
    });
    REQUIRE(table != document.elements.end());
    CHECK(table->text.find("entry") != std::string::npos);
    CHECK(table->text.find("2026-11-252pan gasketordered") != std::string::npos);  // cell by cell: its day, entry 2
    CHECK(table->text.find("2026-11-251pan filterordered") != std::string::npos);
    const auto refused = shop.post(record_address, {{"form", "record/part"},
                                                    {"what", "received"},
                                                    {"role", "pan-gasket"},
                                                    {"item", "LD-5216"},
                                                    {"corrects", "1"}});
    CHECK(refused.status == 422);
    CHECK(says(refused, "entry 1: it is ordered for pan-filter (LD-2141), not for pan-gasket (LD-5216)"));
}

TEST_CASE("the number of what was ordered for a place is filled into the form of the place") {
    const BegunShop shop;
    order_part(shop, "pan-filter", "LD-2141");
    CHECK(typed_value(shop.get(record_address + "?role=pan-filter"), "record-part-item") == "LD-2141");
    CHECK(typed_value(shop.get(record_address + "?role=pan-gasket"), "record-part-item").empty());
    CHECK(typed_value(shop.get(record_address), "record-part-item").empty());
    order_part(shop, "pan-filter", "Q312-1141");  // two of them: nobody can tell which it is
    CHECK(typed_value(shop.get(record_address + "?role=pan-filter"), "record-part-item").empty());
}

TEST_CASE("what is due, what is doubtful and what a decision rests on are said on the page as the commands say them") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/", {{"form", "new-vehicle"}, {"name", "openvan"}, {"line", "quernmoor-packet"}});  // of any engine
    const auto due = shop.get("/due"), audit = shop.get("/catalog/audit");
    CHECK(says(due, "transmission fluids: Due now"));
    CHECK(says(due, "where engine 2.6"));
    CHECK_FALSE(says(due, "engine=2.6"));
    CHECK_FALSE(says(audit, "build=2006-09"));
    CHECK(says(audit, "build month 2006-09 to 2007-02"));
    const auto decided = shop.get("/vehicle/bookvan/decide?go=1&fix_hours=3.5&hour=22.50&unit_hours=12");
    CHECK(says(decided, "fix hours3.53.53.5typed in"));
    CHECK(says(decided, "hour22.522.522.5typed in"));
}
