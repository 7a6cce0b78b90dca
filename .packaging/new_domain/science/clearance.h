// How much room a part has in its place. Lengths in mm. Knows no rows and no vehicle.
#pragma once

#include <string>

namespace casebound::new_domain {

// Limits of the clearance, mm: invented; write your own, with the source beside each.
inline constexpr double least_clearance_mm = 5, most_clearance_mm = 40;

// Throws std::domain_error where the part is more than twice as long as the space: one of the two is misread.
double clearance_mm(double space_mm, double length_mm);

// The spaces that a part of this length goes into, as the right side of a condition: "125.0..160.0".
std::string spaces_served(double length_mm);

}  // namespace casebound::new_domain
