// What was told of the fluid's looks and level: as observations, and which of it speaks of trouble. An unknown word
// observes nothing. Names no cause.
#pragma once

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/fluid_condition.h"

namespace casebound::transmission_fluids {

// Each as in the vocabulary, or empty: "red", "varnish", "cloudy", "gritty".
FluidObserved observed_from(std::string_view colour, std::string_view smell, std::string_view clarity,
                            std::string_view feel);

struct ToldFluid {
    FluidObserved as_told;   // what was told as one value
    FluidObserved at_worst;  // of what was told as alternatives, the weightiest
};
ToldFluid told_fluid(const VehicleView& vehicle);

// Common practice, fed with what was told of these.
SourceNote practice_on(const VehicleView& vehicle, const std::vector<std::string_view>& attributes);
std::vector<std::string_view> fluid_looks();  // colour, smell, clarity, feel

Findings findings(const Services& services);

}  // namespace casebound::transmission_fluids
