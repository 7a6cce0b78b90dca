// Draws and distributions against their definitions.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <utility>

#include "core/ground/random_draw.h"

using namespace casebound;

TEST_CASE("the engine's numbers are those that the C++ standard fixes") {
    std::mt19937_64 engine;  // ISO/IEC 14882:2020, [rand.predef], from memory: the 10000th number
    engine.discard(9999);
    CHECK(engine() == 9981545732273789042ULL);
}

TEST_CASE("the series logarithm is the logarithm") {
    for (double x = 1e-300; x < 1e300; x *= 3.7) CHECK(series_log(x) == Approx(std::log(x)).epsilon(1e-14));
    CHECK(series_log(1) == 0);
}

TEST_CASE("a beta draw has its mean and variance") {
    Draws draws(1);
    for (const auto& [a, b] : {std::pair{6.0, 4.0}, {1.0, 1.0}, {1.0, 9.0}, {40.5, 2.5}}) {
        double sum = 0, squares = 0;
        constexpr int n = 40000;
        bool inside = true;
        for (int i = 0; i < n; ++i) {
            const double x = draws.beta(a, b);
            inside = inside && x > 0 && x < 1;
            sum += x;
            squares += x * x;
        }
        CHECK(inside);
        const double mean = sum / n, variance = squares / n - mean * mean;
        const double true_variance = a * b / ((a + b) * (a + b) * (a + b + 1));
        CHECK(mean == Approx(a / (a + b)).margin(4 * std::sqrt(true_variance / n)));
        CHECK(variance == Approx(true_variance).epsilon(0.05));
    }
}

TEST_CASE("a triangular range has its ends, its median and its mean") {
    CHECK(triangular(1, 2, 5, 0) == 1);
    CHECK(triangular(1, 2, 5, 1) == 5);
    CHECK(triangular(1, 2, 5, 0.25) == Approx(2));  // a quarter lies below the likely value
    CHECK(triangular(3, 3, 3, 0.7) == 3);
    double sum = 0;
    for (int i = 0; i < 10000; ++i) sum += triangular(1, 2, 5, (i + 0.5) / 10000);
    CHECK(sum / 10000 == Approx(8.0 / 3).epsilon(1e-5));
}
