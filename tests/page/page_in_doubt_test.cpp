// What is in doubt of a vehicle, and what came and does not fit, on the page: the same as the commands say, settled there.
#include <catch2/catch.hpp>

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "tests/page/page_shop.h"
#include "tests/page/said_in_json.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const std::string doubtful_list = "/vehicle/bookvan/list?job=pan-service";

}  // namespace

TEST_CASE("the list and the order on the page name the same thing to find out first as the commands do") {
    PageShop shop;
    shop.add_bookvan();
    const Args pan_service{{"bookvan", "pan-service"}, {}};
    const auto next = said_in_json(shop, "ask", pan_service)["next"];
    REQUIRE_FALSE(next.is_null());
    CHECK(said_in_json(shop, "list", pan_service)["list"]["next"]["attribute"] == next["attribute"]);
    CHECK(said_in_json(shop, "buy", pan_service)["buy"]["next"]["attribute"] == next["attribute"]);
    const auto title = next["title"].get<std::string>(), how = next["how"].get<std::string>();
    const Document list(shop.get(doubtful_list).body);
    const auto asked = std::find_if(list.elements.begin(), list.elements.end(),
                                    [](const auto& one) { return one.attribute("class") == "what"; });
    REQUIRE(asked != list.elements.end());
    CHECK(asked->text == title);
    CHECK(says(shop.get(doubtful_list), how));
    CHECK(says(shop.get("/vehicle/bookvan/order?job=pan-service"), fmt::format("Find out first: {}. {}", title, how)));
}

TEST_CASE("a mistyped identification number is in doubt on the vehicle's page, and is put right there") {
    PageShop shop;
    const auto add = [&](const std::string& name, const std::string& number) {
        return shop.post("/", {{"form", "new-vehicle"},
                               {"name", name},
                               {"line", "quernmoor-packet"},
                               {"vin", number},
                               {"market", "north-america"}});
    };
    CHECK(add("later", "00AAA00639A000002").status == 422);  // 2009: no such year is on record
    CHECK(add("van", "00AAA00605A000002").status == 303);
    shop.post("/vehicle/van", {{"form", "tell"}, {"attribute", "year"}, {"value", "2007"}, {"evidence", "read"}});
    const auto before = shop.get("/vehicle/van");
    CHECK(says(before, "In doubt: the identification number says model year 2005, and told is year=2007"));
    CHECK(typed_value(before, "correct-vin") == "00AAA00605A000002");
    CHECK(says(shop.get("/vehicle/van/order?job=pan-service"),
               "filter-neck seal: the identification number says model year 2005"));
    CHECK(typed_value(before, "correct-market") == "north-america");
    CHECK(shop.post("/vehicle/van", {{"form", "correct"}, {"vin", "00AAA00677A000002"}, {"market", "north-america"}})
              .status == 303);
    CHECK_FALSE(says(shop.get("/vehicle/van"), "In doubt"));
    CHECK(shop.post("/vehicle/van", {{"form", "correct"}, {"vin", ""}, {"market", ""}}).status == 303);
    CHECK(typed_value(shop.get("/vehicle/van"), "correct-vin").empty());
}

TEST_CASE("what is in doubt and nobody can get at leads to what is left to do, and what it costs") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "44mm"}});
    CHECK(says(shop.get(doubtful_list), "is taken as 41 mm"));
    const auto order = "/vehicle/bookvan/order?job=pan-service";
    CHECK(says(shop.get(order), "Do not order yet"));
    CHECK(shop.post(doubtful_list, {{"form", "cannot-reach/pan_depth"}, {"attribute", "pan_depth"}}).status == 303);
    CHECK(says(shop.get(doubtful_list), "Cannot be got at: pan depth, rail to floor. What is left to do"));
    CHECK(says(shop.get(order), "Nothing that can be got at would tell. What is left:"));
    CHECK(says(shop.get(order), "which pan depth, rail to floor is it for, 41 mm or 61 mm?"));
    CHECK(shop.post(doubtful_list, {{"form", "can-reach/pan_depth"}, {"attribute", "pan_depth"}}).status == 303);
    CHECK(says(shop.get(order), "Do not order yet"));
}

TEST_CASE("the part that came and does not fit goes back by one button") {
    PageShop shop;
    shop.add_bookvan();
    const std::string at = "/vehicle/bookvan/record";
    CHECK(shop.post("/offers", {{"form", "offer"},
                                {"item", "LD-2141"},
                                {"seller", "Pier"},
                                {"price", "30"},
                                {"carriage", "0"},
                                {"returnable", "yes"},
                                {"return_fee", "10%"},
                                {"return_carriage", "4"},
                                {"return_days", "14"}})
              .status == 303);
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}});
    shop.post(at, {{"form", "record/start"}, {"job", "pan-service"}});
    shop.post(at, {{"form", "record/part"},
                   {"what", "received"},
                   {"role", "pan-filter"},
                   {"item", "LD-2141"},
                   {"seller", "Pier"}});
    const Fields wrong{{"form", "record/does-not-fit"},
                       {"role", "pan-filter"},
                       {"item", "LD-2141"},
                       {"measured", "33 mm high, the old one 52 mm"}};
    const auto reply = shop.post(at, wrong);
    CHECK(reply.status == 303);
    const auto after = shop.get(reply.location);
    CHECK(says(after, "DOES NOT MATCH"));
    CHECK(says(after, "SEND IT BACK to Pier: until 2026-12-09; it costs 7.00: 3.00 kept and 4.00 to send it"));
    CHECK(says(after, "Find out next"));
}
