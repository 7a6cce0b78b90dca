#pragma once
// Kinematic viscosity at any temperature from two measured points, by ASTM
// D341-20: log10 log10 Z = A - B log10 T, T in kelvin. An estimate: below 0 °C
// and outside the measured points it says so, and a polymer-thickened fluid
// needs measured cold figures instead. Matching viscosity is necessary for a
// replacement, never sufficient: friction behaviour decides. A large difference
// raises a question, a small one permits nothing.
#include <string>

namespace casebound::transmission_fluids {

enum class D341Form {
    full,    // Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2)
    simple,  // Z = v + 0.7, meant for 2 mm2/s and above
};

inline constexpr double simple_form_from_mm2_s = 2.0;

struct MeasuredViscosity {
    double temp_c;
    double kv_mm2_s;
};

struct ViscosityLine {
    double a;
    double b;
    D341Form form;
    double coldest_c;  // the two measured temperatures
    double hottest_c;
};

struct ViscosityAt {
    double kv_mm2_s;
    bool extrapolated;       // outside the two measured temperatures
    bool below_zero_c;       // no good for polymer-thickened fluids (common practice, no source)
    bool below_simple_form;  // the simple form was used under 2 mm2/s
};

// Z, and back. The full form's way back is the standard's fit, good to about
// 0.01 % (0.03 % below 0.5 mm2/s). kv: 0.21 (full) or more than 0.3 (simple) to
// 2e7 mm2/s, the standard's span from memory; at 0.3 and below the simple form
// has no double logarithm.
double d341_z(double kv_mm2_s, D341Form form);
double d341_kv(double z, D341Form form);

// Refuses temperatures outside -60 to 200 °C or closer than 1 °C together, and
// a colder point that is not the more viscous one.
ViscosityLine viscosity_line(MeasuredViscosity first, MeasuredViscosity second, D341Form form = D341Form::full);

// Refuses a temperature outside -60 to 200 °C, or one so cold that the result
// leaves the span of the standard.
ViscosityAt viscosity_at(const ViscosityLine& line, double temp_c);

// The temperature at which the line reaches a viscosity; refused outside -60 to
// 200 °C.
double temperature_at_c(const ViscosityLine& line, double kv_mm2_s);

// More than this at 100 °C is worth a question (default, from memory).
inline constexpr double largest_viscosity_difference = 0.15;
inline constexpr const char* viscosity_limit_words =
    "more than 15 % at 100 °C is worth a question, a default from memory";

struct ViscosityDifference {
    double share;  // offered against wanted: -0.2 is a fifth thinner
    bool too_large;
    std::string text;  // "6.0 against 7.5 mm2/s at 100 °C: 20 % thinner"
};

// Refuses viscosities that are not above 0.
ViscosityDifference viscosity_difference(double wanted_kv100_mm2_s, double offered_kv100_mm2_s);

}  // namespace casebound::transmission_fluids
