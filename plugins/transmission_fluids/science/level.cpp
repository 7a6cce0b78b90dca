#include "science/level.h"

#include <cmath>
#include <numbers>

#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

// API MPMS 11.1, lubricating oils: K0 = 0, so alpha = K1 / density.
constexpr double k1_15c = 0.6278;
constexpr double k1_60f = 0.34878;

constexpr double highest_volume_l = 200;

double correction(double alpha, double dt) { return std::exp(-alpha * dt * (1 + 0.8 * alpha * dt)); }

void check_temp_c(double temp_c) { in_range("fluid temperature", temp_c, -50, 150, "°C"); }

double check_density(double density_kg_m3) { return in_range("density", density_kg_m3, 801, 1164, "kg/m3"); }

double check_area(double free_area_m2) { return in_range("free area", free_area_m2, 0.005, 1, "m2"); }

}  // namespace

double expansion_per_c(double density_15c_kg_m3) { return k1_15c / check_density(density_15c_kg_m3); }

double expansion_per_f(double density_60f_kg_m3) { return k1_60f / check_density(density_60f_kg_m3); }

double volume_correction_15c(double density_15c_kg_m3, double temp_c) {
    check_temp_c(temp_c);
    return correction(expansion_per_c(density_15c_kg_m3), temp_c - 15);
}

double volume_correction_60f(double density_60f_kg_m3, double temp_f) {
    in_range("fluid temperature", temp_f, -58, 302, "°F");
    return correction(expansion_per_f(density_60f_kg_m3), temp_f - 60);
}

double volume_ratio(double density_15c_kg_m3, double from_c, double to_c) {
    return volume_correction_15c(density_15c_kg_m3, from_c) / volume_correction_15c(density_15c_kg_m3, to_c);
}

double density_at_kg_m3(double density_15c_kg_m3, double temp_c) {
    return density_15c_kg_m3 * volume_correction_15c(density_15c_kg_m3, temp_c);
}

double simple_volume_change_l(double volume_l, double beta_per_c, double from_c, double to_c) {
    above("fluid volume", volume_l, 0, highest_volume_l, "L");
    in_range("expansion", beta_per_c, 0.0005, 0.001, "per °C");
    check_temp_c(from_c);
    check_temp_c(to_c);
    return volume_l * beta_per_c * (to_c - from_c);
}

// One litre over one square metre is one millimetre.
double level_rise_mm(double volume_change_l, double free_area_m2) {
    in_range("volume change", volume_change_l, -50, 50, "L");
    return volume_change_l / check_area(free_area_m2);
}

double level_target_at_mm(const LevelTarget& target, double temp_c) {
    in_range("level", target.level_mm, -1000, 1000, "mm");
    above("fluid volume", target.fluid_l, 0, highest_volume_l, "L");
    const double growth = volume_ratio(target.density_15c_kg_m3, target.check_temp_c, temp_c) - 1;
    return target.level_mm + level_rise_mm(target.fluid_l * growth, target.free_area_m2);
}

double overfill_l(const LevelTarget& target, double reading_mm, double temp_c) {
    in_range("level reading", reading_mm, -1000, 1000, "mm");
    return (reading_mm - level_target_at_mm(target, temp_c)) * target.free_area_m2;
}

double tilt_deg(double ramp_height_mm, double wheelbase_mm) {
    in_range("wheelbase", wheelbase_mm, 500, 10000, "mm");
    in_range("ramp height", ramp_height_mm, 0, wheelbase_mm / 2, "mm");
    return std::asin(ramp_height_mm / wheelbase_mm) * 180 / std::numbers::pi;
}

double tilt_error_mm(double distance_mm, double angle_deg) {
    in_range("distance from the middle of the pan", distance_mm, 0, 2000, "mm");
    in_range("tilt angle", angle_deg, 0, 30, "degrees");
    return distance_mm * std::tan(angle_deg * std::numbers::pi / 180);
}

}  // namespace casebound::transmission_fluids
