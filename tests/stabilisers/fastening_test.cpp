// Stress area, proof load and torque against published figures.
#include <catch2/catch.hpp>

#include <random>
#include <stdexcept>

#include "plugins/stabilisers/science/fastening.h"

using namespace casebound::stabilisers;

TEST_CASE("the stress area of each thread is the one that ISO 898-1 prints, to its last figure") {
    // ISO 898-1, nominal stress areas; M12 and M16 read in public copies, the others from memory.
    const struct {
        Thread thread;
        double printed_mm2, last_figure;
    } rows[]{{{6, 1}, 20.1, 0.1},     {{8, 1.25}, 36.6, 0.1}, {{8, 1}, 39.2, 0.1},     {{10, 1.5}, 58.0, 0.1},
             {{10, 1.25}, 61.2, 0.1}, {{10, 1}, 64.5, 0.1},   {{12, 1.75}, 84.3, 0.1}, {{12, 1.5}, 88.1, 0.1},
             {{12, 1.25}, 92.1, 0.1}, {{14, 2}, 115, 1},      {{14, 1.5}, 125, 1},     {{16, 2}, 157, 1},
             {{16, 1.5}, 167, 1}};
    for (const auto& row : rows) {
        INFO(row.thread.diameter_mm << " x " << row.thread.pitch_mm);
        CHECK(stress_area_of(row.thread) == Approx(row.printed_mm2).margin(row.last_figure / 2 + 1e-9));
    }
}

TEST_CASE("M12 of 8.8: proof load 48.9 kN, and 34.2 kN and 82 N m at 70 per cent with K 0.20") {
    // Public design texts: At 84.3 mm2, proof 580 MPa, 70 % -> F 34.2 kN, T 82 N m.
    const Thread m12{12, 1.75};
    CHECK(proof_load_of(m12, 580) / 1000 == Approx(48.9).margin(0.05));
    const auto torque = torque_for(m12, 580, 0.7, 0.20);
    CHECK(torque.preload_n / 1000 == Approx(34.2).margin(0.05));
    CHECK(torque.torque_nm == Approx(82.1).margin(0.1));
    // The same torque gives 45.6 kN at K 0.15 and 22.8 kN at 0.30.
    CHECK(share_reached(m12, 580, 82.142, 0.15) * proof_load_of(m12, 580) / 1000 == Approx(45.6).margin(0.05));
    CHECK(share_reached(m12, 580, 82.142, 0.30) * proof_load_of(m12, 580) / 1000 == Approx(22.8).margin(0.05));
}

TEST_CASE("a torque and the share that it reaches are each other's way back, for generated threads") {
    std::mt19937 random(1213);
    std::uniform_real_distribution<double> diameter(5, 24), part(0.06, 0.2), share(0.05, 0.9), factor(0.1, 0.4);
    for (int i = 0; i < 500; ++i) {
        const double d = diameter(random), wanted = share(random), k = factor(random);
        const Thread thread{d, d * part(random)};
        const auto torque = torque_for(thread, 830, wanted, k);
        CHECK(share_reached(thread, 830, torque.torque_nm, k) == Approx(wanted));
        CHECK(share_reached(thread, 830, torque.torque_nm, k * 1.1) < wanted);  // more friction, less pull
    }
}

TEST_CASE("what no metric bolt is, and more than nine tenths of the proof load, is refused") {
    CHECK_THROWS_WITH(stress_area_of({10, 3}), "pitch: got 3 mm: valid range is 0.5 to 2.5 mm");
    CHECK_THROWS_AS(stress_area_of({2, 0.4}), std::domain_error);
    CHECK_THROWS_AS(torque_for({10, 1.5}, 580, 0.95, 0.2), std::domain_error);
    CHECK_THROWS_AS(torque_for({10, 1.5}, 580, 0, 0.2), std::domain_error);
    CHECK_THROWS_AS(torque_for({10, 1.5}, 5800, 0.7, 0.2), std::domain_error);
    CHECK_THROWS_AS(torque_for({10, 1.5}, 580, 0.7, 2), std::domain_error);
}
