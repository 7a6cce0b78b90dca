// Whether two fluids are of about the same thickness hot. A plausibility check: a large difference raises a
// question, a small one permits nothing.
#pragma once

#include <string>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

// More than this at 100 °C is worth a question (default, from memory).
inline constexpr double largest_viscosity_difference = 0.15;

struct ViscosityDifference {
    double share;  // offered against wanted: -0.2 is a fifth thinner
    bool too_large;
    std::string text;  // "6.0 against 7.5 mm2/s at 100 °C: 20 % thinner"
};

// Refuses viscosities that are not above 0.
ViscosityDifference viscosity_difference(double wanted_kv100_mm2_s, double offered_kv100_mm2_s);

SourceNote viscosity_limit_source();

}  // namespace casebound::transmission_fluids
