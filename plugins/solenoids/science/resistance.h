#pragma once
// Coil resistance corrected for temperature, judged against limits at 20 C,
// and what current follows. A reading away from 20 C is indicative: repeat it
// at 20 C before condemning. Good resistance never clears the circuit: only a
// test under load does. std::domain_error outside the ranges given.

#include <optional>

namespace casebound::solenoids {

// Annealed copper: IEC 60028 (1925). 0.00393 per C at 20 C, constant mass.
inline constexpr double copper_alpha_20 = 0.00393;
inline constexpr double copper_ohm_mm2_per_m = 1.0 / 58.0;
// The ratio form used in machine tests (from memory); 1/0.00393 - 20 = 234.453.
inline constexpr double copper_ratio_c = 234.5;

// Resistance at temp_c over resistance at 20 C. temp_c -60 to 250.
double copper_factor(double temp_c);

// ohm 0 to 1e9.
double ohm_at_20(double ohm, double temp_c);
double ohm_at(double ohm_20, double temp_c);
double ohm_by_ratio(double ohm_1, double temp_1_c, double temp_2_c);
// Coil temperature from the rise of its resistance. ohm_1 above 0.
double coil_temp_c(double ohm_1, double temp_1_c, double ohm_2);
// The coefficient when another reference temperature is used (-60 to 250).
double copper_alpha_at(double reference_c);
// length_m 0 to 1000, area_mm2 0.01 to 1000, at 20 C.
double copper_wire_ohm(double length_m, double area_mm2);

struct OhmLimits {
    double low;
    double high;
};

OhmLimits limits_at(OhmLimits at_20, double temp_c);

enum class CoilVerdict {
    pass,
    borderline,  // within 5 % of a limit: re-measure
    low,
    high,
    shorted,  // below a tenth of the lower limit (from memory)
    open,     // infinite, or above a hundred times the upper limit (from memory)
};

struct CoilReading {
    double measured_ohm;    // 0 to 1e9, or infinity for "open"
    double temp_c;          // of the coil, not of the air
    double lead_ohm = 0.0;  // probes shorted together; at most the reading
};

struct CoilAnswer {
    CoilVerdict verdict;
    double ohm_20;         // corrected, leads subtracted; infinity when open
    OhmLimits limits_now;  // what the coil may read at temp_c
    bool indicative;       // more than 5 C from 20 C: repeat at 20 C to condemn
};

// limits at 20 C: 0.1 to 1e6 ohm, low not above high. Where the two guard bands
// would meet (limits closer than about 10 %), the middle half of the limits
// passes, so that a narrow specification can be met at all.
CoilAnswer judge_coil(const CoilReading& reading, OhmLimits at_20);

inline constexpr double guard_share = 0.05;

// supply_v 0 to 60, ohm 0.01 to 1e9.
double current_a(double supply_v, double ohm);

struct BadJoint {
    double drop_v;     // lost across the joint
    double current_a;  // left for the coil
    double read_ohm;   // what an ohmmeter shows for both
};

// joint_ohm 0 to 1e6 in series with the coil.
BadJoint bad_joint(double supply_v, double coil_ohm, double joint_ohm);

enum class BenchFeed { allowed, refused, not_recorded };

// May the coil be fed directly from supply_v at the bench? Only against a
// recorded limit (0.01 to 100 A); none recorded is never permission.
BenchFeed bench_feed(double supply_v, double ohm_now, std::optional<double> limit_a);

enum class CaseLeak { sound, suspect, grounded_by_design };

// Pin to case, 0 to 1e9 or infinity. Below 100 kohm is suspect on a two-wire
// coil (from memory); a one-wire coil is grounded by design. wires 1 or 2.
CaseLeak case_leak(double pin_to_case_ohm, int wires);

enum class WhereBetween { coil, internal_plate, borderline };

// The same coil read at the case connector and at the solenoid, both net of
// leads and at one temperature: more than 5 % and more than 0.3 ohm apart means
// harness or plate, half of that or less means the coil side (from memory).
WhereBetween where_between(double at_connector_ohm, double at_solenoid_ohm);

// Common practice, no source.
inline constexpr const char* open_circuit_caution =
    "an open circuit is seldom the coil: unplug the case connector and look for water, corrosion and spread pins "
    "first, then measure at the part's own pins";

}  // namespace casebound::solenoids
