// Blends: recomputed check values of the double-logarithm and Refutas methods.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "plugins/transmission_fluids/science/blend.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

namespace {
constexpr auto astm = BlendMethod::d7152_double_log;
constexpr auto refutas = BlendMethod::refutas;
}  // namespace

TEST_CASE("60 % of 32 with 40 % of 100 gives 48.70 or 48.72") {
    CHECK(blend_index(32, astm) == Approx(0.180283).margin(0.000001));
    CHECK(blend_index(100, astm) == Approx(0.301687).margin(0.000001));
    CHECK(blend_kv({{0.6, 32}, {0.4, 100}}, astm) == Approx(48.7006).margin(0.0001));
    CHECK(blend_index(32, refutas) == Approx(29.1429).margin(0.0001));
    CHECK(blend_index(100, refutas) == Approx(33.1962).margin(0.0001));
    CHECK(blend_index(blend_kv({{0.6, 32}, {0.4, 100}}, refutas), refutas) == Approx(30.7642).margin(0.0001));
    CHECK(blend_kv({{0.6, 32}, {0.4, 100}}, refutas) == Approx(48.7185).margin(0.0001));
}

TEST_CASE("60 % of 5 with 40 % of 20 gives 8.08 or 8.11") {
    CHECK(blend_index(5.0, astm) == Approx(-0.121550).margin(0.000001));
    CHECK(blend_index(20.0, astm) == Approx(0.119246).margin(0.000001));
    CHECK(blend_kv({{0.6, 5}, {0.4, 20}}, astm) == Approx(8.0813).margin(0.0001));
    CHECK(blend_index(5.0, refutas) == Approx(19.1736).margin(0.0001));
    CHECK(blend_index(20.0, refutas) == Approx(27.1106).margin(0.0001));
    CHECK(blend_kv({{0.6, 5}, {0.4, 20}}, refutas) == Approx(8.1085).margin(0.0001));
}

TEST_CASE("half and half of 7.0 and 5.4 gives 6.13 either way") {
    CHECK(blend_kv({{0.5, 7.0}, {0.5, 5.4}}, astm) == Approx(6.1293).margin(0.0001));
    CHECK(blend_kv({{0.5, 7.0}, {0.5, 5.4}}, refutas) == Approx(6.1305).margin(0.0001));
}

TEST_CASE("the published Refutas index of 2.234 mm2/s is met within its rounding") {
    // Petroleum Refinery Process Economics, 2nd ed., 2000: 12.492.
    CHECK(blend_index(2.234, refutas) == Approx(12.492).margin(0.002));
    CHECK(blend_index(2.234, refutas) == Approx(12.490222).margin(0.000001));
}

TEST_CASE("34.8 % of 100 in 32 reaches 46") {
    CHECK(blend_fraction(32, 100, 46, astm) == Approx(0.3480584).margin(0.0000001));
}

TEST_CASE("a blend lies between its parts, and its fraction is found again") {
    std::mt19937_64 random(7152);
    std::uniform_real_distribution<double> kv(2.5, 500), share(0.02, 0.98);
    for (int i = 0; i < 1000; ++i) {
        const double base = kv(random), added = kv(random), fraction = share(random);
        CAPTURE(base, added, fraction);
        for (const auto method : {astm, refutas}) {
            const double blend = blend_kv({{1 - fraction, base}, {fraction, added}}, method);
            CHECK(blend > std::min(base, added) * 0.9999);
            CHECK(blend < std::max(base, added) * 1.0001);
            CHECK(blend_fraction(base, added, std::clamp(blend, std::min(base, added), std::max(base, added)),
                                 method) == Approx(fraction).margin(0.001 + 0.001 / std::abs(base / added - 1)));
        }
    }
}

TEST_CASE("a blend of one fluid is that fluid, and order does not matter") {
    CHECK(blend_kv({{1, 34}}, astm) == Approx(34));
    CHECK(blend_kv({{0.25, 34}, {0.75, 34}}, refutas) == Approx(34));
    // Thirds typed with six digits do not shift the result.
    CHECK(blend_kv({{0.333333, 34}, {0.666666, 34}}, refutas) == Approx(34).epsilon(1e-9));
    CHECK(blend_kv({{0.2, 7}, {0.3, 30}, {0.5, 90}}, astm) ==
          Approx(blend_kv({{0.5, 90}, {0.2, 7}, {0.3, 30}}, astm)).epsilon(1e-12));
}

TEST_CASE("impossible blends are refused") {
    CHECK_THROWS_WITH(blend_kv({{0.5, 7}, {0.4, 5}}, astm),
                      Contains("sum of the blend fractions: got 0.9: valid range is"));
    CHECK_THROWS_WITH(blend_kv({}, astm), Contains("sum of the blend fractions: got 0"));
    CHECK_THROWS_WITH(blend_kv({{1.5, 7}, {-0.5, 5}}, astm), "blend fraction: got 1.5: valid range is 0 to 1");
    CHECK_THROWS_WITH(blend_kv({{1, 0.2}}, refutas), Contains("valid range is 0.21 to 20000000"));
    CHECK_THROWS_WITH(blend_fraction(32, 100, 120, astm),
                      "wanted viscosity of the blend: got 120 mm2/s: valid range is 32 to 100 mm2/s");
    CHECK_THROWS_WITH(blend_fraction(32, 32, 32, astm), Contains("any but the base fluid's own 32"));
}
