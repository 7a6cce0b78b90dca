#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <stdexcept>

#include "science/judgement.h"
#include "science/measure.h"

using namespace casebound::filters_seals;

TEST_CASE("a value out of physical range is refused with what, got and valid range") {
    CHECK_THROWS_AS(in_range("pan depth", 412.0, {1.0, 300.0}, "mm"), std::domain_error);
    CHECK_THROWS_WITH(in_range("pan depth", 412.0, {1.0, 300.0}, "mm"),
                      "pan depth: got 412 mm: valid range is 1 to 300 mm");
    CHECK_THROWS_WITH(in_range("pan depth", std::nan(""), {1.0, 300.0}, "mm"),
                      Catch::Contains("pan depth: got") && Catch::Contains("nan"));
    CHECK_THROWS_AS(in_range("x", std::numeric_limits<double>::infinity(), {0.0, 1.0}), std::domain_error);
    CHECK(in_range("x", 1.0, {1.0, 2.0}) == 1.0);
    CHECK(in_range("x", 2.0, {1.0, 2.0}) == 2.0);
}

TEST_CASE("a tolerance that is negative or reaches past the range is refused") {
    CHECK_THROWS_WITH(in_range("bore", Toleranced{20, -0.1, 0}, {0.3, 50.0}, "mm"),
                      "bore tolerance: got -0.1 mm: valid range is 0 to 49.7 mm");
    CHECK_THROWS_AS(in_range("bore", Toleranced{0.5, 0.4, 0}, {0.3, 50.0}, "mm"), std::domain_error);
    CHECK_THROWS_AS(in_range("bore", Toleranced{49.9, 0, 0.4}, {0.3, 50.0}, "mm"), std::domain_error);
}

TEST_CASE("numbers are shown short and zero never carries a sign") {
    CHECK(shown(-0.0) == "0");
    CHECK(shown(3.0) == "3");
    CHECK(shown(0.1 + 0.2) == "0.3");
}

TEST_CASE("stacking takes the worst corners, and the nominal from the nominals") {
    const Stacked s = stack_up<2>({Toleranced{32, 0, 0.039}, Toleranced{26, 0.05, 0}},
                                  [](const auto& v) { return (v[0] - v[1]) / 2; });
    CHECK(s.min == Approx(3.0));
    CHECK(s.nominal == Approx(3.0));
    CHECK(s.max == Approx(3.0445));
}

TEST_CASE("the weakest source on a path is the later one in the evidence order") {
    const Source law{Evidence::law, "law"}, memory{Evidence::memory, "m"}, demo{Evidence::invented, "d"};
    CHECK(weakest(law, memory).kind == Evidence::memory);
    CHECK(weakest(memory, law).kind == Evidence::memory);
    CHECK(weakest(demo, memory).kind == Evidence::invented);
}

TEST_CASE("a window from memory never makes a firm verdict") {
    const Window memory{{3, 10}, {Evidence::memory, "m"}};
    const Window measured{{3, 10}, {Evidence::measured, "old pair"}};
    for (const double v : {-5.0, 0.0, 5.0, 50.0}) CHECK(judge({v, v, v}, memory) == Judgement::check_first);
    CHECK(judge({5, 5, 5}, measured) == Judgement::fits);
    CHECK(judge({50, 50, 50}, measured) == Judgement::does_not_fit);
    CHECK(judge({9, 10, 11}, measured) == Judgement::check_first);
}

TEST_CASE("an unsure edge opens the question on both sides of it") {
    const Window w{{3, 10}, {Evidence::measured, "old pair"}, 0.5};
    CHECK(judge({9.4, 9.4, 9.4}, w) == Judgement::fits);
    CHECK(judge({9.6, 9.6, 9.6}, w) == Judgement::check_first);
    CHECK(judge({10.4, 10.4, 10.4}, w) == Judgement::check_first);
    CHECK(judge({10.6, 10.6, 10.6}, w) == Judgement::does_not_fit);
}

TEST_CASE("a tighter band never turns does-not-fit into fits, nor fits into does-not-fit") {
    std::mt19937 random(20031);
    std::uniform_real_distribution<double> middle(-5, 20), width(0, 6), shrink(0, 1);
    for (int i = 0; i < 20000; ++i) {
        const Window w{{3, 10}, {Evidence::measured, "old pair"}, width(random) / 4};
        const double m = middle(random), below = width(random), above = width(random), f = shrink(random);
        const Judgement wide = judge({m - below, m, m + above}, w);
        const Judgement tight = judge({m - f * below, m, m + f * above}, w);
        if (wide != Judgement::check_first) REQUIRE(tight == wide);
    }
}
