// What `vehicle tell` changed, as text.
#pragma once

#include <string>
#include <vector>

#include "core/session/situation.h"

namespace casebound {

// What stood before and is told otherwise now: the firmer of the two stands, and of two measurements the first.
std::string changed_text(const Situation& situation, const std::vector<ToldFact>& before,
                         const std::vector<ToldFact>& after, const std::vector<ToldFact>& entries);

}  // namespace casebound
