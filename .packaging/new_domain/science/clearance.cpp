#include "science/clearance.h"

#include "core/contract/answer_lines.h"
#include "core/contract/valid_range.h"

namespace casebound::new_domain {

double clearance_mm(double space_mm, double length_mm) {
    return space_mm - above("length of the part", length_mm, 0, 2 * space_mm, "mm");
}

std::string spaces_served(double length_mm) {
    return fixed(length_mm + least_clearance_mm, 1) + ".." + fixed(length_mm + most_clearance_mm, 1);
}

}  // namespace casebound::new_domain
