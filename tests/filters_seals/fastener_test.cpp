#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/fastener.h"

using namespace casebound::filters_seals;
using U = TorqueUnit;

// M12, class 8.8, proof 580 MPa, 70 %: published worked example of T = K F d.
TEST_CASE("an M12 class 8.8 bolt at 70 % of proof: 84.3 mm2, 34.2 kN, 82 N·m") {
    CHECK(stress_area_mm2({12, 1.75}) == Approx(84.3).margin(0.05));
    CHECK(0.7 * 580 * 84.3 / 1000 == Approx(34.2258));
    CHECK(torque_nm(0.20, 34.2258, 12) == Approx(82.142).margin(0.0005));
}

TEST_CASE("the same 82.1 N·m gives 45.6 kN lubricated and 22.8 kN dry") {
    CHECK(preload_kn(kNutFactorLubricated, 82.1, 12) == Approx(45.6).margin(0.05));
    CHECK(preload_kn(kNutFactorDry, 82.1, 12) == Approx(22.8).margin(0.05));
    CHECK(preload_kn(kNutFactorAsReceived, 82.142, 12) == Approx(34.2258).margin(0.001));
}

TEST_CASE("tightening by torque alone scatters the preload by 25 % either way") {
    const Stacked f = preload_with_scatter_kn(0.20, 82.142, 12);
    CHECK(f.min == Approx(0.75 * f.nominal));
    CHECK(f.max == Approx(1.25 * f.nominal));
}

// Exact from inch 25.4 mm, pound 0.45359237 kg, g 9.80665 m/s2.
TEST_CASE("torque conversions are exact") {
    CHECK(to_newton_metre(1, U::foot_pound) == Approx(1.3558179483314004).epsilon(1e-15));
    CHECK(to_newton_metre(1, U::inch_pound) == Approx(0.1129848290276167).epsilon(1e-15));
    CHECK(to_newton_metre(12, U::inch_pound) == Approx(to_newton_metre(1, U::foot_pound)).epsilon(1e-15));
    CHECK(to_newton_metre(65, U::inch_pound) == Approx(7.3).margin(0.05));
    CHECK(to_newton_metre(89, U::inch_pound) == Approx(10.1).margin(0.05));
    CHECK(to_newton_metre(106, U::inch_pound) == Approx(12.0).margin(0.05));
    CHECK(to_newton_metre(7.5, U::newton_metre) == 7.5);
}

TEST_CASE("torque units are read from their labels; a bare pound or anything odd is not guessed") {
    for (const char* s : {"in·lb", "in-lb", "IN LB", "lbf.in", "in lbs", "inch-pounds"})
        CHECK(torque_unit(s) == U::inch_pound);
    for (const char* s : {"ft·lb", "ft-lb", "lbf·ft", "lb ft", "foot-pounds"}) CHECK(torque_unit(s) == U::foot_pound);
    for (const char* s : {"N·m", "Nm", "N m", "N.m"}) CHECK(torque_unit(s) == U::newton_metre);
    for (const char* s : {"lb", "lbs", "pounds", "", "N/m", "kgf·m", "mm", "in", "N·m2"}) {
        INFO(s);
        CHECK_FALSE(torque_unit(s));
    }
}

TEST_CASE("65 in·lb on M6 is sensible; 65 ft·lb is twelve times that and asks for in·lb") {
    CHECK(torque_sense(65, U::inch_pound, {6, 1}).sensible);
    const TorqueSense wrong = torque_sense(65, U::foot_pound, {6, 1});
    CHECK_FALSE(wrong.sensible);
    CHECK(wrong.as_labelled_nm == Approx(88.1).margin(0.05));
    CHECK(std::find(wrong.perhaps.begin(), wrong.perhaps.end(), U::inch_pound) != wrong.perhaps.end());
    CHECK(wrong.say.find("was it in·lb?") != std::string::npos);
}

TEST_CASE("a 9 ft·lb pan bolt written down as 9 in·lb is found too") {
    const TorqueSense wrong = torque_sense(9, U::inch_pound, {6, 1});
    CHECK_FALSE(wrong.sensible);
    CHECK(std::find(wrong.perhaps.begin(), wrong.perhaps.end(), U::foot_pound) != wrong.perhaps.end());
}

TEST_CASE("106 in·lb taken for 106 N·m on M6 is found too, and nothing is converted silently") {
    const TorqueSense wrong = torque_sense(106, U::newton_metre, {6, 1});
    CHECK_FALSE(wrong.sensible);
    CHECK(wrong.as_labelled_nm == 106.0);
    REQUIRE(wrong.perhaps.size() == 1);
    CHECK(wrong.perhaps[0] == U::inch_pound);
}

TEST_CASE("27 N·m + 60° + 30° is three stages, and is not 27 N·m + 90°") {
    const auto staged = stages_from_text("27 N·m + 60° + 30°");
    REQUIRE(staged);
    REQUIRE(staged->size() == 3);
    CHECK((*staged)[0].value == 27.0);
    CHECK((*staged)[1].kind == Stage::Kind::angle_deg);
    CHECK(text(*staged) == "27 N·m + 60° + 30°");
    CHECK_FALSE(same_stages(*staged, *stages_from_text("27 N·m + 90°")));
    CHECK_FALSE(same_stages(*staged, *stages_from_text("27 N·m + 30° + 60°")));
    CHECK(same_stages(*staged, *stages_from_text("27 Nm+60 deg + 30 degrees")));
}

TEST_CASE("stages convert labelled US torque, and an unlabelled number is not read") {
    CHECK((*stages_from_text("20 ft-lb + 90°"))[0].value == Approx(27.116359));
    for (const char* s : {"27", "27 + 60°", "27 lb + 60°", "", "60°+", "N·m", "+", "27 N·m 60°"}) {
        INFO(s);
        CHECK_FALSE(stages_from_text(s));
    }
    CHECK_THROWS_WITH(stages_from_text("27 Nm + 900°"), "tightening angle: got 900 deg: valid range is 0 to 720 deg");
}

TEST_CASE("torque and angle on a loosened bolt means a new bolt, unless the data say reuse") {
    const auto staged = stages_from_text("27 N·m + 60° + 30°");
    CHECK(examine_bolt(staged, true, std::nullopt).advice == BoltAdvice::new_bolt);
    CHECK(examine_bolt(staged, true, true).advice == BoltAdvice::may_go_back);
    CHECK(examine_bolt(staged, true, false).advice == BoltAdvice::new_bolt);
    CHECK(examine_bolt(staged, false, std::nullopt).advice == BoltAdvice::may_go_back);
}

TEST_CASE("torque only asks for a look; unknown tightening never frees a loosened bolt") {
    CHECK(examine_bolt(stages_from_text("10 N·m"), true, std::nullopt).advice == BoltAdvice::look_first);
    CHECK(examine_bolt(std::nullopt, true, std::nullopt).advice == BoltAdvice::look_first);
    CHECK(examine_bolt(std::vector<Stage>{}, true, std::nullopt).advice == BoltAdvice::look_first);
    CHECK(examine_bolt(stages_from_text("10 N·m"), true, false).advice == BoltAdvice::new_bolt);
}

TEST_CASE("fastener inputs out of physical range are refused") {
    CHECK_THROWS_WITH(torque_nm(2.0, 34, 12), "nut factor K: got 2: valid range is 0.05 to 0.6");
    CHECK_THROWS_AS(torque_nm(0.2, -1, 12), std::domain_error);
    CHECK_THROWS_AS(torque_nm(0.2, 34, 0), std::domain_error);
    CHECK_THROWS_AS(preload_kn(0.2, -1, 12), std::domain_error);
    CHECK_THROWS_WITH(to_newton_metre(-1, U::newton_metre), "torque: got -1 N m: valid range is 0 to 5000 N m");
    CHECK_THROWS_AS(stress_area_mm2({12, 7}), std::domain_error);
}

TEST_CASE("torque and preload undo each other, units too, and each rises with its inputs") {
    std::mt19937 random(111);
    std::uniform_real_distribution<double> k(0.1, 0.4), f(0.1, 100), d(3, 24), step(0.001, 0.1);
    for (int i = 0; i < 5000; ++i) {
        const double kk = k(random), ff = f(random), dd = d(random), more = step(random);
        const double t = torque_nm(kk, ff, dd);
        REQUIRE(preload_kn(kk, t, dd) == Approx(ff).epsilon(1e-12));
        REQUIRE(torque_nm(kk + more, ff, dd) > t);
        REQUIRE(torque_nm(kk, ff + more, dd) > t);
        REQUIRE(preload_kn(kk + more, t, dd) < ff);
        for (const U u : {U::newton_metre, U::inch_pound, U::foot_pound})
            REQUIRE(to_newton_metre(from_newton_metre(t, u), u) == Approx(t).epsilon(1e-12));
    }
}

TEST_CASE("for every usual thread the two pound units are told apart at the edges of the sensible range") {
    for (const Thread thread : {Thread{5, 0.8}, Thread{6, 1}, Thread{8, 1.25}, Thread{10, 1.5}, Thread{12, 1.75}}) {
        const Range band = torque_sense(1, U::newton_metre, thread).sensible_nm;
        const double high = from_newton_metre(band.high, U::inch_pound) * 0.999;
        CHECK(torque_sense(high, U::inch_pound, thread).sensible);
        CHECK_FALSE(torque_sense(high, U::foot_pound, thread).sensible);
        const double low = from_newton_metre(band.low, U::foot_pound) * 1.001;
        CHECK(torque_sense(low, U::foot_pound, thread).sensible);
        CHECK_FALSE(torque_sense(low, U::inch_pound, thread).sensible);
    }
}
