#pragma once
// Viscosity of a blend at one temperature, and the fraction that reaches a
// wanted viscosity. An estimate for finished fluids: ASTM D7152-11, 1.3 leaves
// out viscosity-index improvers, additive packages and strongly non-Newtonian
// oils. Never says that two fluids may be mixed.
#include <vector>

namespace casebound::transmission_fluids {

enum class BlendMethod {
    // Double logarithm of ASTM D341 averaged by volume; the scope is that of
    // ASTM D7152-11, the equation is from memory.
    d7152_double_log,
    // Refutas index averaged by mass: Petroleum Refinery Process Economics, 2nd
    // ed., 2000. Natural logarithms.
    refutas,
};

struct BlendPart {
    double fraction;  // 0 to 1; of volume for the double logarithm, of mass for Refutas
    double kv_mm2_s;  // all parts at the same temperature
};

// The number that adds linearly, and back. kv: 0.21 to 2e7 mm2/s.
double blend_index(double kv_mm2_s, BlendMethod method);
double blend_index_to_kv(double index, BlendMethod method);

// Refuses fractions that do not add up to 1 within 2e-6, and an empty list.
double blend_kv(const std::vector<BlendPart>& parts, BlendMethod method);

// The fraction of `added` in `base` that gives `wanted`. Refuses two parts of
// the same viscosity and a wanted viscosity that is not between them.
double blend_fraction(double base_kv_mm2_s, double added_kv_mm2_s, double wanted_kv_mm2_s, BlendMethod method);

}  // namespace casebound::transmission_fluids
