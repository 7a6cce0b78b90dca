// Offers, records and reminders of the shop file that a text case cannot reach.
#include <catch2/catch.hpp>

#include "core/ground/error.h"
#include "core/shop/reminders.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_vehicles.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;

TEST_CASE("an odometer statement is exempt by age as 49 CFR 580.17(a)(3) and (4) say") {
    CHECK(odometer_statement_exempt(2010, "2020-01-01"));  // the regulation's own example
    CHECK_FALSE(odometer_statement_exempt(2010, "2019-12-31"));
    CHECK_FALSE(odometer_statement_exempt(2011, "2030-12-31"));  // the regulation's own example
    CHECK(odometer_statement_exempt(2011, "2031-01-01"));
    CHECK(odometer_statement_exempt(2020, "2040-01-01"));
}

TEST_CASE("records, offers, money and closings cannot be overwritten even by SQL") {
    const ScratchFolder folder;
    Database shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("van", "line");
    ShopRecords records(shop);
    MoneyEntry paid;
    paid.kind = "purchase";
    paid.cents = 100;
    records.add("van", {{}, {}, {paid}});
    CHECK(refusal([&] { shop.execute("UPDATE money SET cents = 1"); }).text.find("nothing is overwritten") !=
          std::string::npos);
    CHECK(records.spent_cents("van") == 100);
}

TEST_CASE("what is ordered and the job it starts are written together, or neither is") {
    const ScratchFolder folder;
    Database shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("van", "line");
    ShopRecords records(shop);
    LineEvent good, bad;
    good.role = bad.role = "pan-filter";
    good.event = "ordered";
    bad.event = "wished for";
    CHECK_THROWS_AS(records.add_to_job("van", "pan-service", "ordered for", {{good, bad}, {}, {}, {}}), Error);
    CHECK(ShopRecords(shop).jobs("van").empty());
    CHECK(records.events("van").empty());
    const auto job = records.add_to_job("van", "pan-service", "ordered for", {{good}, {}, {}, {}});
    REQUIRE(ShopRecords(shop).jobs("van").size() == 1);
    CHECK(records.events("van").front().job == job);
    CHECK(records.add_to_job("van", "pan-service", "ordered for", {{good}, {}, {}, {}}) == job);  // it is open
    records.close("van", {job, {}, {}, "filter blocked", "yes", 1, 0, {}, {}});
    CHECK(records.add_to_job("van", "pan-service", "ordered for", {{good}, {}, {}, {}}) != job);
}

TEST_CASE("one bad entry leaves none of its transaction") {
    const ScratchFolder folder;
    Database shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("van", "line");
    ShopRecords records(shop);
    WorkRecord good, bad;
    good.what = bad.what = "odometer";
    good.odometer_km = 1000;
    bad.corrects = 99;
    CHECK(refusal([&] { records.add("van", {{}, {good, bad}, {}}); }).exit == Exit::no_input);
    CHECK(records.records("van").empty());
}

TEST_CASE("amounts are whole cents") {
    CHECK(cents_from("price", "12") == 1200);
    CHECK(cents_from("price", "12.5") == 1250);
    CHECK(cents_from("price", "0.07") == 7);
    for (const auto* wrong : {"", "-1", "1.", ".5", "1,50", "1.005", "12 cu", "9999999999"})
        CHECK(refusal([&] { cents_from("price", wrong); }).exit == Exit::usage);
}
