#pragma once
// The reference oils of ASTM D2270-10 (ISO 2909): L and H, the viscosities at
// 40 °C of oils of viscosity index 0 and 100 that share a viscosity at 100 °C.
// Looks up and interpolates; never decides whether an index is defined.
#include <span>

namespace casebound::transmission_fluids {

struct ReferenceRow {
    double kv100_mm2_s;
    double l_mm2_s;
    double h_mm2_s;
};

struct ReferenceOils {
    double l_mm2_s;
    double h_mm2_s;
};

inline constexpr double table_from_mm2_s = 2.0;
inline constexpr double table_to_mm2_s = 70.0;

// Table 1, rising in kv100.
std::span<const ReferenceRow> reference_table();

// Linear interpolation in Table 1. Requires: 2.0 <= kv100 <= 70.0.
ReferenceOils reference_from_table(double kv100_mm2_s);

// The two equations of clause 5.1.2. They miss the table's last row by up to
// 0.02 %, so they serve only above 70.0.
ReferenceOils reference_above_table(double kv100_mm2_s);

// Appendix X2, the quadratic fits to Table 1; within 0.12 % of it. At a bound
// that two rows share the lower row is taken. Requires: kv100 >= 2.0.
ReferenceOils reference_from_equations(double kv100_mm2_s);

}  // namespace casebound::transmission_fluids
