#pragma once
// The bar in its bushes, and how far a rubber is twisted that was tightened with the wheel hanging. Lengths in mm.

#include <cstdint>
#include <optional>

namespace casebound::stabilisers {

enum class BushAnswer : std::uint8_t { for_this_bar, too_large, too_small, bar_worn };

// A bush is for the bar when the two are no further apart than `within_mm`; the bar is worn when it is thinner under
// the bush than beside it by more than that. 0.5 mm, from memory: bushes come in steps of 1 mm.
inline constexpr double bar_within_mm = 0.5;
BushAnswer bush_on_bar(double bush_mm, double bar_mm, std::optional<double> bar_under_bush_mm,
                       double within_mm = bar_within_mm);

// Degrees by which an arm turns about its bush while its end moves by `droop_mm`, from level: asin(droop / arm).
// Refuses an arm outside 50 to 1500 mm and a droop that is longer than the arm.
double twist_deg(double arm_mm, double droop_mm);

}  // namespace casebound::stabilisers
