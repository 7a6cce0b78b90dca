// What a parts list rests on that somebody only remembers, and hearsay that what stands in needs. Decides nothing.
#pragma once

#include "core/verdict/list_line.h"

namespace casebound {

// Adds to list.hearsay, and weakens list.weakest, by what one line rests on.
void add_what_is_remembered(PartsList& list, const ListLine& line, const Places& places);

}  // namespace casebound
