// SAE J306 grades as a catalog states them: without an edition. Their limits changed in 2019, so a grade is read by
// both editions, and only what both say is said.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/grades.h"

namespace casebound::transmission_fluids {

inline constexpr OilScale gear_editions[] = {OilScale::j306_2005, OilScale::j306_2019};

// Nothing when the edition does not know it, or no oil can be it.
std::optional<OilGrade> gear_grade_if_known(OilScale edition, std::string_view label);
bool known_gear_grade(std::string_view label);

// Empty when `offered` keeps the limits of `wanted` in every edition that knows both, and at least one does;
// else why not.
std::string gear_grade_shortfall(std::string_view offered, std::string_view wanted);

// Empty when a viscosity at 100 °C is within the grade in some edition; else what it falls in.
std::string outside_gear_grade(std::string_view label, double kv100_mm2_s);

}  // namespace casebound::transmission_fluids
