#pragma once
// The named computations about mounts, in the order they are listed. Each file inquiry_<noun>.cpp gives its part.

#include <vector>

#include "core/contract/plugin.h"

namespace casebound::mounts {

std::vector<Inquiry> vibration_inquiries();
std::vector<Inquiry> choice_inquiries();
std::vector<Inquiry> lifting_inquiries();
std::vector<Inquiry> fitting_inquiries();
std::vector<Inquiry> trouble_inquiries();
std::vector<Inquiry> finding_inquiries();
std::vector<Inquiry> torque_inquiries();

}  // namespace casebound::mounts
