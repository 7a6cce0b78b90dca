#include "science/vibration.h"

#include "core/contract/valid_range.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace casebound::mounts {
namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

double checked_mass(double mass_kg) { return in_range("mass_kg", mass_kg, 0.1, 1e4); }
double checked_natural(double hz) { return in_range("natural_hz", hz, 0.01, 1000.0); }

double checked_stiffness_n_m(double stiffness_n_mm) {
    return 1000.0 * in_range("stiffness_n_mm", stiffness_n_mm, 0.01, 1e5);
}

MountModel checked(MountModel model) {
    in_range("natural_hz", model.natural_hz, 0.5, 100.0);
    in_range("damping_ratio", model.damping_ratio, 0.001, 2.0);
    return model;
}

double at_frequency(MountModel model, double frequency_hz) {
    return transmissibility(frequency_hz / model.natural_hz, model.damping_ratio);
}

constexpr Span nothing_yet{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};

void widen(Span& span, double value) {
    span.low = std::min(span.low, value);
    span.high = std::max(span.high, value);
}

std::vector<double> values_over(Span span, int steps) {
    in_range("upper end of an assumed span", span.high, span.low, 1e9);
    std::vector<double> values;
    for (int i = 0; i < steps; ++i) values.push_back(span.low + (span.high - span.low) * i / (steps - 1));
    return values;
}

void count_in(SpannedComparison& total, const Comparison& one) {
    widen(total.hydraulic_at_firing, one.hydraulic_at_firing);
    widen(total.solid_at_firing, one.solid_at_firing);
    widen(total.solid_over_hydraulic, one.solid_over_hydraulic);
    widen(total.hydraulic_at_resonance, one.hydraulic_at_resonance);
    widen(total.solid_at_resonance, one.solid_at_resonance);
    ++total.combinations;
    if (one.hydraulic_at_firing < one.solid_at_firing) ++total.hydraulic_passes_less;
}

void count_solids(SpannedComparison& total, double firing_hz, MountModel hydraulic, const ComparisonSpan& span) {
    for (double stiffer : values_over(span.solid_stiffness_ratio, span.steps)) {
        in_range("solid_stiffness_ratio", stiffer, 0.2, 20.0);
        const double solid_hz = hydraulic.natural_hz * std::sqrt(stiffer);
        for (double damping : values_over(span.solid_damping, span.steps))
            count_in(total, compare(firing_hz, hydraulic, {solid_hz, damping}));
    }
}

}  // namespace

double natural_frequency_hz(double mass_kg, double stiffness_n_mm) {
    return std::sqrt(checked_stiffness_n_m(stiffness_n_mm) / checked_mass(mass_kg)) / two_pi;
}

double natural_frequency_from_deflection_hz(double deflection_mm) {
    const double deflection_m = in_range("deflection_mm", deflection_mm, 0.01, 500.0) / 1000.0;
    return std::sqrt(standard_gravity_m_s2 / deflection_m) / two_pi;
}

double dynamic_natural_frequency_hz(double static_natural_hz, double dynamic_ratio) {
    return checked_natural(static_natural_hz) * std::sqrt(in_range("dynamic_ratio", dynamic_ratio, 1.0, 5.0));
}

double stiffness_for_frequency_n_mm(double mass_kg, double natural_hz) {
    const double omega = two_pi * checked_natural(natural_hz);
    return checked_mass(mass_kg) * omega * omega / 1000.0;
}

double deflection_for_frequency_mm(double natural_hz) {
    const double omega = two_pi * checked_natural(natural_hz);
    return 1000.0 * standard_gravity_m_s2 / (omega * omega);
}

double dominant_order(int cylinders) { return in_range("cylinders", cylinders, 1.0, 16.0) / 2.0; }

double firing_frequency_hz(int cylinders, double rpm) {
    return dominant_order(cylinders) * in_range("rpm", rpm, 50.0, 12000.0) / 60.0;
}

double transmissibility(double frequency_ratio, double damping_ratio) {
    const double r = in_range("frequency_ratio", frequency_ratio, 0.0, 1000.0);
    const double damped = 2.0 * in_range("damping_ratio", damping_ratio, 0.0, 2.0) * r;
    return std::hypot(1.0, damped) / std::hypot(1.0 - r * r, damped);
}

bool isolates(double frequency_ratio) {
    return in_range("frequency_ratio", frequency_ratio, 0.0, 1000.0) > std::numbers::sqrt2;
}

double transmissibility_at_resonance(double damping_ratio) {
    return transmissibility(1.0, in_range("damping_ratio", damping_ratio, 0.001, 2.0));
}

double undamped_ratio_for_isolation(double isolation_share) {
    const double passed_on = 1.0 - in_range("isolation_share", isolation_share, 0.0, 0.999);
    return std::sqrt(1.0 + 1.0 / passed_on);
}

ForcedResponse forced_response(const ForcedCase& forced) {
    const double k_n_m = checked_stiffness_n_m(forced.stiffness_n_mm);
    const double force_n = in_range("force_n", forced.force_n, 0.0, 1e6);
    const double omega = in_range("omega_rad_s", forced.omega_rad_s, 0.001, 1e5);
    const double natural = std::sqrt(k_n_m / checked_mass(forced.mass_kg));
    const double r = omega / natural;
    const double passed_on = transmissibility(r, forced.damping_ratio);
    const double damped = 2.0 * forced.damping_ratio * r;
    const double flexibility = std::hypot(1.0 - r * r, damped);
    if (flexibility == 0.0) throw std::domain_error("damping_ratio: got 0 at resonance: valid range is above 0 to 2");
    const double amplitude_m = force_n / k_n_m / flexibility;
    const double phase_deg = std::atan2(damped, 1.0 - r * r) * 180.0 / std::numbers::pi;
    return {natural, r, 1000.0 * amplitude_m, phase_deg, passed_on, force_n * passed_on, omega * amplitude_m};
}

double rad_per_s(double rpm) { return two_pi * in_range("rpm", rpm, 1.0, 1e5) / 60.0; }

double unbalance_force_n(double unbalance_kg_m, double rpm) {
    const double omega = rad_per_s(rpm);
    return in_range("unbalance_kg_m", unbalance_kg_m, 0.0, 1000.0) * omega * omega;
}

bool idle_is_low(double measured_rpm, double makers_rpm) {
    return in_range("idle_speed", measured_rpm, 50.0, 12000.0) <
           in_range("maker's idle", makers_rpm, 50.0, 12000.0) - idle_low_rpm;
}

MountModel assumed_hydraulic() { return {10.0, 0.20}; }
MountModel assumed_solid() { return {10.0 * std::sqrt(1.6), 0.05}; }

Comparison compare(double firing_hz, MountModel hydraulic, MountModel solid) {
    in_range("firing_hz", firing_hz, 1.0, 500.0);
    const double h = at_frequency(checked(hydraulic), firing_hz);
    const double s = at_frequency(checked(solid), firing_hz);
    return {h,
            s,
            s / h,
            transmissibility_at_resonance(hydraulic.damping_ratio),
            transmissibility_at_resonance(solid.damping_ratio),
            isolates(firing_hz / hydraulic.natural_hz),
            isolates(firing_hz / solid.natural_hz)};
}

SpannedComparison compare_over(double firing_hz, const ComparisonSpan& span) {
    in_range("steps", span.steps, 2.0, 20.0);
    SpannedComparison total{nothing_yet, nothing_yet, nothing_yet, nothing_yet, nothing_yet, 0, 0};
    for (double natural_hz : values_over(span.hydraulic_natural_hz, span.steps))
        for (double damping : values_over(span.hydraulic_damping, span.steps))
            count_solids(total, firing_hz, {natural_hz, damping}, span);
    return total;
}

std::vector<CurvePoint> transmissibility_curve(MountModel model, double low_hz, double high_hz, int points) {
    checked(model);
    in_range("low_hz", low_hz, 0.0, 500.0);
    in_range("high_hz", high_hz, low_hz, 500.0);
    in_range("points", points, 2.0, 10000.0);
    std::vector<CurvePoint> curve;
    for (double hz : values_over({low_hz, high_hz}, points)) curve.push_back({hz, at_frequency(model, hz)});
    return curve;
}

}  // namespace casebound::mounts
