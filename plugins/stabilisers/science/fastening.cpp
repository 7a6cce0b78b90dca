#include "science/fastening.h"

#include <numbers>

#include "core/contract/valid_range.h"

namespace casebound::stabilisers {
namespace {

double diameter_m(Thread thread) { return thread.diameter_mm / 1000; }

double friction(double nut_factor) { return in_range("nut factor", nut_factor, 0.05, 0.6); }

}  // namespace

double stress_area_of(Thread thread) {
    in_range("thread", thread.diameter_mm, 3, 39, "mm");
    in_range("pitch", thread.pitch_mm, 0.05 * thread.diameter_mm, 0.25 * thread.diameter_mm, "mm");
    const double stressed_mm = thread.diameter_mm - 0.9382 * thread.pitch_mm;
    return std::numbers::pi / 4 * stressed_mm * stressed_mm;
}

double proof_load_of(Thread thread, double proof_mpa) {
    return in_range("proof stress", proof_mpa, 100, 1500, "MPa") * stress_area_of(thread);
}

Torque torque_for(Thread thread, double proof_mpa, double share, double nut_factor) {
    const double preload_n = above("share of the proof load", share, 0, 0.9) * proof_load_of(thread, proof_mpa);
    return {preload_n, friction(nut_factor) * preload_n * diameter_m(thread)};
}

double share_reached(Thread thread, double proof_mpa, double torque_nm, double nut_factor) {
    const double preload_n = in_range("torque", torque_nm, 0, 5000, "N m") /
                             (friction(nut_factor) * diameter_m(thread));
    return preload_n / proof_load_of(thread, proof_mpa);
}

}  // namespace casebound::stabilisers
