// The inquiries of this domain, one group a file. Each works without a catalog and without a
// vehicle when its inputs are given by hand, and says which input it lacks when one is not known.
#pragma once

#include <vector>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

std::vector<Inquiry> viscosity_inquiries();  // viscosity-index, viscosity, blend
std::vector<Inquiry> old_fluid_inquiries();  // old-fluid, exchange
std::vector<Inquiry> quantity_inquiries();   // have-ready, packs
std::vector<Inquiry> level_inquiries();      // level-rise, overfill, tilt-error
std::vector<Inquiry> service_inquiries();    // service-due, fluid-condition
std::vector<Inquiry> claim_inquiries();      // claims
std::vector<Inquiry> grade_inquiries();      // oil-grade

std::vector<Inquiry> inquiries();  // all of them

std::vector<ServiceInquiry> services_due();  // service-due, for the gearbox fluid

}  // namespace casebound::transmission_fluids
