#include <cstdlib>

#include <catch2/catch.hpp>

#include "core/shop/shop_file.h"
#include "core/shop/shop_reach.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "tests/environment.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;

namespace {

struct Fixture {
    SetVariable date{"CASEBOUND_TODAY", "2026-11-25"};
    ScratchFolder folder;
    Database shop = open_shop(folder.file("shop.sqlite"));
    ShopTold tellings{shop};
    ShopRecords records{shop};
    Fixture() { ShopVehicles(shop).create("bookvan", "drover"); }

    void tell(TellEvidence evidence, const std::string& text = "41mm") {
        tellings.tell("bookvan", told_fact("pan_depth", text, evidence));
    }
    std::vector<ToldFact> clashes() {  // what is measured may be out by 1 mm
        return clashes_in(tellings.history("bookvan"), [](const ToldFact& one, const ToldFact& other) {
            return std::abs(std::stoi(one.text) - std::stoi(other.text)) <= 1;
        });
    }
    std::size_t hidden() { return out_of_reach(shop, "bookvan").size(); }
    std::size_t accepted() { return records.accepted("bookvan").size(); }
};

}  // namespace

TEST_CASE_METHOD(Fixture, "what nobody can get at stands until it is told, or can be got at after all") {
    tell_reach(shop, "bookvan", "pan_depth", false, "skid plate");
    REQUIRE(hidden() == 1);
    CHECK(out_of_reach(shop, "bookvan").front().note == "skid plate");
    tell_reach(shop, "bookvan", "pan_depth", true);
    CHECK(hidden() == 0);
    tell_reach(shop, "bookvan", "pan_depth", false);
    CHECK(hidden() == 1);
    tell(TellEvidence::assumed);
    CHECK(hidden() == 0);
}

TEST_CASE_METHOD(Fixture, "what an order took for true is remembered until somebody measures or reads it") {
    const auto job = records.add_to_job("bookvan", "pan-service", "",
                                        {{}, {}, {}, {}, {{"pan_depth", "41mm", "44 mm"}}});
    REQUIRE(accepted() == 1);
    const auto one = records.accepted("bookvan").front();
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
    tell(TellEvidence::said, "61mm");
    REQUIRE(tellings.standing("bookvan").size() == 1);
    CHECK(tellings.standing("bookvan").front().text == "41mm");
    const auto found = clashes();
    REQUIRE(found.size() == 1);
    CHECK(found.front().evidence == TellEvidence::said);
}

TEST_CASE_METHOD(Fixture, "a measurement is not overruled by a paper, nor by another until that is measured twice") {
    const auto in_doubt = [&](std::initializer_list<std::pair<TellEvidence, const char*>> entries) {
        for (const auto& [evidence, text] : entries) tell(evidence, text);
        std::vector<std::string> texts;
        for (const auto& one : clashes()) texts.push_back(one.text);
        tellings.untell("bookvan", {"pan_depth"});
        return texts;
    };
    constexpr auto measured = TellEvidence::measured, read = TellEvidence::read;
    using Texts = std::vector<std::string>;
    CHECK(in_doubt({{measured, "61mm"}, {measured, "61mm"}, {read, "41mm"}}) == Texts{"61mm"});  // said once
    CHECK(in_doubt({{read, "61mm"}, {read, "41mm"}}).empty());
    CHECK(in_doubt({{read, "61mm"}, {measured, "41mm"}}).empty());
    CHECK(in_doubt({{measured, "61mm"}, {measured, "41mm"}}) == Texts{"61mm"});
    CHECK(in_doubt({{measured, "61mm"}, {measured, "41mm"}, {measured, "42mm"}}).empty());  // 1 mm is allowed
    CHECK(in_doubt({{measured, "61mm"}, {measured, "41mm"}, {measured, "60mm"}}).empty());  // twice to once
    CHECK(in_doubt({{measured, "61mm"}, {measured, "41mm"}, {measured, "61mm"}, {measured, "41mm"}}) == Texts{"61mm"});
    CHECK(in_doubt({{measured, "61mm"}, {measured, "41mm"}, {measured, "41mm"}, {read, "41mm"}}).empty());
}
