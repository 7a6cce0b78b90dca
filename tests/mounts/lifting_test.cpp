// How far to raise the engine, against the room there is, and where it may be lifted.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "plugins/mounts/science/lifting.h"

using namespace casebound::mounts;

TEST_CASE("the lift needed is the stud engagement plus 5 to 10 mm") {
    // Common practice, no source.
    CHECK(lift_needed_mm(32.0).least_mm == 37.0);
    CHECK(lift_needed_mm(32.0).comfortable_mm == 42.0);
}

TEST_CASE("the smallest clearance decides") {
    const auto answer = lift_answer(20.0, {{"upper hose", 60.0}, {"fan to shroud", 31.0}});
    CHECK(answer.verdict == LiftVerdict::enough);
    REQUIRE(answer.smallest);
    CHECK(answer.smallest->what == "fan to shroud");
}

TEST_CASE("between the least and the comfortable lift it is tight") {
    CHECK(lift_answer(20.0, {{"fan to shroud", 25.0}}).verdict == LiftVerdict::tight);
    CHECK(lift_answer(20.0, {{"fan to shroud", 29.9}}).verdict == LiftVerdict::tight);
    CHECK(lift_answer(20.0, {{"fan to shroud", 30.0}}).verdict == LiftVerdict::enough);
}

TEST_CASE("everything below the least lift is named for release") {
    const auto answer = lift_answer(20.0,
                                    {{"fan to shroud", 24.0}, {"upper hose", std::nullopt}, {"shifter cable", 10.0}});
    CHECK(answer.verdict == LiftVerdict::not_enough);
    CHECK(answer.release == std::vector<std::string>{"fan to shroud", "shifter cable"});
    CHECK(answer.not_measured == std::vector<std::string>{"upper hose"});
}

TEST_CASE("an empty list or a clearance not measured is cannot tell") {
    CHECK(lift_answer(20.0, {}).verdict == LiftVerdict::cannot_tell);
    CHECK(lift_answer(20.0, clearances_to_measure()).verdict == LiftVerdict::cannot_tell);
    CHECK(lift_answer(20.0, {{"fan", 90.0}, {"hose", std::nullopt}}).verdict == LiftVerdict::cannot_tell);
}

TEST_CASE("on generated lists a longer stud never improves the verdict") {
    std::mt19937 random(409);
    std::uniform_real_distribution<double> room(0, 120);
    std::uniform_real_distribution<double> stud(0, 100);
    const auto rank = [](LiftVerdict v) { return v == LiftVerdict::enough ? 0 : v == LiftVerdict::tight ? 1 : 2; };
    for (int i = 0; i < 500; ++i) {
        const std::vector<Clearance> list{{"a", room(random)}, {"b", room(random)}};
        const double short_mm = stud(random);
        CHECK(rank(lift_answer(short_mm, list).verdict) <= rank(lift_answer(short_mm + 20, list).verdict));
    }
}

TEST_CASE("a negative stud or clearance is refused") {
    CHECK_THROWS_WITH(lift_needed_mm(-2.0), "stud_engagement_mm: got -2: valid range is 0 to 200");
    CHECK_THROWS_AS(lift_answer(20.0, {{"fan", -1.0}}), std::domain_error);
    CHECK_THROWS_AS(lift_answer(20.0, {{"fan", std::nan("")}}), std::domain_error);
}

TEST_CASE("lifting instructions that conflict are shown side by side and cannot tell") {
    const std::vector<LiftInstruction> both{
        {"oil pan", false, "no jack under the oil pan", "a maker's workshop manual"},
        {"lifting eye", true, "use both eyes", "a maker's workshop manual"},
        {"oil pan", true, "wood block across the pan", "common practice, no source"}};
    const auto answer = lift_at("oil pan", both);
    CHECK(answer.permission == LiftPermission::cannot_tell);
    REQUIRE(answer.instructions.size() == 2);
    CHECK(answer.instructions[0].text == "no jack under the oil pan");
    CHECK(answer.instructions[1].text == "wood block across the pan");
    CHECK(lift_at("lifting eye", both).permission == LiftPermission::allowed);
}

TEST_CASE("a lifting point nobody spoke about is not recorded, never allowed") {
    CHECK(lift_at("oil pan", {}).permission == LiftPermission::not_recorded);
    CHECK(lift_at("oil pan", {{"oil pan", false, "", "s"}}).permission == LiftPermission::forbidden);
}

TEST_CASE("every recorded lifting point is listed once, by name") {
    const auto points = lift_points(
        {{"oil pan", false, "", "a"}, {"lifting eye", true, "", "b"}, {"oil pan", false, "", "c"}});
    REQUIRE(points.size() == 2);
    CHECK(points[0].instructions.front().point == "lifting eye");
    CHECK(points[1].instructions.size() == 2);
    CHECK(points[1].permission == LiftPermission::forbidden);
}
