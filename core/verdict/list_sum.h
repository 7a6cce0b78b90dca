// What the lines of a parts list come to: what all of it rests on, what blocks it, and what to find out next. Decides
// nothing of a line.
#pragma once

#include "core/verdict/list_line.h"

namespace casebound {

// The lines are final but for the weakest evidence, which what may be ordered for them still lowers.
void sum_up(PartsList& list, const Places& places);

}  // namespace casebound
