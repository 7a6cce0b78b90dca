#pragma once
// What is told of codes, gears, lever and coils, before it is written down: the form it is kept in, and what cannot be.

#include "core/contract/plugin.h"

namespace casebound::solenoids {

// Codes have the form of SAE J2012 / ISO 15031-6. Gears are those that a family the vehicle may still have gives;
// 1 to 10, R and N where no pack records one of those families.
Telling telling(std::string_view attribute, std::string_view text, const Services& services);

}  // namespace casebound::solenoids
