// Old fluid left: plain dilution (common practice, no source); values recomputed.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "plugins/transmission_fluids/science/residual.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

TEST_CASE("new fluid after one to six changes agrees with the recomputed table") {
    struct Row {
        double share;
        double new_after[6];
        int for_90, for_95;
    };
    const Row rows[] = {
        {0.30, {.3000, .5100, .6570, .7599, .8319, .8824}, 7, 9},
        {1.0 / 3, {.3333, .5556, .7037, .8025, .8683, .9122}, 6, 8},
        {0.35, {.3500, .5775, .7254, .8215, .8840, .9246}, 6, 7},
        {0.40, {.4000, .6400, .7840, .8704, .9222, .9533}, 5, 6},
        {0.45, {.4500, .6975, .8336, .9085, .9497, .9723}, 4, 6},
        {0.50, {.5000, .7500, .8750, .9375, .9688, .9844}, 4, 5},
        {0.60, {.6000, .8400, .9360, .9744, .9898, .9959}, 3, 4},
    };
    for (const Row& row : rows) {
        CAPTURE(row.share);
        const auto left = old_fluid_after_each(10, 10 * row.share, 6);
        REQUIRE(left.size() == 6);
        for (std::size_t i = 0; i < 6; ++i) CHECK(1 - left[i] == Approx(row.new_after[i]).margin(0.00006));
        CHECK(changes_for_target(10, 10 * row.share, 0.10) == row.for_90);
        CHECK(changes_for_target(10, 10 * row.share, 0.05) == row.for_95);
    }
}

TEST_CASE("changes for a quarter or a tenth of old fluid agree with the derived table") {
    struct Row {
        double share;
        int quarter, tenth;
    };
    for (const Row& row : {Row{.30, 4, 7}, {.40, 3, 5}, {.46, 3, 4}, {.50, 2, 4}, {.60, 2, 3}}) {
        CAPTURE(row.share);
        CHECK(changes_for_target(10, 10 * row.share, 0.25) == row.quarter);
        CHECK(changes_for_target(10, 10 * row.share, 0.10) == row.tenth);
    }
}

TEST_CASE("3.6 L out of 9 L leaves 0.6, 0.36, 0.216, 0.1296, 0.07776") {
    const auto left = old_fluid_after_each(9.0, 3.6, 5);
    const double expected[] = {0.6, 0.36, 0.216, 0.1296, 0.07776};
    for (std::size_t i = 0; i < 5; ++i) CHECK(left[i] == Approx(expected[i]).epsilon(1e-12));
}

TEST_CASE("4.7 L out of 10.2 L needs two changes for 30 % old and three for 25 %") {
    CHECK(old_fluid_left(10.2, 4.7, 1) == Approx(0.539).margin(0.0005));
    CHECK(old_fluid_left(10.2, 4.7, 2) == Approx(0.291).margin(0.0005));
    CHECK(changes_for_target(10.2, 4.7, 0.30) == 2);
    CHECK(changes_for_target(10.2, 4.7, 0.25) == 3);
}

TEST_CASE("a published worked example of three sevenths left per change is met") {
    CHECK(old_fluid_left(7, 4, 3) == Approx(27.0 / 343).epsilon(1e-12));
}

TEST_CASE("draining everything leaves nothing after one change") {
    CHECK(old_fluid_left(9, 9, 1) == 0);
    CHECK(changes_for_target(9, 9, 0.001) == 1);
    CHECK(old_fluid_left(9, 9, 0) == 1);
}

TEST_CASE("a target met exactly counts as met") {
    CHECK(changes_for_target(10, 5, 0.25) == 2);
    CHECK(changes_for_target(10, 3, 0.343) == 3);
    CHECK(changes_for_target(9, 3.6, 0.216) == 3);
    CHECK(changes_for_target(9, 1.8, 0.64) == 2);  // the logarithms alone say 3
    CHECK(changes_for_target(10, 1, 0.729) == 3);
    CHECK(changes_for_target(10, 3, 1) == 0);
}

TEST_CASE("the number of changes is the fewest that reach the target") {
    std::mt19937_64 random(44);
    std::uniform_real_distribution<double> total(4, 16), share(0.05, 0.95), target(0.005, 0.95);
    for (int i = 0; i < 3000; ++i) {
        const double v = total(random), d = v * share(random), r = target(random);
        CAPTURE(v, d, r);
        const int n = changes_for_target(v, d, r);
        CHECK(old_fluid_left(v, d, n) <= r * (1 + 1e-9));
        if (n > 0) CHECK(old_fluid_left(v, d, n - 1) > r);
    }
}

TEST_CASE("a continuous exchange of one capacity leaves 37 % at worst and nothing at best") {
    CHECK(continuous_exchange(9, 9).worst_old == Approx(0.3679).margin(0.00005));
    CHECK(continuous_exchange(9, 9).best_old == 0);
    CHECK(continuous_exchange(9, 18).worst_old == Approx(0.135).margin(0.0005));
    CHECK(continuous_exchange(9, 18).best_old == 0);
    CHECK(continuous_exchange(9, 4.5).best_old == 0.5);
    CHECK(continuous_exchange(9, 0).worst_old == 1);
    CHECK(continuous_exchange(9, 0).best_old == 1);
}

TEST_CASE("the best exchange is never worse than the worst, and small drains approach the worst") {
    for (double exchanged = 0.5; exchanged < 40; exchanged += 0.5) {
        CAPTURE(exchanged);
        const auto bounds = continuous_exchange(9, exchanged);
        CHECK(bounds.best_old <= bounds.worst_old);
        CHECK(old_fluid_left(9, exchanged / 1000, 1000) == Approx(bounds.worst_old).epsilon(0.01));
    }
}

TEST_CASE("the exchange for a target reaches it even in the worst case") {
    CHECK(continuous_exchange(9, exchange_for_target_l(9, 0.1)).worst_old == Approx(0.1));
    CHECK(exchange_for_target_l(9, 1) == 0);
}

TEST_CASE("a drain of nothing, or of more than there is, is refused") {
    CHECK_THROWS_WITH(changes_for_target(9, 0, 0.1), "drained volume: got 0 L: valid range is more than 0 to 9 L");
    CHECK_THROWS_WITH(old_fluid_left(9, 9.1, 1), "drained volume: got 9.1 L: valid range is more than 0 to 9 L");
    CHECK_THROWS_WITH(old_fluid_left(0, 0, 1), Contains("total volume: got 0 L"));
    CHECK_THROWS_AS(old_fluid_left(std::nan(""), 1, 1), std::domain_error);
    CHECK_THROWS_WITH(old_fluid_left(9, 3, -1), "number of changes: got -1: valid range is 0 to 1000");
    CHECK_THROWS_WITH(changes_for_target(9, 3, 0), Contains("valid range is 0.000001 to 1"));
    CHECK_THROWS_WITH(changes_for_target(9, 0.001, 0.01), Contains("number of changes this drain would take"));
    CHECK_THROWS_AS(continuous_exchange(9, -1), std::domain_error);
}

TEST_CASE(
    "on generated drains the old share falls with every change, faster by a larger drain, and is never below nothing") {
    std::mt19937 dice(3);
    std::uniform_real_distribution<double> total(4, 14), share(0.05, 0.95);
    for (int run = 0; run < 500; ++run) {
        const double total_l = total(dice), drained_l = total_l * share(dice);
        CAPTURE(total_l, drained_l);
        const auto left = old_fluid_after_each(total_l, drained_l, 8),
                   more = old_fluid_after_each(total_l, std::min(total_l, 1.05 * drained_l), 8);
        double before = 1;
        for (std::size_t i = 0; i < left.size(); ++i) {
            CHECK(left[i] < before);
            CHECK(left[i] >= 0);
            CHECK(more[i] < left[i]);
            before = left[i];
        }
    }
}
