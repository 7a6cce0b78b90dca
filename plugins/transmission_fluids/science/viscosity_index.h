#pragma once
// Viscosity index by ASTM D2270-10 (ISO 2909) from the kinematic viscosities at
// 40 °C and 100 °C. An index describes how viscosity falls with heat; it never
// says that one fluid may replace another.
#include <optional>

#include "science/viscosity_table.h"

namespace casebound::transmission_fluids {

enum class IndexProcedure { a, b };  // A: index up to 100. B: 100 and above.

struct ViscosityIndex {
    double exact;
    long whole;  // as reported: nearest whole number, an exact half to the even one
    IndexProcedure procedure;
    ReferenceOils reference;
    std::optional<double> n;  // Procedure B only
};

long round_half_even(double value);

// nullopt below 2.0 mm2/s at 100 °C, where the index is not defined and must
// not be reported (clause 5.1.1). Refuses viscosities outside 0 to 1e6 mm2/s
// and one at 100 °C that is not below the one at 40 °C.
std::optional<ViscosityIndex> viscosity_index(double kv40_mm2_s, double kv100_mm2_s);

// The same from given reference oils. Requires: kv100 >= 2.0, kv40 > 0, l > h > 0.
ViscosityIndex viscosity_index_against(double kv40_mm2_s, double kv100_mm2_s, const ReferenceOils& reference);

}  // namespace casebound::transmission_fluids
