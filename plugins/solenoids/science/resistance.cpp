#include "science/resistance.h"

#include "core/contract/valid_range.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace casebound::solenoids {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

double checked_temp(const char* what, double temp_c) { return in_range(what, temp_c, -60.0, 250.0); }

double checked_ohm(const char* what, double ohm) { return in_range(what, ohm, 0.0, 1e9); }

OhmLimits checked(OhmLimits limits) {
    in_range("upper limit, ohm", limits.high, 0.1, 1e6);
    in_range("lower limit, ohm", limits.low, 0.1, limits.high);
    return limits;
}

struct Guard {
    OhmLimits passes;
    OhmLimits borders;
};

Guard guard_around(OhmLimits limits) {
    OhmLimits passes{limits.low * (1.0 + guard_share), limits.high * (1.0 - guard_share)};
    const double quarter = (limits.high - limits.low) / 4.0;
    if (passes.low >= passes.high) passes = {limits.low + quarter, limits.high - quarter};
    return {passes, {limits.low * (1.0 - guard_share), limits.high * (1.0 + guard_share)}};
}

CoilVerdict verdict_for(double ohm_20, OhmLimits limits) {
    if (ohm_20 > 100.0 * limits.high) return CoilVerdict::open;
    if (ohm_20 < 0.1 * limits.low) return CoilVerdict::shorted;
    const Guard guard = guard_around(limits);
    if (ohm_20 < guard.borders.low) return CoilVerdict::low;
    if (ohm_20 > guard.borders.high) return CoilVerdict::high;
    const bool inside = ohm_20 >= guard.passes.low && ohm_20 <= guard.passes.high;
    return inside ? CoilVerdict::pass : CoilVerdict::borderline;
}

double corrected(const CoilReading& reading) {
    if (reading.measured_ohm == infinite) return infinite;
    const double measured = checked_ohm("measured_ohm", reading.measured_ohm);
    return ohm_at_20(measured - in_range("lead_ohm", reading.lead_ohm, 0.0, measured), reading.temp_c);
}

}  // namespace

double copper_factor(double temp_c) { return 1.0 + copper_alpha_20 * (checked_temp("temp_c", temp_c) - 20.0); }

double ohm_at_20(double ohm, double temp_c) { return checked_ohm("ohm", ohm) / copper_factor(temp_c); }

double ohm_at(double ohm_20, double temp_c) { return checked_ohm("ohm_20", ohm_20) * copper_factor(temp_c); }

double ohm_by_ratio(double ohm_1, double temp_1_c, double temp_2_c) {
    return checked_ohm("ohm_1", ohm_1) * (copper_ratio_c + checked_temp("temp_2_c", temp_2_c)) /
           (copper_ratio_c + checked_temp("temp_1_c", temp_1_c));
}

double coil_temp_c(double ohm_1, double temp_1_c, double ohm_2) {
    const double ratio = checked_ohm("ohm_2", ohm_2) / in_range("ohm_1", ohm_1, 0.001, 1e9);
    const double temp_2_c = ratio * (copper_ratio_c + checked_temp("temp_1_c", temp_1_c)) - copper_ratio_c;
    return checked_temp("coil temperature, C", temp_2_c);
}

double copper_alpha_at(double reference_c) { return copper_alpha_20 / copper_factor(reference_c); }

double copper_wire_ohm(double length_m, double area_mm2) {
    return copper_ohm_mm2_per_m * in_range("length_m", length_m, 0.0, 1000.0) /
           in_range("area_mm2", area_mm2, 0.01, 1000.0);
}

OhmLimits limits_at(OhmLimits at_20, double temp_c) {
    checked(at_20);
    return {ohm_at(at_20.low, temp_c), ohm_at(at_20.high, temp_c)};
}

CoilAnswer judge_coil(const CoilReading& reading, OhmLimits at_20) {
    const OhmLimits now = limits_at(at_20, reading.temp_c);
    const double ohm_20 = corrected(reading);
    const bool indicative = std::abs(reading.temp_c - 20.0) > 5.0;
    return {verdict_for(ohm_20, at_20), ohm_20, now, indicative};
}

double current_a(double supply_v, double ohm) {
    return in_range("supply_v", supply_v, 0.0, 60.0) / in_range("ohm", ohm, 0.01, 1e9);
}

BadJoint bad_joint(double supply_v, double coil_ohm, double joint_ohm) {
    const double total = in_range("coil_ohm", coil_ohm, 0.01, 1e6) + in_range("joint_ohm", joint_ohm, 0.0, 1e6);
    const double current = current_a(supply_v, total);
    return {current * joint_ohm, current, total};
}

BenchFeed bench_feed(double supply_v, double ohm_now, std::optional<double> limit_a) {
    const double would_flow_a = current_a(supply_v, ohm_now);
    if (!limit_a) return BenchFeed::not_recorded;
    const bool within = would_flow_a <= in_range("limit_a", *limit_a, 0.01, 100.0);
    return within ? BenchFeed::allowed : BenchFeed::refused;
}

CaseLeak case_leak(double pin_to_case_ohm, int wires) {
    in_range("pin_to_case_ohm", pin_to_case_ohm, 0.0, infinite);
    if (in_range("wires", wires, 1.0, 2.0) < 2.0) return CaseLeak::grounded_by_design;
    return pin_to_case_ohm < 1e5 ? CaseLeak::suspect : CaseLeak::sound;
}

WhereBetween where_between(double at_connector_ohm, double at_solenoid_ohm) {
    if (at_connector_ohm == at_solenoid_ohm) return WhereBetween::coil;  // both open as well
    const auto capped = [](double ohm) { return std::min(ohm, 1e9); };
    const double outer = checked_ohm("at_connector_ohm", capped(at_connector_ohm));
    const double inner = checked_ohm("at_solenoid_ohm", capped(at_solenoid_ohm));
    const double apart = std::abs(outer - inner);
    const double allowed = std::max(0.3, guard_share * inner);
    if (apart > allowed) return WhereBetween::internal_plate;
    return apart > allowed / 2.0 ? WhereBetween::borderline : WhereBetween::coil;
}

}  // namespace casebound::solenoids
