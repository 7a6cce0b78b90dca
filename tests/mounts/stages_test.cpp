// Torque units and torque-angle stages.
#include <catch2/catch.hpp>

#include <random>

#include "plugins/mounts/science/stages.h"

using namespace casebound::mounts;

static double nm(const char* text) { return read_stages(text)->front().amount; }

TEST_CASE("65, 89 and 106 inch-pounds are 7.3, 10.1 and 12.0 N·m") {
    CHECK(nm("65 lbf in") == Approx(7.3).margin(0.05));
    CHECK(nm("89 lbf in") == Approx(10.1).margin(0.05));
    CHECK(nm("106 lbf in") == Approx(12.0).margin(0.05));
}

TEST_CASE("the torque factors are exact to the definitions") {
    // lb 0.45359237 kg, g 9.80665 m/s2, inch 25.4 mm: all exact by definition.
    const double lbf_n = 0.45359237 * 9.80665;
    CHECK(nm_per_lbf_in == Approx(lbf_n * 0.0254).epsilon(1e-15));
    CHECK(nm_per_lbf_ft == Approx(lbf_n * 0.3048).epsilon(1e-15));
    // NIST SP 811 prints 1.355818 for foot-pound-force.
    CHECK(nm("1 lbf ft") == Approx(1.355818).margin(5e-7));
}

TEST_CASE("inch-pounds taken for foot-pounds are wrong by twelve") {
    CHECK(nm("89 lbf ft") / nm("89 lbf in") == Approx(12));
}

TEST_CASE("27 N·m + 60° + 30° stays three stages and is not 27 N·m + 90°") {
    const auto stages = read_stages("27 N·m + 60° + 30°");
    REQUIRE(stages);
    CHECK(*stages == std::vector<Stage>{torque_stage(27), angle_stage(60), angle_stage(30)});
    CHECK_FALSE(*stages == *read_stages("27 N·m + 90°"));
    CHECK(stages_text(*stages) == "27 N·m + 60° + 30°");
}

TEST_CASE("labelled US torques are read into N·m") {
    const auto stages = read_stages("106 in.lb+90deg");
    REQUIRE(stages);
    CHECK(stages->front().amount == Approx(11.976).margin(0.001));
    CHECK(stages->back() == angle_stage(90));
    CHECK(read_stages("20 lbf.ft")->front().amount == Approx(27.116).margin(0.001));
}

TEST_CASE("a number without a unit, an angle first, or rubbish is not a list of stages") {
    for (const char* text :
         {"", "27", "27 + 60", "60°", "60° + 27 N·m", "N·m", "27 lb", "27 N·m +", "+ 27 N·m", "27 N·m 60°"}) {
        INFO(text);
        CHECK_FALSE(read_stages(text));
    }
}

TEST_CASE("torque plus angle asks for new bolts, plain torque does not") {
    CHECK(wants_new_bolts(*read_stages("27 N·m + 60° + 30°")));
    CHECK_FALSE(wants_new_bolts(*read_stages("27 N·m + 45 N·m")));
}

TEST_CASE("generated stages survive being written and read") {
    std::mt19937 random(27);
    std::uniform_int_distribution<int> tenths(1, 20000);
    std::uniform_int_distribution<int> degrees(1, 720);
    for (int i = 0; i < 500; ++i) {
        const std::vector<Stage> stages{torque_stage(tenths(random) / 10.0), angle_stage(degrees(random)),
                                        angle_stage(degrees(random))};
        CHECK(read_stages(stages_text(stages)) == stages);
    }
}

TEST_CASE("a torque or angle no bolt takes is refused") {
    CHECK_THROWS_WITH(torque_stage(5000), "torque_nm: got 5000: valid range is 0.1 to 2000");
    CHECK_THROWS_AS(read_stages("27 N·m + 900°"), std::domain_error);
    CHECK_THROWS_AS(read_stages("-27 N·m"), std::domain_error);
    CHECK_THROWS_AS(read_stages("-1 lbf in"), std::domain_error);
}
