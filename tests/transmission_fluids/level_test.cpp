// Level: API MPMS 11.1 / ASTM D1250 lubricating oils (Table 54D), recomputed, and
// geometry.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "plugins/transmission_fluids/science/level.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

TEST_CASE("expansion of lubricating oils agrees with recomputed values") {
    struct Row {
        double rho, t, alpha, vcf, ratio, rho_t;
    };
    const Row rows[] = {
        {870, 20, 0.00072161, 0.996388, 1.003625, 866.86}, {870, 40, 0.00072161, 0.981866, 1.018469, 854.22},
        {870, 80, 0.00072161, 0.952501, 1.049868, 828.68}, {870, 100, 0.00072161, 0.937680, 1.066462, 815.78},
        {850, 40, 0.00073859, 0.981437, 1.018914, 834.22}, {850, 80, 0.00073859, 0.951370, 1.051116, 808.66},
        {900, 80, 0.00069756, 0.954101, 1.048107, 858.69},
    };
    for (const Row& r : rows) {
        CAPTURE(r.rho, r.t);
        CHECK(expansion_per_c(r.rho) == Approx(r.alpha).margin(5e-9));
        CHECK(volume_correction_15c(r.rho, r.t) == Approx(r.vcf).margin(6e-7));
        CHECK(volume_ratio(r.rho, 15, r.t) == Approx(r.ratio).margin(6e-7));
        CHECK(density_at_kg_m3(r.rho, r.t) == Approx(r.rho_t).margin(0.006));
    }
}

TEST_CASE("hot fluid of 870 kg/m3 has grown about 5 % at 80 °C") {
    // The trade remark, "hot fluid expands about 5 %".
    CHECK(volume_ratio(870, 15, 80) == Approx(1.05).margin(0.001));
}

TEST_CASE("the 60 °F and 15 °C forms agree") {
    CHECK(0.34878 * 1.8 == Approx(0.627804).margin(1e-9));
    CHECK(expansion_per_f(850) == Approx(4.10e-4).margin(0.005e-4));
    CHECK(expansion_per_f(850) * 1.8 == Approx(7.4e-4).margin(0.05e-4));
    for (double t = -40; t <= 140; t += 5) {
        CAPTURE(t);
        const double rho60 = density_at_kg_m3(860, (60 - 32) / 1.8);
        const double ratio_f = volume_correction_60f(rho60, 68) / volume_correction_60f(rho60, 1.8 * t + 32);
        CHECK(ratio_f == Approx(volume_ratio(860, 20, t)).margin(5e-5));
    }
}

TEST_CASE("850 kg/m3 grows 4.7 % from 20 to 80 °C") {
    CHECK(volume_ratio(850, 20, 80) == Approx(1.047).margin(0.0005));
}

TEST_CASE("8.5 L at 20 °C become 8.8916 L at 80 °C, or 8.8825 L by the plain rule") {
    CHECK(8.5 * volume_ratio(870, 20, 80) == Approx(8.8916).margin(0.00005));
    CHECK((volume_ratio(870, 20, 80) - 1) / 60 == Approx(0.000768).margin(5e-7));
    CHECK(8.5 + simple_volume_change_l(8.5, 0.00075, 20, 80) == Approx(8.8825));
}

TEST_CASE("100 L of oil at 0.0007 per °C grow 1.4 L from 20 to 40 °C") {
    CHECK(simple_volume_change_l(100, 0.0007, 20, 40) == Approx(1.4));
}

TEST_CASE("9 L over 60 °C rise 3.8 mm, or 7.6 mm where the valve body takes half the area") {
    const double change_l = simple_volume_change_l(9, 7.4e-4, 20, 80);
    CHECK(change_l == Approx(0.40).margin(0.005));
    CHECK(level_rise_mm(change_l, 0.105) == Approx(3.8).margin(0.05));
    CHECK(level_rise_mm(change_l, 0.0525) == Approx(7.6).margin(0.05));
}

TEST_CASE("one axle on 165 mm ramps tilts 3.5 degrees and errs 12 mm at 200 mm") {
    const double angle = tilt_deg(165, 2700);
    CHECK(angle == Approx(3.5).margin(0.05));
    CHECK(tilt_error_mm(200, angle) == Approx(12).margin(0.5));
    // More than the whole rise from cold to hot.
    CHECK(tilt_error_mm(200, angle) > level_rise_mm(simple_volume_change_l(9, 7.4e-4, 20, 80), 0.0525));
}

TEST_CASE("a level vehicle has no tilt error, and a shorter wheelbase tilts more") {
    CHECK(tilt_error_mm(200, tilt_deg(0, 2700)) == 0);
    CHECK(tilt_deg(165, 2400) > tilt_deg(165, 2700));
}

TEST_CASE("a cold reading at the hot mark is overfull by what the heat will add") {
    const LevelTarget target{40, 80, 9, 850, 0.105};
    CHECK(level_target_at_mm(target, 80) == 40);
    CHECK(level_target_at_mm(target, 20) < 40);
    CHECK(overfill_l(target, 40, 20) == Approx(9 * (1 - volume_ratio(850, 80, 20))));
    CHECK(overfill_l(target, 40, 80) == Approx(0).margin(1e-12));
    CHECK(overfill_l(target, 45, 80) == Approx(0.525));   // 5 mm on 0.105 m2
    CHECK(overfill_l(target, 35, 80) == Approx(-0.525));  // too little
}

TEST_CASE("heating and cooling back gives the volume back, and heat always expands") {
    std::mt19937_64 random(1250);
    std::uniform_real_distribution<double> rho(801, 1164), temp(-50, 149);
    for (int i = 0; i < 2000; ++i) {
        const double r = rho(random), a = temp(random), b = temp(random);
        CAPTURE(r, a, b);
        CHECK(volume_ratio(r, a, b) * volume_ratio(r, b, a) == Approx(1).epsilon(1e-12));
        CHECK(volume_ratio(r, a, a + 1) > 1);
        CHECK(density_at_kg_m3(r, a) > density_at_kg_m3(r, a + 1));
    }
}

TEST_CASE("densities, temperatures and slopes out of range are refused") {
    CHECK_THROWS_WITH(volume_ratio(800, 20, 80), "density: got 800 kg/m3: valid range is 801 to 1164 kg/m3");
    CHECK_THROWS_WITH(volume_ratio(850, 20, 151), "fluid temperature: got 151 °C: valid range is -50 to 150 °C");
    CHECK_THROWS_WITH(simple_volume_change_l(9, 0.01, 20, 80), Contains("0.0005 to 0.001 per °C"));
    CHECK_THROWS_WITH(level_rise_mm(0.4, 0), "free area: got 0 m2: valid range is 0.005 to 1 m2");
    CHECK_THROWS_WITH(tilt_deg(1400, 2700), "ramp height: got 1400 mm: valid range is 0 to 1350 mm");
    CHECK_THROWS_AS(tilt_deg(165, 0), std::domain_error);
    CHECK_THROWS_AS(tilt_error_mm(200, 90), std::domain_error);
    CHECK_THROWS_AS(overfill_l({40, 80, 9, 850, 0.105}, std::nan(""), 80), std::domain_error);
}
