#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "tests/environment.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

struct ShopFixture {
    SetVariable date{"CASEBOUND_TODAY", "2026-11-25"};
    ScratchFolder folder;
    Database shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles vehicles{shop};
    ShopTold tellings{shop};
    ShopRecords records{shop};
    ShopSettings settings{shop};
    ShopFixture() { vehicles.create("bookvan", "drover", "north america", "00aaa0a91 LA000001"); }

    ToldFact depth(const std::string& text, TellEvidence evidence = TellEvidence::measured) const {
        return told_fact("pan_depth", text, evidence);
    }
    std::vector<std::string> told() const {
        std::vector<std::string> all;
        for (const auto& entry : tellings.standing("bookvan"))
            all.push_back(entry.attribute + "=" + entry.right_side.text());
        return all;
    }
};

using Words = std::vector<std::string>;

}  // namespace

// ------------------------------------------------------------------ vehicles

TEST_CASE_METHOD(ShopFixture, "a vehicle is found by its exact name and keeps what it was created with") {
    const auto found = vehicles.find("bookvan");
    REQUIRE(found);
    CHECK(found->line == "drover");
    CHECK(found->market == "north america");
    CHECK(found->vin == "00AAA0A91LA000001");
    CHECK(found->created == "2026-11-25");
    CHECK_FALSE(vehicles.find("Bookvan"));
    CHECK_FALSE(vehicles.find("bookva"));
}

TEST_CASE_METHOD(ShopFixture, "vehicles are listed by name, whatever the order they came in") {
    vehicles.create("Zed", "drover");
    vehicles.create("ark", "drover");
    Words names;
    for (const auto& vehicle : vehicles.all()) names.push_back(vehicle.name);
    CHECK(names == Words{"Zed", "ark", "bookvan"});
}

TEST_CASE_METHOD(ShopFixture, "two vehicles never differ by case alone") {
    const auto no = refusal([&] { vehicles.create("BookVan", "drover"); });
    CHECK(no.exit == Exit::usage);
    CHECK(no.text == "vehicle BookVan: there is already a vehicle bookvan: choose another name");
}

TEST_CASE_METHOD(ShopFixture, "a name that could not be typed again is refused") {
    for (const std::string name : {"", "book van", "-van", ".van", "v\xc3\xa4n", "a/b", "a=b"}) {
        INFO(name);
        CHECK(refusal([&] { vehicles.create(name, "drover"); }).exit == Exit::usage);
    }
    CHECK(refusal([&] { vehicles.create(std::string(65, 'a'), "drover"); }).exit == Exit::usage);
    CHECK(refusal([&] { vehicles.create("van", ""); }).text ==
          "vehicle van: no vehicle line is given: name the line it belongs to");
    CHECK(vehicles.all().size() == 1);
}

TEST_CASE_METHOD(ShopFixture, "a vehicle that is not there is an error that says where to look") {
    const auto no = refusal([&] { tellings.standing("bokvan"); });
    CHECK(no.exit == Exit::no_input);
    CHECK(no.text == "vehicle bokvan: there is no vehicle of that name: see `casebound vehicle list`");
    CHECK(refusal([&] { tellings.tell("bokvan", depth("38mm")); }).exit == Exit::no_input);
    CHECK(refusal([&] { tellings.history("bokvan"); }).exit == Exit::no_input);
    CHECK(refusal([&] { vehicles.forget("bokvan"); }).exit == Exit::no_input);
}

// ------------------------------------------------------------------ forgetting

TEST_CASE_METHOD(ShopFixture, "forgetting takes the vehicle and what was told about it, and nothing of another") {
    vehicles.create("ark", "drover");
    tellings.tell("ark", depth("52mm"));
    const auto first = tellings.tell("bookvan", depth("38mm"));
    auto drive = told_fact("drive", "4wd", TellEvidence::read);
    drive.corrects = first;
    tellings.tell("bookvan", drive);
    vehicles.forget("bookvan");
    CHECK_FALSE(vehicles.find("bookvan"));
    CHECK(tellings.standing("ark").size() == 1);
    CHECK(Database(folder.file("shop.sqlite"), Database::Mode::read_only).integer("SELECT count(*) FROM tellings") ==
          1);
}

TEST_CASE_METHOD(ShopFixture, "forgetting needs the name in its own case") {
    CHECK(refusal([&] { vehicles.forget("BOOKVAN"); }).exit == Exit::no_input);
    CHECK(vehicles.find("bookvan"));
}

TEST_CASE_METHOD(ShopFixture, "a vehicle with records is forgotten only when told that they may go too") {
    records.start_job("bookvan", "pan-service");
    records.start_job("bookvan", "mount-pair", "left one leaks");
    const auto no = refusal([&] { vehicles.forget("bookvan"); });
    CHECK(no.exit == Exit::usage);
    CHECK(no.text ==
          "vehicle bookvan: it has records (2 in jobs_started): nothing was forgotten; say that the records may go "
          "too, or keep it");
    REQUIRE(vehicles.find("bookvan"));
    CHECK(records.jobs("bookvan").size() == 2);
    vehicles.forget("bookvan", true);
    CHECK_FALSE(vehicles.find("bookvan"));
    CHECK(
        Database(folder.file("shop.sqlite"), Database::Mode::read_only).integer("SELECT count(*) FROM jobs_started") ==
        0);
}

TEST_CASE_METHOD(ShopFixture, "a table that a later version adds keeps its vehicles from being forgotten too") {
    Database later(folder.file("shop.sqlite"), Database::Mode::read_write);
    later.execute(
        "CREATE TABLE fitted (id INTEGER PRIMARY KEY, van INTEGER REFERENCES vehicles (id) ON DELETE CASCADE) STRICT;"
        "INSERT INTO fitted (van) SELECT id FROM vehicles");
    CHECK_THAT(refusal([&] { vehicles.forget("bookvan"); }).text, Contains("1 in fitted"));
}

TEST_CASE_METHOD(ShopFixture, "started jobs are kept in order with their day") {
    const auto id = records.start_job("bookvan", "pan-service", "leaks");
    const auto jobs = records.jobs("bookvan");
    REQUIRE(jobs.size() == 1);
    CHECK(jobs[0].id == id);
    CHECK(jobs[0].job == "pan-service");
    CHECK(jobs[0].started == "2026-11-25");
    CHECK(jobs[0].note == "leaks");
    CHECK(refusal([&] { records.start_job("bookvan", ""); }).exit == Exit::usage);
}

// ------------------------------------------------------------------ telling

TEST_CASE_METHOD(ShopFixture, "a telling comes back as it was told") {
    auto entry = told_fact("pan_depth", "1.5in", TellEvidence::seller_said, "2026-11-20");
    entry.text = "1.5 in";
    entry.photo = "pan.jpg", entry.note = "at the rail";
    const auto id = tellings.tell("bookvan", entry);
    const auto told = tellings.standing("bookvan");
    REQUIRE(told.size() == 1);
    CHECK(told[0].id == id);
    CHECK(told[0].text == "1.5 in");
    CHECK(told[0].right_side.text() == "1.5in");
    CHECK(told[0].evidence == TellEvidence::seller_said);
    CHECK(told[0].date == "2026-11-20");
    CHECK(told[0].photo == "pan.jpg");
    CHECK(told[0].note == "at the rail");
    CHECK(told[0].stands);
    CHECK_FALSE(told[0].withdrawn);
    CHECK_FALSE(told[0].corrects);
}

TEST_CASE_METHOD(ShopFixture, "the newest telling of an attribute counts, and the history keeps every one") {
    tellings.tell("bookvan", depth("38mm", TellEvidence::assumed));
    tellings.tell("bookvan", told_fact("drive", "4wd", TellEvidence::read));
    tellings.tell("bookvan", depth("52mm"));
    CHECK(told() == Words{"drive=4wd", "pan_depth=52mm"});
    const auto history = tellings.history("bookvan");
    REQUIRE(history.size() == 3);
    CHECK(history[0].right_side.text() == "38mm");
    CHECK(history[0].evidence == TellEvidence::assumed);
    CHECK_FALSE(history[0].stands);
    CHECK(history[1].stands);
    CHECK(history[2].stands);
}

TEST_CASE_METHOD(ShopFixture, "a correction may be of another attribute, and takes the wrong entry back") {
    const auto wrong = tellings.tell("bookvan", depth("38mm"));
    auto right = told_fact("filter_height", "38mm", TellEvidence::measured);
    right.corrects = wrong;
    tellings.tell("bookvan", right);
    CHECK(told() == Words{"filter_height=38mm"});
    const auto history = tellings.history("bookvan");
    CHECK_FALSE(history[0].stands);
    CHECK(history[0].right_side.text() == "38mm");
    CHECK(history[1].corrects == wrong);
}

TEST_CASE_METHOD(ShopFixture, "nothing older comes back when an entry is corrected away or withdrawn") {
    tellings.tell("bookvan", depth("38mm"));
    const auto wrong = tellings.tell("bookvan", depth("52mm"));
    SECTION("corrected") {
        auto right = told_fact("filter_height", "52mm", TellEvidence::measured);
        right.corrects = wrong;
        tellings.tell("bookvan", right);
        CHECK(told() == Words{"filter_height=52mm"});
    }
    SECTION("withdrawn") {
        tellings.untell("bookvan", {"pan_depth"}, "wrong van");
        CHECK(told().empty());
        const auto last = tellings.history("bookvan").back();
        CHECK(last.withdrawn);
        CHECK_FALSE(last.stands);
        CHECK(last.corrects == wrong);
        CHECK(last.note == "wrong van");
        CHECK(last.text == "");
    }
}

TEST_CASE_METHOD(ShopFixture, "what was withdrawn can be told again") {
    tellings.tell("bookvan", depth("38mm"));
    tellings.untell("bookvan", {"pan_depth"});
    tellings.tell("bookvan", depth("40mm"));
    CHECK(told() == Words{"pan_depth=40mm"});
    CHECK(tellings.history("bookvan").size() == 3);
}

TEST_CASE_METHOD(ShopFixture, "only what stands can be corrected or withdrawn") {
    vehicles.create("ark", "drover");
    const auto others = tellings.tell("ark", depth("38mm"));
    const auto replaced = tellings.tell("bookvan", depth("38mm"));
    tellings.tell("bookvan", depth("52mm"));
    for (const auto id : {others, replaced, std::int64_t{999}}) {
        auto entry = told_fact("drive", "4wd", TellEvidence::read);
        entry.corrects = id;
        const auto no = refusal([&] { tellings.tell("bookvan", entry); });
        CHECK(no.exit == Exit::no_input);
        CHECK_THAT(no.text, Contains("does not stand: only what counts now can be corrected"));
    }
    CHECK(refusal([&] { tellings.untell("bookvan", {"drive"}); }).text ==
          "vehicle bookvan: nothing is told about drive: there is nothing to withdraw");
    tellings.untell("bookvan", {"pan_depth"});
    CHECK(refusal([&] { tellings.untell("bookvan", {"pan_depth"}); }).exit == Exit::no_input);
    CHECK(told().empty());
}

TEST_CASE_METHOD(ShopFixture, "several tellings go in together or not at all") {
    auto bad = told_fact("drive", "4wd", TellEvidence::read);
    bad.corrects = 999;
    CHECK(refusal([&] { tellings.tell("bookvan", {depth("38mm"), bad}); }).exit == Exit::no_input);
    CHECK(tellings.history("bookvan").empty());
    CHECK(tellings.tell("bookvan", {depth("38mm"), told_fact("drive", "4wd", TellEvidence::read)}).size() == 2);
    CHECK(told() == Words{"drive=4wd", "pan_depth=38mm"});
}

TEST_CASE_METHOD(ShopFixture, "an attribute told twice in one go is refused") {
    CHECK(refusal([&] {
              tellings.tell("bookvan", {depth("38mm"), depth("52mm")});
          }).text == "vehicle bookvan: pan_depth is told twice: tell it once, alternatives as a|b");
    CHECK(tellings.history("bookvan").empty());
}

TEST_CASE_METHOD(ShopFixture, "a telling without a value, or one that no condition could hold, is refused") {
    CHECK_THAT(refusal([&] { tellings.tell("bookvan", depth("")); }).text,
               Contains("pan_depth: no value is given: write pan_depth=value"));
    CHECK(refusal([&] { tellings.tell("bookvan", told_fact("", "a", TellEvidence::assumed)); }).exit == Exit::usage);
    CHECK(refusal([&] { tellings.tell("bookvan", depth("a||b")); }).exit == Exit::usage);
    CHECK(tellings.history("bookvan").empty());
}

TEST_CASE_METHOD(ShopFixture, "a telling has a real day that is not after today") {
    auto entry = depth("38mm");
    entry.date = "2026-11-26";
    CHECK(refusal([&] { tellings.tell("bookvan", entry); }).text ==
          "vehicle bookvan: pan_depth: 2026-11-26 has not come yet: write the day it was found out");
    entry.date = "26.11.2026";
    CHECK_THAT(refusal([&] { tellings.tell("bookvan", entry); }).text, Contains("is not a date: write YYYY-MM-DD"));
    entry.date = "";
    tellings.tell("bookvan", entry);
    CHECK(tellings.standing("bookvan")[0].date == "2026-11-25");
}

TEST_CASE("evidence is written and read in the same words") {
    for (const auto evidence :
         {TellEvidence::measured, TellEvidence::read, TellEvidence::seller_said, TellEvidence::assumed})
        CHECK(tell_evidence_from(tell_evidence_words(evidence)) == evidence);
    CHECK(tell_evidence_words(TellEvidence::seller_said) == "seller said");
    CHECK(tell_evidence_from("seller-said") == TellEvidence::seller_said);
    CHECK(tell_evidence_from("seller_said") == TellEvidence::seller_said);
    CHECK(refusal([] { tell_evidence_from("guessed"); }).text ==
          "evidence: \"guessed\" is not known: write measured, read, said, seller-said or assumed");
}

TEST_CASE_METHOD(ShopFixture, "what was told cannot be overwritten even by SQL") {
    tellings.tell("bookvan", depth("38mm"));
    Database other(folder.file("shop.sqlite"), Database::Mode::read_write);
    CHECK_THAT(refusal([&] { other.execute("UPDATE tellings SET right_side = '52mm'"); }).text,
               Contains("what was told is never overwritten: add a correction"));
    CHECK(told() == Words{"pan_depth=38mm"});
}

TEST_CASE_METHOD(ShopFixture, "what was told is there when the file is opened again") {
    tellings.tell("bookvan", depth("38mm"));
    Database again = open_shop(folder.file("shop.sqlite"));
    REQUIRE(ShopTold(again).standing("bookvan").size() == 1);
    CHECK(ShopTold(again).standing("bookvan")[0].right_side.text() == "38mm");
}

TEST_CASE_METHOD(ShopFixture, "while another process writes, a telling says busy and changes nothing") {
    Database other(folder.file("shop.sqlite"), Database::Mode::read_write);
    {
        const Transaction writing(other);
        const auto no = refusal([&] { tellings.tell("bookvan", depth("38mm")); });
        CHECK(no.exit == Exit::busy);
        CHECK_THAT(no.text, Contains("another casebound is writing; try again when it is done"));
    }
    CHECK(tellings.history("bookvan").empty());
    tellings.tell("bookvan", depth("38mm"));
    CHECK(told().size() == 1);
}

// ------------------------------------------------------------------ settings

TEST_CASE_METHOD(ShopFixture, "a setting is absent until it is set, and can be taken back") {
    CHECK_FALSE(settings.get("hour_value"));
    settings.set({{"hour_value", "30"}});
    settings.set({{"currency", "cu"}});
    settings.set({{"hour_value", "32.50"}});
    CHECK(settings.get("hour_value") == "32.50");
    CHECK(settings.all() ==
          std::vector<std::pair<std::string, std::string>>{{"currency", "cu"}, {"hour_value", "32.50"}});
    settings.set({{"hour_value", ""}});
    CHECK_FALSE(settings.get("hour_value"));
}

TEST_CASE_METHOD(ShopFixture, "a setting nobody knows, or a value it cannot have, is refused") {
    CHECK_THAT(refusal([&] {
                   settings.set({{"hourvalue", "30"}});
               }).text,
               Contains("setting hourvalue: there is no such setting: use one of cash-limit, currency, hour-value"));
    CHECK(refusal([&] { (void)settings.get("colour"); }).exit == Exit::usage);
    CHECK(refusal([&] {
              settings.set({{"hour_value", "-3"}});
          }).text == "setting hour-value: \"-3\" cannot be: write a number from 0 up");
    CHECK_THAT(refusal([&] { settings.set({{"hour_value", "32,50"}}); }).text, Contains("write \"32.50\""));
    CHECK_THAT(refusal([&] {
                   settings.set({{"project_limit", "2.5"}});
               }).text,
               Contains("write a whole number from 0 up"));
    CHECK(settings.all().empty());
}

TEST_CASE_METHOD(ShopFixture,
                 "a jurisdiction is kept by the name of its law; one that is not known is refused with the list") {
    ShopSettings(shop).set({{"jurisdiction", "US"}});
    CHECK(ShopSettings(shop).get("jurisdiction") == "us-federal");
    CHECK_THAT(refusal([&] {
                   ShopSettings(shop).set({{"jurisdiction", "Atlantis"}});
               }).text,
               Contains("us-federal (the United States), elsewhere"));
    CHECK(ShopSettings(shop).get("jurisdiction") == "us-federal");
}

TEST_CASE("the settings are listed by key, so that messages and help are in order") {
    const auto& kinds = ShopSettings::kinds();
    CHECK(std::is_sorted(kinds.begin(), kinds.end(), [](const auto& a, const auto& b) { return a.key < b.key; }));
}
