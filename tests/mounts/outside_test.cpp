// The mount formulas against the program bc, on generated inputs.
#include <catch2/catch.hpp>

#include <random>

#include "plugins/mounts/science/pair_advice.h"
#include "plugins/mounts/science/stages.h"
#include "plugins/mounts/science/vibration.h"
#include "tests/bc_calculator.h"

using namespace casebound::mounts;
using casebound::tests::plain;
using casebound::tests::run_bc;

namespace {

void compare_all(const std::vector<std::string>& expressions, const std::vector<double>& ours) {
    const auto theirs = run_bc(expressions);
    REQUIRE(theirs.size() == ours.size());
    for (std::size_t i = 0; i < ours.size(); ++i) {
        INFO(expressions[i]);
        CHECK(ours[i] == Approx(theirs[i]).epsilon(1e-9));
    }
}

std::string transmissibility_in_bc(double r, double z) {
    const std::string square = "(" + plain(r) + "^2)";
    const std::string damped = "((2*" + plain(z) + "*" + plain(r) + ")^2)";
    return "sqrt((1+" + damped + ")/((1-" + square + ")^2+" + damped + "))";
}

}  // namespace

TEST_CASE("transmissibility agrees with bc on generated ratios and dampings") {
    std::mt19937 random(1);
    std::uniform_real_distribution<double> ratio(0.01, 20);
    std::uniform_real_distribution<double> damping(0.01, 1.5);
    std::vector<std::string> expressions;
    std::vector<double> ours;
    for (int i = 0; i < 300; ++i) {
        const double r = ratio(random);
        const double z = damping(random);
        expressions.push_back(transmissibility_in_bc(r, z));
        ours.push_back(transmissibility(r, z));
    }
    compare_all(expressions, ours);
}

TEST_CASE("natural frequencies agree with bc") {
    std::mt19937 random(2);
    std::uniform_real_distribution<double> mass(20, 600);
    std::uniform_real_distribution<double> stiffness(20, 3000);
    std::uniform_real_distribution<double> deflection(0.5, 60);
    std::vector<std::string> expressions;
    std::vector<double> ours;
    for (int i = 0; i < 200; ++i) {
        const double m = mass(random);
        const double k = stiffness(random);
        const double d = deflection(random);
        expressions.push_back("sqrt(1000*" + plain(k) + "/" + plain(m) + ")/(8*a(1))");
        ours.push_back(natural_frequency_hz(m, k));
        expressions.push_back("sqrt(9806.65/" + plain(d) + ")/(8*a(1))");
        ours.push_back(natural_frequency_from_deflection_hz(d));
    }
    compare_all(expressions, ours);
}

TEST_CASE("forced response agrees with the equation of motion solved in bc") {
    // Steady state of m x'' + c x' + k x = F cos(w t): X = F / sqrt((k - m w^2)^2
    // + (c w)^2), written in m, c, k instead of ratios.
    std::mt19937 random(3);
    std::uniform_real_distribution<double> any(0.2, 1.8);
    std::vector<std::string> expressions;
    std::vector<double> ours;
    for (int i = 0; i < 200; ++i) {
        const ForcedCase f{100 * any(random), 50 * any(random), 0.3 * any(random), 400 * any(random), 15 * any(random)};
        const auto answer = forced_response(f);
        const std::string k = "(1000*" + plain(f.stiffness_n_mm) + ")";
        const std::string m = plain(f.mass_kg);
        const std::string w = plain(f.omega_rad_s);
        const std::string c = "(2*" + plain(f.damping_ratio) + "*sqrt(" + k + "*" + m + "))";
        const std::string x = "(" + plain(f.force_n) + "/sqrt((" + k + "-" + m + "*" + w + "^2)^2+(" + c + "*" + w +
                              ")^2))";
        expressions.push_back("1000*" + x);
        ours.push_back(answer.amplitude_mm);
        expressions.push_back(x + "*sqrt(" + k + "^2+(" + c + "*" + w + ")^2)");
        ours.push_back(answer.transmitted_n);
    }
    compare_all(expressions, ours);
}

TEST_CASE("break-even chance and torques agree with bc") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> money(1, 500);
    std::vector<std::string> expressions;
    std::vector<double> ours;
    for (int i = 0; i < 200; ++i) {
        const ExtraItem e{money(random), money(random), money(random), money(random), money(random)};
        expressions.push_back("(" + plain(e.price) + "+" + plain(e.labour_now) + ")/(" + plain(e.price) + "+" +
                              plain(e.labour_later) + "+" + plain(e.consumables_later) + "+" + plain(e.comeback_cost) +
                              ")");
        ours.push_back(break_even_chance(e));
        expressions.push_back(plain(e.price) + "*0.45359237*9.80665*0.0254");
        ours.push_back(read_stages(plain(e.price) + " lbf in")->front().amount);
    }
    compare_all(expressions, ours);
}

TEST_CASE("a wrong formula would be noticed") {
    const auto right = run_bc({transmissibility_in_bc(2.0, 0.1)});
    CHECK(transmissibility(2.0, 0.1001) != Approx(right.front()).epsilon(1e-9));
}
