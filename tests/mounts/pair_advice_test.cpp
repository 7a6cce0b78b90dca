// One broken mount: the others, and what pays while the work is open.
#include <catch2/catch.hpp>

#include <random>

#include "plugins/mounts/science/pair_advice.h"

using namespace casebound::mounts;

namespace {

// A connector sleeve: 11 now and 5 minutes, later 2.5 h and 60 of fluid, hour 30.
ExtraItem sleeve() { return {11.0, labour_cost(5.0 / 60.0, 30.0), labour_cost(2.5, 30.0), 60.0, 0.0}; }

PairAdvice advice_for(const OtherMount& other, Position broken = Position::left) {
    return pair_advice(broken, {other}).front();
}

}  // namespace

TEST_CASE("a connector sleeve pays from a chance of 9.2 %") {
    // (11 + 2.5) / (11 + 75 + 60 + 0) = 13.5 / 146, recomputed.
    CHECK(break_even_chance(sleeve()) == Approx(13.5 / 146.0));
    CHECK(break_even_chance(sleeve()) == Approx(0.092).margin(0.0005));
}

TEST_CASE("a break-even above one means never while the job is open") {
    CHECK(break_even_chance({100, 80, 10, 0, 0}) > 1.0);
}

TEST_CASE("on generated costs a dearer later job lowers the break-even") {
    std::mt19937 random(417);
    std::uniform_real_distribution<double> money(1, 300);
    for (int i = 0; i < 1000; ++i) {
        ExtraItem item{money(random), money(random), money(random), money(random), money(random)};
        const double before = break_even_chance(item);
        item.comeback_cost += money(random);
        CHECK(break_even_chance(item) < before);
        item.labour_now += 1000;
        CHECK(break_even_chance(item) > before);
    }
}

TEST_CASE("every other mount is at least inspected, because one broken overstresses them") {
    const auto advice = advice_for({Position::transmission});
    CHECK(advice.action == PairAction::inspect);
    CHECK(advice.reason == "one broken mount overstresses the others");
}

TEST_CASE("the maker's pair rule wins over age and money") {
    OtherMount other{Position::right};
    other.same_age = true;
    other.chance = 1.0;
    other.cost = sleeve();
    other.pair_rule = PairRule::no;
    CHECK(advice_for(other).action == PairAction::inspect);
    other.pair_rule = PairRule::required;
    CHECK(advice_for(other).action == PairAction::replace);
    other.pair_rule = PairRule::recommended;
    CHECK(advice_for(other).action == PairAction::consider);
}

TEST_CASE("the opposite mount of the same age is considered, another position is not") {
    OtherMount other{Position::right};
    other.same_age = true;
    CHECK(advice_for(other).action == PairAction::consider);
    other.position = Position::transmission;
    CHECK(advice_for(other).action == PairAction::inspect);
    other.position = Position::right;
    other.same_age = std::nullopt;
    CHECK(advice_for(other).action == PairAction::inspect);
}

TEST_CASE("shared labour makes a second mount worth considering") {
    OtherMount other{Position::transmission};
    other.chance = 0.3;
    other.cost = sleeve();
    CHECK(advice_for(other).action == PairAction::consider);
    other.chance = 0.05;
    CHECK(advice_for(other).action == PairAction::inspect);
}

TEST_CASE("left is opposite right, front is opposite rear, nothing else is") {
    CHECK(is_opposite(Position::right, Position::left));
    CHECK(is_opposite(Position::front, Position::rear));
    CHECK_FALSE(is_opposite(Position::left, Position::left));
    CHECK_FALSE(is_opposite(Position::left, Position::rear));
    CHECK_FALSE(is_opposite(Position::transmission, Position::torque));
}

TEST_CASE("negative money, an impossible chance and a free later job are refused") {
    CHECK_THROWS_WITH(break_even_chance({-1, 0, 10, 0, 0}), "price: got -1: valid range is 0 to 1000000");
    CHECK_THROWS_AS(break_even_chance({0, 5, 0, 0, 0}), std::domain_error);
    CHECK_THROWS_AS(labour_cost(-1, 30), std::domain_error);
}
