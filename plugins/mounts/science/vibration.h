#pragma once
// Single-degree-of-freedom vibration of a mass on mounts: natural frequency,
// transmissibility, firing frequency, forced response, and what a solid mount
// changes against a hydraulic one. It compares mounts; it never predicts what
// is felt in the seat. Every function throws std::domain_error on an input
// outside the range written beside it.

#include <cstddef>
#include <vector>

namespace casebound::mounts {

inline constexpr double standard_gravity_m_s2 = 9.80665;  // exact by definition

// Stiffness is the total of all mounts that carry the mass.
// mass_kg 0.1 to 10000, stiffness_n_mm 0.01 to 100000.
double natural_frequency_hz(double mass_kg, double stiffness_n_mm);

// deflection_mm 0.01 to 500, static. Rubber is dynamically stiffer than its
// static deflection says, so the result is a lower bound.
double natural_frequency_from_deflection_hz(double deflection_mm);

// The frequency when dynamic stiffness is dynamic_ratio times the static one.
// dynamic_ratio 1 to 5; 1.2 to 2 is usual for rubber (from memory).
double dynamic_natural_frequency_hz(double static_natural_hz, double dynamic_ratio);

double stiffness_for_frequency_n_mm(double mass_kg, double natural_hz);
double deflection_for_frequency_mm(double natural_hz);

// Four-stroke, evenly firing. cylinders 1 to 16, rpm 50 to 12000.
double firing_frequency_hz(int cylinders, double rpm);
// Firing pulses per turn of the crankshaft: 2 for four cylinders.
double dominant_order(int cylinders);

// System Dynamics, 4th ed., ISBN 0-13-142462-9, eq. 9-14. frequency_ratio = forcing over
// natural frequency, 0 to 1000; damping_ratio 0 to 2. Infinity when the ratio
// is 1 and there is no damping.
double transmissibility(double frequency_ratio, double damping_ratio);

// A mount passes on less than it receives only above sqrt(2), at any damping.
bool isolates(double frequency_ratio);

// Transmissibility at frequency_ratio 1. damping_ratio 0.001 to 2. It is the
// value at the natural frequency; the true peak is slightly below and higher.
double transmissibility_at_resonance(double damping_ratio);

// Without damping: the frequency ratio that passes on 1 - isolation_share.
// isolation_share 0 to 0.999.
double undamped_ratio_for_isolation(double isolation_share);

struct ForcedResponse {
    double natural_rad_s;
    double frequency_ratio;
    double amplitude_mm;
    double phase_deg;  // by which the motion lags the force
    double transmissibility;
    double transmitted_n;
    double peak_velocity_m_s;
};

struct ForcedCase {
    double mass_kg;
    double stiffness_n_mm;
    double damping_ratio;  // 0 to 2
    double force_n;        // amplitude, 0 to 1e6
    double omega_rad_s;    // 0.001 to 1e5
};

// Steady state under a harmonic force. Throws as well when the case is
// undamped and exactly at resonance: the amplitude grows without bound.
ForcedResponse forced_response(const ForcedCase& forced);

// Amplitude of the rotating force. unbalance_kg_m 0 to 1000, rpm 1 to 100000.
double unbalance_force_n(double unbalance_kg_m, double rpm);
double rad_per_s(double rpm);

// Measured this much below the maker's idle it is low, and shakes like a bad mount: from memory. Both 50 to 12000 rpm.
inline constexpr double idle_low_rpm = 50.0;
bool idle_is_low(double measured_rpm, double makers_rpm);

// One mount in the model.
struct MountModel {
    double natural_hz;     // of the engine on it, 0.5 to 100
    double damping_ratio;  // 0.001 to 2
};

struct Comparison {
    double hydraulic_at_firing;
    double solid_at_firing;
    double solid_over_hydraulic;  // 1.4 means 40 % more is passed on at idle
    double hydraulic_at_resonance;
    double solid_at_resonance;
    bool hydraulic_isolates;
    bool solid_isolates;
};

Comparison compare(double firing_hz, MountModel hydraulic, MountModel solid);

// Working assumptions, from memory: hydraulic 10 Hz with damping 0.20; solid
// 60 % stiffer with damping 0.05.
MountModel assumed_hydraulic();
MountModel assumed_solid();

struct Span {
    double low;
    double high;
};

// Defaults from memory: bounce mode 6 to 15 Hz, damping of solid rubber 0.03
// to 0.08, of a hydraulic mount near its tuned frequency 0.15 to 0.35, solid
// 1 to 2 times as stiff.
struct ComparisonSpan {
    Span hydraulic_natural_hz{6.0, 15.0};
    Span hydraulic_damping{0.15, 0.35};
    Span solid_stiffness_ratio{1.0, 2.0};
    Span solid_damping{0.03, 0.08};
    int steps = 5;  // values per quantity, 2 to 20
};

struct SpannedComparison {
    Span hydraulic_at_firing;
    Span solid_at_firing;
    Span solid_over_hydraulic;
    Span hydraulic_at_resonance;
    Span solid_at_resonance;
    std::size_t combinations;
    std::size_t hydraulic_passes_less;  // combinations in which it does, at firing
};

// Every combination of the assumed values. At equal stiffness the less damped
// mount isolates better above sqrt(2): the count says how far the verdict
// depends on the assumptions.
SpannedComparison compare_over(double firing_hz, const ComparisonSpan& span);

struct CurvePoint {
    double frequency_hz;
    double transmissibility;
};

// points 2 to 10000, equally spaced from low_hz to high_hz.
std::vector<CurvePoint> transmissibility_curve(MountModel model, double low_hz, double high_hz, int points);

}  // namespace casebound::mounts
