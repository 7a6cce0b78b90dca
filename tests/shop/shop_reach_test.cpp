#include <catch2/catch.hpp>

#include "core/shop/shop.h"
#include "core/shop/shop_reach.h"
#include "core/shop/shop_records.h"
#include "tests/environment.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;

namespace {

struct Fixture {
    SetVariable date{"CASEBOUND_TODAY", "2026-11-25"};
    ScratchFolder folder;
    Shop shop{folder.file("shop.sqlite")};
    Fixture() { shop.create("bookvan", "drover"); }

    void tell(TellEvidence evidence) { shop.tell("bookvan", ToldFact{"pan_depth", "41mm", "41mm", evidence}); }
    std::size_t hidden() { return out_of_reach(shop.database(), "bookvan").size(); }
    std::size_t accepted() { return ShopRecords(shop.database()).accepted("bookvan").size(); }
};

}  // namespace

TEST_CASE_METHOD(Fixture, "what nobody can get at stands until it is told, or can be got at after all") {
    tell_reach(shop.database(), "bookvan", "pan_depth", false, "skid plate");
    REQUIRE(hidden() == 1);
    CHECK(out_of_reach(shop.database(), "bookvan").front().note == "skid plate");
    tell_reach(shop.database(), "bookvan", "pan_depth", true);
    CHECK(hidden() == 0);
    tell_reach(shop.database(), "bookvan", "pan_depth", false);
    CHECK(hidden() == 1);
    tell(TellEvidence::assumed);
    CHECK(hidden() == 0);
}

TEST_CASE_METHOD(Fixture, "what an order took for true is remembered until somebody measures or reads it") {
    const auto job = ShopRecords(shop.database())
                         .add_to_job("bookvan", "pan-service", "", {{}, {}, {}, {}, {{"pan_depth", "41mm", "44 mm"}}});
    REQUIRE(accepted() == 1);
    const auto one = ShopRecords(shop.database()).accepted("bookvan").front();
    CHECK(one.job == job);
    CHECK(one.job_key == "pan-service");
    CHECK(one.text == "41mm");
    CHECK(one.doubt == "44 mm");
    CHECK(one.entered == "2026-11-25");
    tell(TellEvidence::said);
    CHECK(accepted() == 1);
    tell(TellEvidence::measured);
    CHECK(accepted() == 0);
}

TEST_CASE_METHOD(Fixture, "what is said counts for less than what was measured, whenever it was told") {
    tell(TellEvidence::measured);
    shop.tell("bookvan", ToldFact{"pan_depth", "61mm", "61mm", TellEvidence::said});
    REQUIRE(shop.told("bookvan").size() == 1);
    CHECK(shop.told("bookvan").front().text == "41mm");
    REQUIRE(shop.clashes("bookvan").size() == 1);
    CHECK(shop.clashes("bookvan").front().evidence == TellEvidence::said);
}
