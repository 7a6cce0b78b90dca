// Left and right engine height.
#include <catch2/catch.hpp>

#include <random>

#include "plugins/mounts/science/sag.h"

using namespace casebound::mounts;

TEST_CASE("more than 5 mm of difference wants a closer look, more than 10 is suspect") {
    // Limits from memory.
    CHECK(sag_between_sides(310, 305).verdict == SagVerdict::even);
    CHECK(sag_between_sides(310, 304).verdict == SagVerdict::look_closer);
    CHECK(sag_between_sides(310, 300).verdict == SagVerdict::look_closer);
    CHECK(sag_between_sides(310, 299).verdict == SagVerdict::suspect);
}

TEST_CASE("the low side is the suspect one") {
    CHECK(sag_between_sides(298, 310).low_side == LowSide::left);
    CHECK(sag_between_sides(310, 298).low_side == LowSide::right);
    CHECK(sag_between_sides(310, 310).low_side == LowSide::none);
    CHECK(sag_between_sides(298, 310).left_minus_right_mm == -12.0);
}

TEST_CASE("a maker's figure replaces both limits") {
    CHECK(sag_from_figure(96, 100).verdict == SagVerdict::even);
    CHECK(sag_from_figure(96, 100, {2, 3}).verdict == SagVerdict::suspect);
    CHECK(sag_from_figure(96, 100).below_figure_mm == 4.0);
    CHECK(sag_from_figure(104, 100, {2, 3}).verdict == SagVerdict::suspect);
}

TEST_CASE("exchanging generated sides mirrors the answer") {
    std::mt19937 random(510);
    std::uniform_real_distribution<double> height(200, 400);
    for (int i = 0; i < 500; ++i) {
        const double left = height(random);
        const double right = height(random);
        const auto one = sag_between_sides(left, right);
        const auto other = sag_between_sides(right, left);
        CHECK(one.verdict == other.verdict);
        CHECK(one.left_minus_right_mm == -other.left_minus_right_mm);
        CHECK(one.low_side != other.low_side);
    }
}

TEST_CASE("impossible heights and reversed limits are refused") {
    CHECK_THROWS_WITH(sag_between_sides(-1, 300), "left_height_mm: got -1: valid range is 0 to 2000");
    CHECK_THROWS_AS(sag_between_sides(300, 300, {10, 5}), std::domain_error);
}
