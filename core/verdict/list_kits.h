// Kits for a parts list: those that hold what a line of it needs and nothing that is on record for it and not right.
#pragma once

#include "core/verdict/fits.h"
#include "core/verdict/list_line.h"

namespace casebound {

// Sets list.kits, and of each line the kits that cover it. Each thing in a kit is counted for one place. A kit that holds
// less than any place needs covers none, and may be ordered beside others.
void add_kits(PartsList& list, const Judge& judge);

}  // namespace casebound
