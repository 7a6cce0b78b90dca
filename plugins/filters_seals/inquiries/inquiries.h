// The inquiries of this domain, one function a group of them. Each takes every value by hand, or from what was told
// of the vehicle and what packs record, and says which.
#pragma once

#include <vector>

#include "core/contract/plugin.h"

namespace casebound::filters_seals {

std::vector<Inquiry> stack_inquiries();        // filter-stack, pan-filter-seal
std::vector<Inquiry> seal_count_inquiries();   // seal-count, neck-seal
std::vector<Inquiry> left_behind_inquiries();  // stays-behind
std::vector<Inquiry> seal_size_inquiries();    // seal-in-hand, oring-size
std::vector<Inquiry> oring_inquiries();        // oring-gland
std::vector<Inquiry> press_fit_inquiries();    // press-fit, hat-seal
std::vector<Inquiry> elastomer_inquiries();    // rubber-and-fluid, rubber-ranking
std::vector<Inquiry> gasket_inquiries();       // gasket-and-flange, gasket-reuse
std::vector<Inquiry> debris_inquiries();       // pan-debris
std::vector<Inquiry> fastener_inquiries();     // pan-bolt

std::vector<Inquiry> inquiries();  // all of them

}  // namespace casebound::filters_seals
