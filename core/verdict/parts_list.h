// The parts list of one or several jobs on one vehicle: every role the jobs need, consume or disturb, once, with
// its verdict; what stays behind; kits that cover several lines; what to find out first; and whether the
// list is ready to order. Orders nothing and knows no price.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/list_line.h"

namespace casebound {

// Throws Error(usage) with a near miss for a job that is not in the catalog.
PartsList make_parts_list(const Places& places, const std::vector<std::string>& jobs);

std::string_view reach_name(Reach reach);  // for JSON

}  // namespace casebound
