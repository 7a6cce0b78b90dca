// What a form does: the same as the command of its name, at once visible; what is refused changes nothing and keeps
// what was typed.
#include <catch2/catch.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "core/cover/market.h"
#include "core/reason/vocabulary.h"
#include "core/verdict/parts_list.h"
#include "tests/page/page_shop.h"
#include "tests/page/said_in_json.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const std::string list_address = "/vehicle/bookvan/list?job=pan-service";

// The verdict that stands with a line of the parts list.
std::string verdict_of(const PageReply& reply, const std::string& title) {
    const Document page(reply.body);
    for (std::size_t i = 0; i < page.elements.size(); ++i) {
        if (page.elements[i].name != "h4" || page.elements[i].text != title) continue;
        for (std::size_t j = i; j < page.elements.size(); ++j)
            if (page.elements[j].attribute("class").rfind("verdict is-", 0) == 0) return page.elements[j].text;
    }
    return "no such line";
}

// Which order a page shows, as its form says.
std::string mark_in(const std::string& body) {
    const Document page(body);
    for (const Element* one : page.all("input"))
        if (one->attribute("name") == "shown") return std::string(one->attribute("value"));
    return {};
}

}  // namespace

TEST_CASE("answering the question on the parts list changes the list in place") {
    PageShop shop;
    shop.add_bookvan();
    const auto before = shop.get(list_address);
    CHECK(verdict_of(before, "pan filter") == "check first");
    CHECK(says(before, "Not ready"));
    const auto reply = shop.post(
        list_address + "&ask=pan_depth",
        {{"form", "tell/pan_depth"}, {"attribute", "pan_depth"}, {"value", "41 mm"}, {"evidence", "measured"}});
    CHECK(reply.status == 303);
    CHECK(reply.location == list_address);
    const auto after = shop.get(reply.location);
    CHECK(verdict_of(after, "pan filter") == "fits");
    CHECK(says(after, "pan depth, rail to floor 41 mm"));
}

TEST_CASE("the question is the first thing on the page, with how to find it out and a field for it") {
    PageShop shop;
    shop.add_bookvan();
    for (const auto& address : {std::string("/vehicle/bookvan"), list_address}) {
        const Document page(shop.get(address).body);
        REQUIRE(page.all("h2").size() > 1);
        CHECK(page.all("h2")[0]->text == "Find out first");
        const auto& forms = page.all("form");
        const auto first = std::find_if(forms.begin(), forms.end(),
                                        [&](const auto* form) { return page.inside(*form, "main"); });
        REQUIRE(first != forms.end());
        CHECK((*first)->attribute("method") == "post");
        const auto next = said_in_json(shop, "ask", Args{{"bookvan"}, {}})["next"];
        if (address == "/vehicle/bookvan")
            CHECK(page.all("main")[0]->text.find(next["how"].get<std::string>()) != std::string::npos);
    }
    const Document other(shop.get("/vehicle/bookvan?ask=pan_depth").body);
    CHECK(other.all("main")[0]->text.find("pan depth") != std::string::npos);
    CHECK(other.by_id("tell-pan-depth--form"));
}

TEST_CASE("the list on the page says of each line what the command says") {
    PageShop shop;
    shop.add_bookvan();
    const auto page = shop.get(list_address);
    const auto list = said_in_json(shop, "list", Args{{"bookvan", "pan-service"}, {}})["list"];
    REQUIRE(list["lines"].size() > 5);
    for (const auto& line : list["lines"]) {
        const auto title = line["title"].get<std::string>(), reach = line["reach"].get<std::string>();
        INFO(title);
        auto verdict = line["verdict"].get<std::string>();
        std::replace(verdict.begin(), verdict.end(), '_', ' ');
        CHECK(verdict_of(page, title) == (reach == "look_first" || reach == "disturbs" ? "look first" : verdict));
        for (const auto& option : line["options"])
            for (const auto& item : option["packs"].empty() ? option["items"] : option["packs"])
                CHECK(says(page, item["item"].get<std::string>()));
    }
    for (const auto& stay : list["stays_behind"]) CHECK(says(page, stay["title"].get<std::string>()));
    CHECK(page.body.find("class=\"stays\"") != std::string::npos);
}

TEST_CASE("every verdict stands as words with a shape of its own") {
    PageShop shop;
    shop.add_bookvan();
    std::map<std::string, std::string> shape_of;  // words, path of the mark
    for (const auto& address :
         {list_address, std::string("/vehicle/bookvan/fits"), std::string("/vehicle/bookvan/fits?from=40")}) {
        const Document page(shop.get(address).body);
        for (std::size_t i = 0; i + 2 < page.elements.size(); ++i) {
            if (page.elements[i].attribute("class").rfind("verdict is-", 0) != 0) continue;
            CHECK_FALSE(page.elements[i].text.empty());
            CHECK(page.elements[i + 1].attribute("aria-hidden") == "true");
            shape_of[page.elements[i].text] = page.elements[i + 2].attribute("d");
        }
    }
    CHECK(shape_of.size() >= 3);
    std::set<std::string> shapes;
    for (const auto& [words, shape] : shape_of) shapes.insert(shape);
    CHECK(shapes.size() == shape_of.size());
}

TEST_CASE("a vehicle is put on the yard, told of, and what was told is taken back") {
    PageShop shop;
    const auto made = shop.post("/", {{"form", "new-vehicle"}, {"name", "lib"}, {"line", "quernmoor-lighter"}});
    CHECK(made.status == 303);
    CHECK(made.location == "/vehicle/lib");
    CHECK(says(shop.get("/"), "Quernmoor Lighter"));
    CHECK(shop.post("/vehicle/lib", {{"form", "tell"},
                                     {"attribute", "year"},
                                     {"value", "2007"},
                                     {"evidence", "read"},
                                     {"date", "2026-11-20"}})
              .status == 303);
    CHECK(says(shop.get("/vehicle/lib"), "read 2026-11-20"));
    CHECK(shop.post("/vehicle/lib", {{"form", "take-back/year"}, {"attribute", "year"}}).status == 303);
    CHECK(says(shop.get("/vehicle/lib"), "Nothing yet."));
    CHECK(says(shop.get("/vehicle/lib"), "(taken back)"));
}

TEST_CASE("what is refused changes nothing, says why beside the field, and keeps what was typed") {
    PageShop shop;
    shop.add_bookvan();
    const auto before = ScratchFolder::read(shop.shop);
    const auto told = shop.post(
        "/vehicle/bookvan",
        {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "90 mm"}, {"note", "by torchlight"}});
    CHECK(told.status == 422);
    CHECK(typed_value(told, "tell-attribute") == "pan_depth");
    CHECK(says(told, "pan_depth=90 mm"));
    CHECK(told.body.find("value=\"by torchlight\"") != std::string::npos);
    const auto offer = shop.post("/offers",
                                 {{"form", "offer"}, {"item", "LD-2161"}, {"seller", "Pier"}, {"price", "cheap"}});
    CHECK(offer.status == 422);
    CHECK(typed_value(offer, "offer-price") == "cheap");
    CHECK(typed_value(offer, "offer-seller") == "Pier");
    const Document page(offer.body);
    CHECK(offer.body.find("<title>Not done: ") != std::string::npos);
    CHECK(offer.body.find("href=\"#offer--form\"") < offer.body.find("<h2"));  // said on top, with the way to the form
    CHECK(page.by_id("offer--form"));
    CHECK(page.by_id("offer-price")->attribute("aria-invalid") == "true");
    CHECK(page.by_id("offer-price")->attribute("aria-describedby").find("offer-price-fault") != std::string::npos);
    const auto fault = page.by_id("offer-price-fault")->text;
    CHECK(main_text(offer).find(fault) == main_text(offer).rfind(fault));  // said once
    CHECK(shop.post("/vehicle/bookvan", {{"form", "take-back/engine"}, {"attribute", "gearbox"}}).status == 422);
    CHECK(shop.post("/vehicle/bookvan/record", {{"form", "record/part"}, {"what", "fitted"}, {"role", "pan-filte"}})
              .status == 422);
    CHECK(shop.post("/vehicle/bookvan/record",
                    {{"form", "close"}, {"job", "pan-service"}, {"cause", "seal"}, {"worked", "yes"}, {"hours", "2"}})
              .status == 422);
    CHECK(shop.post("/", {{"form", "new-vehicle"}, {"name", "b/c"}, {"line", "quernmoor-lighter"}}).status == 422);
    CHECK(shop.post("/", {{"form", "nonsense"}}).status == 422);
    CHECK(ScratchFolder::read(shop.shop) == before);
    const auto asked = shop.get("/compute/transmission_fluids/viscosity-index?go=1&kv40=thick&kv100=7.1");
    CHECK(asked.status == 422);
    CHECK(says(asked, "Not answered"));
    CHECK_FALSE(says(asked, "Nothing was changed"));
    CHECK(typed_value(asked, "inquiry-kv40") == "thick");
    CHECK(typed_value(asked, "inquiry-kv100") == "7.1");
}

TEST_CASE("an identification number that is too short is said on the vehicle's page") {
    PageShop shop;
    shop.post("/", {{"form", "new-vehicle"}, {"name", "short"}, {"line", "quernmoor-packet"}, {"vin", "1234"}});
    CHECK(says(shop.get("/vehicle/short"), "Identification number 1234: 4 characters, a VIN has 17"));
}

TEST_CASE("the page's decision says first that it cannot tell, and shows both columns") {
    PageShop shop;
    shop.add_bookvan();
    const auto reply = shop.get("/vehicle/bookvan/decide");
    CHECK(says(reply, "CANNOT TELL: 7 of 7 figures"));
    CHECK(reply.body.find(">at likely</th>") != std::string::npos);
    CHECK(reply.body.find(">expected</th>") != std::string::npos);
    CHECK(reply.body.find("ecommended") == std::string::npos);  // no picture says what the answer does not
    const std::string told =
        "purchase=900&diagnosis=100&fix=300&unit=2000&sale=4000&as_is=600&works=60%25&unit_hours=0&fix_hours=0";
    CHECK(shop.get("/vehicle/bookvan/decide?" + told).body.find("ecommended") != std::string::npos);
    const auto even = shop.get(
        "/vehicle/bookvan/decide?purchase=700.3&diagnosis=0&fix=300&unit=2000&sale=4000&as_is=700&works=60%25&"
        "unit_hours=0&fix_hours=0");
    CHECK(even.body.find(">0<") != std::string::npos);  // sold as it is: 0.3 are lost
    CHECK(even.body.find("-0<") == std::string::npos);
}

TEST_CASE("a question with a few answers is answered by one button, and what only is looked at is folded") {
    PageShop shop;
    shop.add_bookvan();
    const std::string list = "/vehicle/bookvan/list?job=pan-service";
    const auto asked = shop.get(list + "&ask=pan_depth");
    CHECK(asked.body.find("name=\"value\" value=\"41 mm\" class=\"answer\"") != std::string::npos);
    CHECK(says(asked, "Look at, order if worn, 7: pan bolts"));
    CHECK(says(asked, "Not ready"));
    shop.post(list,
              {{"form", "answer/pan_depth"}, {"attribute", "pan_depth"}, {"evidence", "measured"}, {"value", "41 mm"}});
    CHECK(says(shop.get(list), "Q312-1141"));
    CHECK_FALSE(says(shop.get(list), "Not ready"));
}

TEST_CASE("a stand-in or a list asked by half says what is missing") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(says(shop.get("/swap?wanted=xyz&offered="), "say what is offered"));
    CHECK(shop.get("/vehicle/bookvan/list").body.find("value=\"pan-service\"") != std::string::npos);
}

TEST_CASE("an address that is nothing is a page that says what is near") {
    PageShop shop;
    shop.add_bookvan();
    const auto reply = shop.get("/vehicle/bookvn");
    CHECK(reply.status == 404);
    CHECK(says(reply, "did you mean bookvan?"));
    CHECK(shop.get("/vehicle/bookvn/list?job=pan-service").status == 404);
    CHECK(shop.get("/nowhere").status == 404);
    CHECK(shop.get("").status == 404);
    CHECK(shop.get("/catalog/item?key=LD-2162").status == 404);
    CHECK(shop.get("/vehicle/bookvan/list?job=pan-servise").status == 422);
    CHECK(says(shop.get("/vehicle/bookvan/list?job=pan-servise"), "pan-service"));
    CHECK(shop.get("/compute/mounts/nothing").status == 422);
}

TEST_CASE("offers and the shelf go into the order that the page shows") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}});
    const auto order = "/vehicle/bookvan/order?job=pan-service&without=drain-plug-washer";
    CHECK(says(shop.get(order), "No order"));
    for (const auto& [item, price] :
         Fields{{"LD-2141", "24"}, {"LD-4230", "3"}, {"LD-5216", "11"}, {"Q-QF4-5", "36"}, {"Q-QF4-1", "9"}})
        CHECK(shop.post("/offers", {{"form", "offer"},
                                    {"item", item},
                                    {"seller", "Pier"},
                                    {"price", price},
                                    {"carriage", "4.50"},
                                    {"days", "3"}})
                  .status == 303);
    const auto buy = said_in_json(shop, "buy",
                                  Args{{"bookvan", "pan-service"}, {{"without", {"drain-plug-washer"}}}})["buy"];
    REQUIRE_FALSE(buy["order"].is_null());
    const auto page = shop.get(order);
    CHECK(says(page, fmt::format("Total {:.2f}", buy["order"]["total_cents"].get<double>() / 100)));
    CHECK(page.body.find("class=\"chart\"") != std::string::npos);
    // What is told was said, not seen: the order names what sending it back would cost.
    CHECK(says(page, fmt::format("If it has to go back after all, {0} of {0} are lost",
                                 cents_text(buy["order"]["total_cents"].get<std::int64_t>()))));
    CHECK(says(page, "the seller has not said whether it may: ask first"));
    const auto offer_filter = [&] {
        return shop
            .post("/offers", {{"form", "offer"},
                              {"item", "LD-2141"},
                              {"seller", "Pier"},
                              {"price", "24"},
                              {"carriage", "4.50"},
                              {"days", "3"}})
            .status;
    };
    CHECK(
        shop.post("/offers", {{"form", "withdraw-offer/0/LD-2141"}, {"seller", "Pier"}, {"item", "LD-2141"}}).status ==
        303);
    CHECK(says(shop.get(order), "No order"));
    CHECK(offer_filter() == 303);
    CHECK(shop.post(order, {{"form", "ordered"}, {"shown", mark_in(shop.get(order).body)}}).status == 303);
    CHECK(says(shop.get("/vehicle/bookvan/record"), "LD-2141"));
    CHECK(shop.post("/offers", {{"form", "shelf"}, {"item", "Q-QF4-1"}, {"quantity", "2 L"}}).status == 303);
    CHECK(says(shop.get("/offers"), "Q-QF4-1"));
}

TEST_CASE("what an offer does not say is shown as not said, and 0 days as at once") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}});
    CHECK(shop.post("/offers", {{"form", "offer"},
                                {"item", "LD-2141"},
                                {"seller", "Pier"},
                                {"price", "24"},
                                {"carriage", "0"},
                                {"days", ""},
                                {"returnable", ""}})
              .status == 303);
    CHECK(says(shop.get("/offers"), "days until it is here: not said; return not said: ask first"));
    const auto order =
        "/vehicle/bookvan/"
        "order?job=pan-service&without=drain-plug-washer&without=pan-gasket&without=filter-neck-seal&without=gearbox-"
        "fluid";
    CHECK(says(shop.get(order), "Arrival not known: days not said by Pier."));
    CHECK(says(shop.get(order + std::string("&within=3")), "LD-2141 by Pier is not taken: days not said."));
    CHECK(shop.post("/offers", {{"form", "offer"},
                                {"item", "LD-2141"},
                                {"seller", "Pier"},
                                {"price", "24"},
                                {"days", "0"},
                                {"returnable", "no"}})
              .status == 303);
    CHECK(says(shop.get("/offers"), "here at once; cannot go back"));
    CHECK(says(shop.get(order), "Everything is here at once."));
}

TEST_CASE("a job is begun, its parts are checked off, and it is ended") {
    PageShop shop;
    shop.add_bookvan();
    const std::string at = "/vehicle/bookvan/record";
    CHECK(shop.post(at, {{"form", "record/start"}, {"job", "pan-service"}}).status == 303);
    CHECK(shop.post(at, {{"form", "record/part"},
                         {"what", "received"},
                         {"role", "pan-filter"},
                         {"item", "LD-2141"},
                         {"return_by", "2026-11-20"}})
              .status == 303);
    CHECK(says(shop.get(at), "LD-2141"));
    CHECK(says(shop.get("/due"), "2026-11-20 PAST"));
    CHECK(shop.post(at, {{"form", "record/part"},
                         {"what", "fitted"},
                         {"role", "filter-neck-seal"},
                         {"item", "LD-4230"},
                         {"seals_out", "2"},
                         {"seals_in", "1"}})
              .status == 303);
    CHECK(says(shop.get(at), "2 came out and 1 went in. Count again"));
    CHECK(shop.post(at, {{"form", "record/money"}, {"kind", "parts"}, {"amount", "38.50"}}).status == 303);
    CHECK(says(shop.get(at), "38.50"));
    const auto job = Document(shop.get(at).body);
    CHECK(shop.post(at, {{"form", "close"},
                         {"job", "pan-service"},
                         {"cause", "seal"},
                         {"worked", "yes"},
                         {"open", "counted"},
                         {"hours", "2"}})
              .status == 303);
    CHECK(says(shop.get(at), "None."));
}

TEST_CASE("a seller's pack, a core charge that is lost and a job that cost nothing known are said on the page") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}});
    const Fields offer{{"form", "offer"}, {"seller", "Pier"}, {"carriage", "0"}, {"days", "3"}};
    auto fluid = offer, filter = offer;
    fluid.insert(fluid.end(), {{"item", "Q-QF4-1"}, {"price", "16"}, {"pack", "2"}});
    filter.insert(filter.end(), {{"item", "LD-2141"}, {"price", "24"}, {"core", "10"}});
    CHECK(shop.post("/offers", fluid).status == 303);
    CHECK(shop.post("/offers", filter).status == 303);
    const std::string order =
                          "/vehicle/bookvan/order?job=pan-service&without=drain-plug-washer&without=pan-gasket"
                          "&without=filter-neck-seal",
                      record = "/vehicle/bookvan/record";
    CHECK(says(shop.get(order), "3 packs of 2"));  // 4.73 L, in packs of 2 L
    CHECK(says(shop.get(order), "Core charges of 10.00 on top come back"));
    const auto lost = shop.get(order + "&no-core=1");
    CHECK(says(lost, "Total 82.00: goods 72.00, carriage 0.00, core charges 10.00."));  // 3 * 16 + 24
    CHECK(says(lost, "are in the total, and lost"));
    CHECK_FALSE(says(lost, "come back"));
    CHECK(shop.post(record, {{"form", "record/start"}, {"job", "pan-service"}}).status == 303);
    CHECK(shop.post(order, {{"form", "ordered"}, {"shown", mark_in(shop.get(order).body)}}).status == 303);
    Fields close{{"form", "close"}, {"job", "pan-service"}, {"cause", "old fluid"},
                 {"worked", "yes"}, {"hours", "2"},         {"open", "counted"}};
    const auto refused = shop.post(record, close);
    CHECK(refused.status == 422);
    CHECK(says(refused, "nothing is written down as paid for the job"));
    close.emplace_back("money", "72");
    CHECK(shop.post(record, close).status == 303);
}

TEST_CASE("only what this vehicle can have is asked, and only a job that needs something here is offered") {
    PageShop shop;
    shop.add_bookvan();
    const auto cause = shop.get("/vehicle/bookvan/cause");
    CHECK(says(cause, "coil of shift solenoid A"));
    CHECK_FALSE(says(cause, "coil of clutch solenoid A"));  // a four-speed without clutch solenoids
    const auto jobs = shop.get("/vehicle/bookvan").body;
    CHECK(jobs.find("value=\"pan-service\"") != std::string::npos);
    for (const auto& job : {"transfer-case-fluid", "torque-mount"}) {
        INFO(job);
        CHECK(jobs.find(fmt::format("value=\"{}\"", job)) == std::string::npos);
        CHECK(shop.get(fmt::format("/vehicle/bookvan/list?job={}", job)).status == 200);  // it may still be asked
    }
}

TEST_CASE("the yard shows the open job, and the vehicle's page begins with it") {
    PageShop shop;
    CHECK(says(shop.get("/"), "How to begin"));
    shop.add_bookvan();
    CHECK_FALSE(says(shop.get("/"), "How to begin"));
    CHECK_FALSE(says(shop.get("/vehicle/bookvan"), "Open job"));
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}});
    const std::string at = "/vehicle/bookvan/record";
    shop.post(at, {{"form", "record/start"}, {"job", "pan-service"}});
    shop.post(at, {{"form", "record/part"},
                   {"what", "ordered"},
                   {"role", "pan-filter"},
                   {"item", "LD-2141"},
                   {"seller", "Pier"},
                   {"return_by", "2026-12-20"}});
    shop.post(at, {{"form", "record/money"}, {"kind", "parts"}, {"amount", "38.50"}});
    for (const auto& page : {shop.get("/"), shop.get("/vehicle/bookvan")})
        for (const auto* state : {"Open: Pan off, filter, fresh fluid, begun 2026-11-25.",
                                  "On its way: pan filter (LD-2141, Pier, 2026-11-25).",
                                  "Due: LD-2141 may go back until 2026-12-20.", "Cost so far: 38.50"}) {
            INFO(state);
            CHECK(says(page, state));
        }
    CHECK(Document(shop.get("/vehicle/bookvan").body).all("h2")[0]->text == "Open job");
}

TEST_CASE("settings are set and taken back on the page, and one that cannot be is refused beside its field") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(shop.post("/settings", {{"form", "settings"}, {"currency", "EUR"}, {"show_length", "inch"}}).status == 303);
    CHECK(typed_value(shop.get("/settings"), "settings-currency") == "EUR");
    CHECK(says(shop.get(list_address), "1.61 in (41 mm)"));
    CHECK(shop.post("/settings", {{"form", "settings"}, {"currency", "EUR"}}).status == 303);
    CHECK_FALSE(says(shop.get(list_address), "1.61 in"));
    CHECK(shop.post("/settings", {{"form", "settings"}, {"currency", "EUR"}, {"sales_tax", "much"}}).status == 422);
    CHECK(typed_value(shop.get("/settings"), "settings-sales-tax").empty());
}

TEST_CASE("what was fitted is shown as rows, and kept in the own pack by a second button") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/vehicle/bookvan",
              {{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}, {"evidence", "measured"}});
    for (const auto* attribute : {"year", "engine", "cooler"})
        shop.post("/vehicle/bookvan", {{"form", fmt::format("take-back/{}", attribute)}, {"attribute", attribute}});
    shop.post("/vehicle/bookvan/record",
              {{"form", "record/part"}, {"what", "fitted"}, {"role", "pan-filter"}, {"item", "LD-2141"}});
    const std::string at = "/vehicle/bookvan/keep?go=1&role=pan-filter&item=";
    CHECK(says(shop.get(at + "LD-2141"), "These rows would be added"));
    CHECK(shop.get(at + "LD-2161").status == 422);  // that one was never fitted here
    CHECK(shop.post(at + "LD-2141", {{"form", "keep"}, {"role", "pan-filter"}, {"item", "LD-2141"}}).status == 303);
    CHECK(says(shop.get("/catalog/sources"), "own"));
}

TEST_CASE("a row of any table that was measured is kept from the page, as from the command line") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(says(shop.get("/vehicle/bookvan/keep"), "stays behind"));
    CHECK(says(shop.get("/vehicle/bookvan/keep?table=stays_behind"), "Show the row"));
    CHECK(shop.get("/vehicle/bookvan/keep?table=sources").status == 404);
    const std::string row =
        "role=pan-filter&place=in+the+pan&see=look+down&remove=by+hand&count=1&condition=pan_depth%3D41mm";
    const auto at = "/vehicle/bookvan/keep?go=1&table=stays_behind&" + row;
    CHECK(shop.get(at).status == 422);  // how it was measured is not said
    CHECK(says(shop.get(at + "&how-measured=with+a+mirror"), "stays_behind.csv"));
    CHECK(shop.post("/vehicle/bookvan/keep", {{"form", "keep"},
                                              {"table", "stays_behind"},
                                              {"role", "pan-filter"},
                                              {"place", "in the pan"},
                                              {"see", "look down"},
                                              {"remove", "by hand"},
                                              {"count", "1"},
                                              {"condition", "pan_depth=41mm"},
                                              {"how-measured", "with a mirror"}})
              .status == 303);
    CHECK(says(shop.get("/own"), "in the pan"));
}

TEST_CASE(
    "every share that a decision rests on is said in percent, and a fix that failed is not spoken of as to come") {
    PageShop shop;
    shop.add_bookvan();
    const std::string figures =
        "/vehicle/bookvan/decide?go=1&purchase=900&fix=180&works=60%25&sale=3200&unit=2300&as_is=400&look=pan"
        "&look_cost=10&look_good_if_works=80%25&look_good_if_not=30%25&reusable=25%25";
    const auto decision = shop.get(figures);
    for (const std::string share : {"60 %", "80 %", "30 %", "25 %"}) CHECK(says(decision, share));
    CHECK(says(decision, "if the cheap fix fails"));
    const auto failed = shop.get(figures + "&failed-fix=1");
    CHECK(says(failed, "The cheap fix has failed: best from here"));
    CHECK_FALSE(says(failed, "if the cheap fix fails"));
}
