// The words in which fluid condition is told of a vehicle, and its signs in words. An unknown word observes nothing.
#pragma once

#include <string_view>

#include "science/fluid_condition.h"

namespace casebound::transmission_fluids {

// Each as in the vocabulary, or empty: "red", "varnish", "cloudy", "gritty".
FluidObserved observed_from(std::string_view colour, std::string_view smell, std::string_view clarity,
                            std::string_view feel);

std::string_view sign_words(FluidSign sign);

}  // namespace casebound::transmission_fluids
