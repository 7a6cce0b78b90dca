// Parts and their places as the packs have them.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::new_domain {

// Core meets the condition of an objection with what is left of the vehicle; no configuration is counted here.
Examination examine(const Candidate& candidate, const Services& services);

// What the schema cannot say about the rows of a pack.
std::vector<RowFault> check(const Facts& facts, std::string_view pack);

}  // namespace casebound::new_domain
