// The gear engaged, from speeds.
#include <catch2/catch.hpp>

#include <random>

#include "plugins/solenoids/science/ratio.h"

using namespace casebound::solenoids;

namespace {
// Invented ratios.
const std::vector<GearRatio> gears_on_record{{"1", 2.80}, {"2", 1.54}, {"3", 1.00}, {"4", 0.70}};
using Names = std::vector<std::string>;
}  // namespace

TEST_CASE("2000 rpm, 2 m of tyre, 80 km/h and a final drive of 3.5 give 0.857") {
    // 2000 x 60 x 2.0 / (1000 x 80 x 3.5), derived.
    CHECK(ratio_from_road({2000, 2.0, 80, 3.5}) == Approx(0.857).margin(0.0005));
}

TEST_CASE("two speeds give their ratio") { CHECK(ratio_from_speeds(3000, 1500) == 2.0); }

TEST_CASE("a gear matches within 4 % either way, and not beyond") {
    CHECK(match_ratio(gears_on_record, 1.04).gears == Names{"3"});
    CHECK(match_ratio(gears_on_record, 0.96).gears == Names{"3"});
    CHECK(match_ratio(gears_on_record, 1.041).gears.empty());
    CHECK(match_ratio(gears_on_record, 0.959).gears.empty());
}

TEST_CASE("between gears the nearest is named with its difference") {
    const auto match = match_ratio(gears_on_record, 1.25);
    CHECK(match.gears.empty());
    CHECK(match.nearest == "2");
    CHECK(match.nearest_difference == Approx(1.25 / 1.54 - 1.0));
}

TEST_CASE("an unlocked converter reads 2 to 10 % high") {
    // From memory.
    CHECK(match_ratio(gears_on_record, 1.08).gears.empty());
    const auto match = match_ratio(gears_on_record, 1.08, Converter::unlocked);
    CHECK(match.gears == Names{"3"});
    CHECK(match.converter_slip_possible);
    CHECK_FALSE(match_ratio(gears_on_record, 1.0).converter_slip_possible);
    CHECK(match_ratio(gears_on_record, 0.97, Converter::unlocked).gears.empty());
    CHECK(match_ratio(gears_on_record, 0.97, Converter::not_told).gears == Names{"3"});
}

TEST_CASE("close gears both match and both are given") {
    const std::vector<GearRatio> close{{"5", 0.86}, {"6", 0.82}};
    CHECK(match_ratio(close, 0.84).gears == Names{"5", "6"});
}

TEST_CASE("slip is the share of input speed lost") {
    CHECK(slip_share(1.0, 1.25) == Approx(0.2));
    CHECK(slip_share(1.0, 1.0) == 0.0);
    CHECK(slip_share(1.0, 0.8) < 0.0);
}

TEST_CASE("a generated speed in a gear always finds that gear") {
    std::mt19937 random(42);
    std::uniform_real_distribution<double> error(-0.039, 0.039);
    std::uniform_real_distribution<double> speed(300, 4000);
    for (int i = 0; i < 1000; ++i)
        for (const auto& gear : gears_on_record) {
            const double out = speed(random);
            const double in = out * gear.ratio * (1 + error(random));
            const auto match = match_ratio(gears_on_record, ratio_from_speeds(in, out));
            CHECK(match.gears == Names{gear.gear});
            CHECK(match.nearest == gear.gear);
        }
}

TEST_CASE("a standing wheel, an empty table and an absurd ratio are refused") {
    CHECK_THROWS_WITH(ratio_from_speeds(2000, 0), "output_rpm: got 0: valid range is 1 to 20000");
    CHECK_THROWS_AS(match_ratio({}, 1.0), std::domain_error);
    CHECK_THROWS_AS(match_ratio({{"1", -2.8}}, 1.0), std::domain_error);
    CHECK_THROWS_AS(ratio_from_road({2000, 2.0, 0, 3.5}), std::domain_error);
}
