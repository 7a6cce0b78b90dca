#pragma once
// The named computations about oil, coolant, washers and brake fluid, in the order they are listed; one file a topic.

#include <vector>

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

Inquiry oil_class_inquiry();
Inquiry fill_inquiry();
Inquiry freeze_point_inquiry();
Inquiry draw_off_inquiry();
Inquiry mix_inquiry();
Inquiry oil_due();
Inquiry coolant_due();
Inquiry washer_inquiry();
Inquiry brake_fluid_inquiry();

std::vector<ServiceInquiry> services_due();

}  // namespace casebound::service_fluids
