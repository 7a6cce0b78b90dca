// Coil resistance against temperature, and the current that follows.
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>

#include "plugins/solenoids/science/resistance.h"
#include "plugins/solenoids/science/temp_sensor.h"

using namespace casebound::solenoids;

namespace {
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr OhmLimits on_off{11.0, 16.0};  // examples from workshop manuals
constexpr OhmLimits linear{5.0, 5.6};
constexpr OhmLimits second_on_off{20.0, 40.0};
constexpr OhmLimits pulsed{2.7, 3.4};

// One family, from a maker's workshop manual.
const std::vector<SensorPoint> sensor{{10, 5600, 7300}, {25, 3500, 3500}, {110, 220, 270}};

void check_limits(OhmLimits at_20, double temp_c, double low, double high) {
    const auto limits = limits_at(at_20, temp_c);
    CHECK(limits.low == Approx(low).margin(0.0501));
    CHECK(limits.high == Approx(high).margin(0.0501));
}
}  // namespace

TEST_CASE("copper at 90 C has 1.275 times its resistance at 20 C") {
    // IEC 60028 (1925): 0.00393 per C at 20 C.
    CHECK(copper_factor(90) == Approx(1.275).margin(0.0005));
    CHECK(copper_factor(20) == 1.0);
    // Recomputed 1.27505 with the ratio form.
    CHECK(ohm_by_ratio(1.0, 20, 90) == Approx(1.27505).margin(5e-6));
}

TEST_CASE("the linear form and the ratio form on four coils") {
    // Recomputed with 234.5 (from memory) and with 0.00393 at 20 C.
    CHECK(ohm_by_ratio(12.0, 20, 90) == Approx(15.3006).margin(5e-5));
    CHECK(ohm_at(12.0, 90) == Approx(15.3012).margin(5e-5));
    CHECK(ohm_by_ratio(25.0, 20, 100) == Approx(32.8585).margin(5e-5));
    CHECK(ohm_at(25.0, 100) == Approx(32.8600).margin(5e-5));
    CHECK(ohm_by_ratio(5.3, 20, 100) == Approx(6.9660).margin(5e-5));
    CHECK(ohm_at(5.3, 100) == Approx(6.9663).margin(5e-5));
    CHECK(ohm_by_ratio(5.3, 20, -20) == Approx(4.4670).margin(5e-5));
    CHECK(ohm_at(5.3, -20) == Approx(4.4668).margin(5e-5));
}

TEST_CASE("a coil's temperature follows from the rise of its resistance") {
    CHECK(coil_temp_c(11.6, 20, 14.9) == Approx(92.40).margin(0.005));
    // A school value of 0.0043 gives 57; the ratio form gives 60.72.
    CHECK(coil_temp_c(50, 20, 58) == Approx(60.72).margin(0.005));
}

TEST_CASE("the two copper constants agree to a twentieth of a degree") {
    CHECK(1.0 / copper_alpha_20 - 20.0 == Approx(234.453).margin(0.0005));
    CHECK(copper_alpha_at(20) == copper_alpha_20);
    // alphaRef = alpha20 / (1 + alpha20 (TRef - 20)); at 0 C 1/234.453.
    CHECK(copper_alpha_at(0) == Approx(1.0 / 234.453).margin(1e-8));
}

TEST_CASE("a metre of annealed copper of 1 mm2 has 1/58 ohm") {
    // IEC 60028 (1925): 0.017241 ohm mm2/m.
    CHECK(copper_wire_ohm(1, 1) == Approx(0.017241).margin(5e-7));
    CHECK(copper_wire_ohm(4, 0.5) == Approx(8.0 / 58.0));
}

TEST_CASE("limits at 0, 40, 80 and 110 C for four specifications") {
    // Derived; printed to one decimal.
    check_limits(on_off, 0, 10.1, 14.7);
    check_limits(on_off, 40, 11.9, 17.3);
    check_limits(on_off, 80, 13.6, 19.8);
    check_limits(on_off, 110, 14.9, 21.7);
    check_limits(linear, 0, 4.6, 5.2);
    check_limits(linear, 40, 5.4, 6.0);
    check_limits(linear, 80, 6.2, 6.9);
    check_limits(linear, 110, 6.8, 7.6);
    check_limits(second_on_off, 0, 18.4, 36.9);
    check_limits(second_on_off, 40, 21.6, 43.1);
    check_limits(second_on_off, 80, 24.7, 49.4);
    check_limits(second_on_off, 110, 27.1, 54.1);
    check_limits(pulsed, 0, 2.5, 3.1);
    check_limits(pulsed, 40, 2.9, 3.7);
    check_limits(pulsed, 80, 3.3, 4.2);
    check_limits(pulsed, 110, 3.7, 4.6);
}

TEST_CASE("18.4 ohm at 75 C is 15.1 at 20 and passes 11 to 16") {
    const auto answer = judge_coil({18.4, 75}, on_off);
    CHECK(answer.ohm_20 == Approx(15.1).margin(0.05));
    CHECK(answer.verdict == CoilVerdict::pass);
    CHECK(answer.indicative);
    CHECK(judge_coil({18.4, 20}, on_off).verdict == CoilVerdict::high);
}

TEST_CASE("17.1 ohm at 5 C is 18.2 at 20 and fails 11 to 16") {
    const auto answer = judge_coil({17.1, 5}, on_off);
    CHECK(answer.ohm_20 == Approx(18.2).margin(0.05));
    CHECK(answer.verdict == CoilVerdict::high);
    CHECK(answer.indicative);
}

TEST_CASE("within 5 % of a limit the reading is borderline, on either side of it") {
    for (double ohm : {10.46, 11.0, 11.54, 15.21, 16.0, 16.79})
        CHECK(judge_coil({ohm, 20}, on_off).verdict == CoilVerdict::borderline);
    for (double ohm : {11.56, 13.5, 15.19}) CHECK(judge_coil({ohm, 20}, on_off).verdict == CoilVerdict::pass);
    CHECK(judge_coil({10.44, 20}, on_off).verdict == CoilVerdict::low);
    CHECK(judge_coil({16.81, 20}, on_off).verdict == CoilVerdict::high);
}

TEST_CASE("a narrow specification can still be met in its middle") {
    const OhmLimits park_lock{35, 37};
    CHECK(judge_coil({36, 20}, park_lock).verdict == CoilVerdict::pass);
    CHECK(judge_coil({35.2, 20}, park_lock).verdict == CoilVerdict::borderline);
    CHECK(judge_coil({34, 20}, park_lock).verdict == CoilVerdict::borderline);
    CHECK(judge_coil({33, 20}, park_lock).verdict == CoilVerdict::low);
}

TEST_CASE("only a reading within 5 C of 20 is more than indicative") {
    CHECK_FALSE(judge_coil({13, 25}, on_off).indicative);
    CHECK(judge_coil({13, 25.1}, on_off).indicative);
    CHECK(judge_coil({13, 14}, on_off).indicative);
}

TEST_CASE("open and shorted coils are named as such") {
    CHECK(judge_coil({infinite, 20}, on_off).verdict == CoilVerdict::open);
    CHECK(judge_coil({5e4, 20}, on_off).verdict == CoilVerdict::open);
    CHECK(judge_coil({0.4, 20}, on_off).verdict == CoilVerdict::shorted);
    CHECK(judge_coil({0.4, 20, 0.4}, on_off).verdict == CoilVerdict::shorted);
}

TEST_CASE("lead resistance is subtracted before correcting") {
    const auto answer = judge_coil({5.9, 80, 0.4}, linear);
    CHECK(answer.ohm_20 == Approx(5.5 / 1.2358).epsilon(1e-6));
    CHECK(answer.limits_now.low == Approx(6.179).margin(0.0005));
}

TEST_CASE("current at 12.6 V falls as the coil warms") {
    CHECK(current_a(12.6, 13.5) == Approx(0.93).margin(0.005));
    CHECK(current_a(12.6, ohm_at(13.5, 80)) == Approx(0.76).margin(0.005));
    CHECK(current_a(12.6, 5.3) == Approx(2.38).margin(0.005));
    CHECK(current_a(12.6, ohm_at(5.3, 80)) == Approx(1.92).margin(0.005));
}

TEST_CASE("a bad joint of 4 ohm takes 2.9 V and reads 17.5 ohm with its coil") {
    const auto joint = bad_joint(12.6, 13.5, 4.0);
    CHECK(joint.drop_v == Approx(2.9).margin(0.05));
    CHECK(joint.current_a == Approx(0.72).margin(0.005));
    CHECK(joint.read_ohm == 17.5);
}

TEST_CASE("a coil is fed at the bench only within a recorded limit") {
    // One published type takes 0.75 A; a linear one of 5 ohm would see 2.5 A.
    CHECK(bench_feed(12.6, 20.0, 0.75) == BenchFeed::allowed);
    CHECK(bench_feed(12.6, 5.25, 0.75) == BenchFeed::refused);
    CHECK(bench_feed(12.6, 20.0, std::nullopt) == BenchFeed::not_recorded);
}

TEST_CASE("pin to case below 100 kohm is suspect on two wires, by design on one") {
    CHECK(case_leak(99e3, 2) == CaseLeak::suspect);
    CHECK(case_leak(100e3, 2) == CaseLeak::sound);
    CHECK(case_leak(infinite, 2) == CaseLeak::sound);
    CHECK(case_leak(13.0, 1) == CaseLeak::grounded_by_design);
}

TEST_CASE("another reading at the connector than at the solenoid means harness or plate") {
    CHECK(where_between(17.5, 13.5) == WhereBetween::internal_plate);
    CHECK(where_between(13.6, 13.5) == WhereBetween::coil);
    CHECK(where_between(14.0, 13.5) == WhereBetween::borderline);
    CHECK(where_between(infinite, 13.5) == WhereBetween::internal_plate);
    CHECK(where_between(infinite, infinite) == WhereBetween::coil);
}

TEST_CASE("on generated coils correction is monotone in temperature and inverts") {
    std::mt19937 random(43);
    std::uniform_real_distribution<double> ohm(1, 60);
    std::uniform_real_distribution<double> temp(-40, 150);
    for (int i = 0; i < 2000; ++i) {
        const double r = ohm(random);
        const double t = temp(random);
        CHECK(ohm_at_20(ohm_at(r, t), t) == Approx(r));
        CHECK(ohm_by_ratio(ohm_by_ratio(r, 20, t), t, 20) == Approx(r));
        CHECK(coil_temp_c(r, 20, ohm_by_ratio(r, 20, t)) == Approx(t).margin(1e-9));
        CHECK(ohm_at(r, t + 1) > ohm_at(r, t));
        CHECK(ohm_at_20(r, t + 1) < ohm_at_20(r, t));
        CHECK(ohm_at(r, t) == Approx(ohm_by_ratio(r, 20, t)).epsilon(5e-4));
    }
}

TEST_CASE("a generated reading passes exactly when it lies well within the limits of the day") {
    std::mt19937 random(44);
    std::uniform_real_distribution<double> ohm(5, 30);
    std::uniform_real_distribution<double> temp(-30, 130);
    for (int i = 0; i < 2000; ++i) {
        const double r = ohm(random);
        const double t = temp(random);
        const auto answer = judge_coil({r, t}, on_off);
        const bool well_within = r >= answer.limits_now.low * 1.05 && r <= answer.limits_now.high * 0.95;
        CHECK((answer.verdict == CoilVerdict::pass) == well_within);
    }
}

TEST_CASE("temperatures, leads and limits outside their range are refused") {
    CHECK_THROWS_WITH(copper_factor(900), "temp_c: got 900: valid range is -60 to 250");
    CHECK_THROWS_WITH(judge_coil({5, 20, 6}, on_off), "lead_ohm: got 6: valid range is 0 to 5");
    CHECK_THROWS_AS(judge_coil({-1, 20}, on_off), std::domain_error);
    CHECK_THROWS_AS(judge_coil({13, std::nan("")}, on_off), std::domain_error);
    CHECK_THROWS_AS(judge_coil({13, 20}, {16, 11}), std::domain_error);
    CHECK_THROWS_AS(coil_temp_c(10, 20, 40), std::domain_error);
    CHECK_THROWS_AS(current_a(12, 0), std::domain_error);
    CHECK_THROWS_AS(case_leak(1e6, 3), std::domain_error);
}

TEST_CASE("the gearbox's own sensor at 10, 25 and 110 C") {
    CHECK(sensor_ohm(sensor, 10)->low == Approx(5600));
    CHECK(sensor_ohm(sensor, 10)->high == Approx(7300));
    CHECK(sensor_ohm(sensor, 25)->low == Approx(3500));
    CHECK(sensor_ohm(sensor, 110)->high == Approx(270));
    CHECK(check_temperature(sensor, 3500, 25, 1) == SensorCheck::agrees);
    CHECK(check_temperature(sensor, 3500, 60, 5) == SensorCheck::disagrees);
}

TEST_CASE("nothing is extrapolated beyond the sensor's points") {
    CHECK_FALSE(sensor_ohm(sensor, 5));
    CHECK_FALSE(sensor_ohm(sensor, 111));
    CHECK_FALSE(sensor_temp_c(sensor, 8000));
    CHECK_FALSE(sensor_temp_c(sensor, 6000));  // beyond one edge of the band
    CHECK(check_temperature(sensor, 100, 110, 5) == SensorCheck::cannot_tell);
}

TEST_CASE("generated sensor readings give back their temperature") {
    std::mt19937 random(45);
    std::uniform_real_distribution<double> temp(25, 105);
    for (int i = 0; i < 500; ++i) {
        const double t = temp(random);
        const auto band = sensor_ohm(sensor, t);
        REQUIRE(band);
        CHECK(band->low <= band->high * (1 + 1e-12));
        CHECK(sensor_ohm(sensor, t + 1)->high < band->high);
        if (band->low >= 270) CHECK(sensor_temp_c(sensor, band->low)->low == Approx(t));
        if (band->high >= 270) CHECK(sensor_temp_c(sensor, band->high)->high == Approx(t));
    }
}

TEST_CASE("sensor points out of order are refused") {
    CHECK_THROWS_AS(sensor_ohm({{10, 5600, 7300}}, 10), std::domain_error);
    CHECK_THROWS_AS(sensor_ohm({{25, 3500, 3500}, {10, 5600, 7300}}, 20), std::domain_error);
    CHECK_THROWS_AS(sensor_ohm({{10, 3500, 3500}, {25, 5600, 7300}}, 20), std::domain_error);
    CHECK_THROWS_AS(sensor_ohm({{10, 5600, 5500}, {25, 3500, 3500}}, 20), std::domain_error);
}
