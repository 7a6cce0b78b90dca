// One actuator against another, where its feedback stands, what its motor draws, and what trouble points at.
#include <catch2/catch.hpp>

#include <random>
#include <stdexcept>

#include "plugins/actuators/science/actuator.h"
#include "plugins/actuators/science/feedback.h"
#include "plugins/actuators/science/motor.h"
#include "plugins/actuators/science/supply.h"
#include "plugins/actuators/science/trouble.h"

using namespace casebound::actuators;

namespace {

Actuator left() { return {{Function::temperature, Side::left}, 7, 90, "d_shaft", "A", "dc", "potentiometer", "left"}; }
template <class Change> std::optional<Weight> weight_with(Change change) {
    auto actuator = left();
    change(actuator);
    return heaviest(differences(left(), actuator));
}

}  // namespace

TEST_CASE("two actuators that are alike have no difference, and either is left and right, never rear") {
    CHECK_FALSE(weight_with([](Actuator&) {}));
    CHECK_FALSE(weight_with([](Actuator& one) { one.place.side = Side::either; }));
    CHECK_FALSE(weight_with([](Actuator& one) { one.travel_deg = 94.9; }));
    auto rear = left();
    rear.place.side = Side::rear;
    auto either = left();
    either.place.side = Side::either;
    CHECK(heaviest(differences(rear, either)) == Weight::no);
}

TEST_CASE("function, side, cavities, shaft, coding, drive, feedback and the way it turns each refuse") {
    CHECK(weight_with([](Actuator& one) { one.place.function = Function::recirculation; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.place.side = Side::right; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.cavities = 5; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.shaft = "spline"; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.plug_code = "B"; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.drive = "stepper"; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.feedback = "pulses"; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.turns = "right"; }) == Weight::no);
}

TEST_CASE("a travel more than 5 degrees apart needs something, more than 15 is another actuator") {
    // Limits from memory.
    CHECK(weight_with([](Actuator& one) { one.travel_deg = 96; }) == Weight::needs_something);
    CHECK(weight_with([](Actuator& one) { one.travel_deg = 105; }) == Weight::needs_something);
    CHECK(weight_with([](Actuator& one) { one.travel_deg = 106; }) == Weight::no);
    CHECK(weight_with([](Actuator& one) { one.travel_deg = 74; }) == Weight::no);
}

TEST_CASE("what is not known of both is asked for, and never makes a difference lighter") {
    std::mt19937 random(7);
    for (int i = 0; i < 300; ++i) {
        auto offered = left();
        if (random() % 2) offered.travel_deg = 100;
        if (random() % 2) offered.cavities = 5;
        const auto before = heaviest(differences(left(), offered));
        auto blanked = offered;
        std::string Actuator::*const words[]{&Actuator::shaft, &Actuator::plug_code, &Actuator::drive,
                                             &Actuator::feedback};
        (blanked.*words[random() % 4]).clear();
        const auto after = heaviest(differences(left(), blanked));
        REQUIRE(after);
        if (before == Weight::no) CHECK(after == Weight::no);
    }
}

TEST_CASE("the way it turns is asked of a brushed motor only") {
    auto stepper = left();
    stepper.drive = "stepper";
    stepper.turns.clear();
    CHECK(differences(stepper, stepper).empty());
}

TEST_CASE("a share of the reference is independent of the volts, and two stops make a position of it") {
    CHECK(share_pct(1.25, 5) == Approx(25));
    CHECK(share_pct(2.5, 10) == Approx(25));
    CHECK(position_pct(25, 10, 90) == Approx(18.75));
    CHECK(position_pct(25, 90, 10) == Approx(81.25));
    CHECK(position_pct(95, 10, 90) > 100);
    CHECK_THROWS_AS(share_pct(5.2, 5), std::domain_error);
    CHECK_THROWS_AS(share_pct(1, 0.5), std::domain_error);
    CHECK_THROWS_AS(position_pct(25, 40, 43), std::domain_error);
}

TEST_CASE("a position is linear between its stops, whichever way round they are") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> between(0, 100);
    for (int i = 0; i < 500; ++i) {
        const double first = between(random), last = between(random), share = between(random);
        if (std::abs(first - last) < 5) continue;
        CHECK(position_pct(share, first, last) == Approx(100 - position_pct(share, last, first)).margin(1e-9));
        CHECK(turned_deg(first, last, first, last, 110) == Approx(110));
    }
}

TEST_CASE("where it stands against the command, at a dead end of the track, and beyond a stop") {
    CHECK(stand_of(50, 50, 52.) == Stand::where_commanded);
    CHECK(stand_of(50, 50, std::nullopt) == Stand::where_commanded);
    CHECK(stand_of(50, 50, 80.) == Stand::short_of_it);
    CHECK(stand_of(50, 50, 20.) == Stand::past_it);
    CHECK(stand_of(95, 106, 100.) == Stand::beyond_a_stop);
    CHECK(stand_of(1, -10, 0.) == Stand::no_signal);
    CHECK(stand_of(99, 110, 100.) == Stand::no_signal);
}

TEST_CASE("at rest the winding alone limits the current, and turning it generates against the supply") {
    // A public text on stall current: 28 V across 15 ohm, 1.87 A.
    CHECK(stall_a(28, 15) == Approx(1.87).margin(0.005));
    // A physics textbook's motor of a toy car: 6.00 V, 4.50 V generated at 3.00 A, so 0.5 ohm, and 12.0 A at the start.
    CHECK(back_emf_v(6, 3, 0.5) == Approx(4.5));
    CHECK(stall_a(6, 0.5) == Approx(12));
    CHECK(draws(6, 3, 0.5) == Draws::turning);
    CHECK(draws(12, 0, 40) == Draws::nothing);
    CHECK(draws(12, 0.29, 40) == Draws::held);
    CHECK(draws(12, 0.45, 40) == Draws::too_much);
    CHECK_THROWS_AS(stall_a(12, 0.2), std::domain_error);
    CHECK_THROWS_AS(draws(12, 25, 40), std::domain_error);
}

TEST_CASE("steps are counted through the reduction") {
    // 1.8 degrees a step is 200 steps a turn: any stepper text.
    CHECK(steps_for(360, 1.8, 1) == Approx(200));
    CHECK(steps_for(90, 7.5, 300) == Approx(3600));
    CHECK(seconds_for(3600, 200) == Approx(18));
    CHECK_THROWS_AS(steps_for(0, 7.5, 300), std::domain_error);
    CHECK_THROWS_AS(seconds_for(10, 0), std::domain_error);
}

TEST_CASE("the door decides before the motor, and a motor is dead only when it is supplied") {
    CHECK(suspect_of({}) == Suspect::try_the_door);
    CHECK(suspect_of({Door::stuck, Bench::still}) == Suspect::door_stuck);
    CHECK(suspect_of({Door::stiff, Bench::slips}) == Suspect::door_stuck);
    CHECK(suspect_of({Door::hangs_loose}) == Suspect::door_broken);
    CHECK(suspect_of({Door::moves_freely, Bench::slips}) == Suspect::stripped_gear);
    CHECK(suspect_of({Door::moves_freely, Bench::still}) == Suspect::dead_motor);
    CHECK(suspect_of({Door::moves_freely, Bench::turns}) == Suspect::feedback_next);
    CHECK(suspect_of({Door::not_tried, Bench::still}) == Suspect::try_the_door);
    Seen seen{Door::moves_freely};
    CHECK(suspect_of(seen) == Suspect::bench_it);
    seen.winding_open = true;
    CHECK(suspect_of(seen) == Suspect::bench_it);
    seen.supplied = true;
    CHECK(suspect_of(seen) == Suspect::motor_by_meter);
    CHECK_FALSE(speaks_for_the_actuator(suspect_of(seen)));
    seen.supplied = false;
    CHECK(suspect_of(seen) == Suspect::wiring);
    seen.after_battery = true;
    CHECK(suspect_of(seen) == Suspect::teach_first);
    Seen turning{Door::moves_freely, Bench::turns};
    turning.feedback_follows = false;
    CHECK(suspect_of(turning) == Suspect::feedback_lost);
    turning.feedback_follows = true;
    CHECK(suspect_of(turning) == Suspect::not_the_actuator);
}

TEST_CASE("no sound, and nothing but a door found free with a motor seen to fail, speaks for an order") {
    for (const auto door : {Door::not_tried, Door::moves_freely, Door::stiff, Door::stuck, Door::hangs_loose})
        for (const auto bench : {Bench::not_tried, Bench::turns, Bench::slips, Bench::still})
            for (const auto sound : {Sound::not_said, Sound::silent, Sound::clicks, Sound::hums, Sound::moves}) {
                const auto suspect = suspect_of({door, bench, sound});
                const bool seen_to_fail = bench == Bench::slips || bench == Bench::still;
                CHECK(speaks_for_the_actuator(suspect) == (door == Door::moves_freely && seen_to_fail));
            }
}

TEST_CASE("volts are lost there and back, and copper is 1/58 ohm mm2 a metre") {
    // IEC 60028: 0.017241 ohm mm2 a metre at 20 degC.
    CHECK(copper_mohm_per_m(1) == Approx(17.241).margin(0.001));
    CHECK(copper_mohm_per_m(2.5) == Approx(6.897).margin(0.001));
    CHECK(lost_v(10, 5, 12.7) == Approx(1.27));
    CHECK_THROWS_AS(lost_v(10, 0, 12.7), std::domain_error);
    CHECK_THROWS_AS(copper_mohm_per_m(0.01), std::domain_error);
}

TEST_CASE("between two points by the straight line, or by equal ratios; never outside the curve") {
    const std::vector<Point> rest{{12.65, 100}, {12.45, 75}, {12.24, 50}};
    CHECK(between(rest, 12.55, false) == Approx(87.5));
    CHECK(between(rest, 12.45, false) == Approx(75));
    CHECK(between(rest, 12.24, false) == Approx(50));
    CHECK_THROWS_AS(between(rest, 12.1, false), std::domain_error);
    const std::vector<Point> falling{{100, 40}, {400, 20}};
    CHECK(between(falling, 200, true) == Approx(30));  // half way by ratio
    CHECK_THROWS_AS(between({{1, 1}}, 1, false), std::domain_error);
}
