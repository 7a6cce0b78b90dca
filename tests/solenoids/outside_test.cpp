// The solenoid formulas against the program bc, on generated inputs.
#include <catch2/catch.hpp>

#include <random>

#include "core/reason/reasoner.h"
#include "plugins/solenoids/science/alternatives.h"
#include "plugins/solenoids/science/ratio.h"
#include "plugins/solenoids/science/resistance.h"
#include "plugins/solenoids/science/temp_sensor.h"
#include "tests/bc_calculator.h"

using namespace casebound::solenoids;
using casebound::tests::plain;
using casebound::tests::run_bc;

namespace {

struct Checks {
    std::vector<std::string> expressions;
    std::vector<double> ours;

    void add(std::string expression, double value) {
        expressions.push_back(std::move(expression));
        ours.push_back(value);
    }

    void run() const {
        const auto theirs = run_bc(expressions);
        REQUIRE(theirs.size() == ours.size());
        for (std::size_t i = 0; i < ours.size(); ++i) {
            INFO(expressions[i]);
            CHECK(ours[i] == Approx(theirs[i]).epsilon(1e-9).margin(1e-12));
        }
    }
};

}  // namespace

TEST_CASE("temperature correction of copper agrees with bc") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> ohm(1, 60);
    std::uniform_real_distribution<double> temp(-40, 150);
    Checks checks;
    for (int i = 0; i < 200; ++i) {
        const double r = ohm(random);
        const double t = temp(random);
        const double u = temp(random);
        checks.add(plain(r) + "/(1+0.00393*(" + plain(t) + "-20))", ohm_at_20(r, t));
        checks.add(plain(r) + "*(1+0.00393*(" + plain(t) + "-20))", ohm_at(r, t));
        checks.add(plain(r) + "*(234.5+" + plain(u) + ")/(234.5+" + plain(t) + ")", ohm_by_ratio(r, t, u));
        const double warm = ohm_by_ratio(r, t, u);
        checks.add(plain(warm) + "/" + plain(r) + "*(234.5+" + plain(t) + ")-234.5", coil_temp_c(r, t, warm));
        checks.add("0.00393/(1+0.00393*(" + plain(t) + "-20))", copper_alpha_at(t));
    }
    checks.run();
}

TEST_CASE("current, bad joint and ratio agree with bc") {
    std::mt19937 random(12);
    std::uniform_real_distribution<double> any(1, 30);
    Checks checks;
    for (int i = 0; i < 200; ++i) {
        const double v = any(random);
        const double coil = any(random);
        const double joint = any(random);
        checks.add(plain(v) + "/" + plain(coil), current_a(v, coil));
        checks.add(plain(v) + "*" + plain(joint) + "/(" + plain(coil) + "+" + plain(joint) + ")",
                   bad_joint(v, coil, joint).drop_v);
        const RoadReading road{100 * any(random), 2.0 + any(random) / 20, 4 * any(random), 2.0 + any(random) / 10};
        checks.add(plain(road.engine_rpm) + "*60*" + plain(road.tyre_rolling_m) + "/(1000*" + plain(road.speed_km_h) +
                       "*" + plain(road.final_drive) + ")",
                   ratio_from_road(road));
        checks.add(plain(coil) + "/58/" + plain(joint), copper_wire_ohm(coil, joint));
    }
    checks.run();
}

TEST_CASE("shares by the engine agree with bc") {
    std::mt19937 random(13);
    std::uniform_real_distribution<double> share(0.01, 1);
    Checks checks;
    for (int i = 0; i < 100; ++i) {
        std::vector<Hypothesis> hypotheses;
        ProbableTest test{{}, {"yes", "no"}, {}};
        test.attribute.name = "t";
        std::string sum = "0";
        for (int cause = 0; cause < 7; ++cause) {
            hypotheses.push_back({std::string(1, static_cast<char>('a' + cause)), share(random)});
            const double likelihood = share(random);
            test.chance.push_back({likelihood, 1 - likelihood});
            sum += "+" + plain(hypotheses.back().weight) + "*" + plain(likelihood);
        }
        const std::vector<SeenTest> seen{{test, 0}};
        const auto ranking = casebound::Engine().rank(expand(hypotheses, seen, {}), findings(seen));
        REQUIRE(ranking.places.size() == 7);
        for (const auto& place : ranking.places) {
            const auto at = static_cast<std::size_t>(place.label[0] - 'a');
            checks.add(plain(hypotheses[at].weight) + "*" + plain(test.chance[at][0]) + "/(" + sum + ")", place.share);
        }
    }
    checks.run();
}

TEST_CASE("sensor resistance between two points agrees with bc") {
    std::mt19937 random(14);
    std::uniform_real_distribution<double> temp(10, 110);
    Checks checks;
    for (int i = 0; i < 100; ++i) {
        const double t = temp(random);
        const std::string share = "((1/(" + plain(t) + "+273.15)-1/283.15)/(1/383.15-1/283.15))";
        checks.add("5600*e(" + share + "*l(220/5600))", sensor_ohm({{10, 5600, 7300}, {110, 220, 270}}, t)->low);
    }
    checks.run();
}

TEST_CASE("a wrong coefficient would be noticed") {
    const auto school = run_bc({"12*(1+0.0043*(90-20))"});
    CHECK(ohm_at(12, 90) != Approx(school.front()).epsilon(1e-9));
}
