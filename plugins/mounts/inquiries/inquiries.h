#pragma once
// The named computations about mounts, in the order they are listed; one file a topic.

#include <optional>
#include <string>
#include <vector>

#include "core/contract/answer.h"

namespace casebound::mounts {

Inquiry replacement_inquiry();
Inquiry pair_inquiry();
Inquiry shake_inquiry();
Inquiry natural_frequency_inquiry();
Inquiry isolation_inquiry();
Inquiry solid_for_hydraulic_inquiry();
Inquiry lift_inquiry();
Inquiry lifting_point_inquiry();
Inquiry sag_inquiry();
Inquiry tightening_inquiry();

std::vector<Inquiry> inquiries();  // all of them

// What those about idle share.
SourceNote firing_source();
// `cylinders` and `idle`, each on record for the vehicle's line.
Input cylinders_input();
Input idle_input(std::string title);
// Of the inputs `cylinders` and `idle`; nothing when one of them is missing.
std::optional<double> firing_hz(const Given& given);

}  // namespace casebound::mounts
