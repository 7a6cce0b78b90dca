// The words of this domain: item kinds, roles, and what can be found out about a vehicle's fluid.
// How to find out and the minutes it takes: common practice, no source.
// Never declares a word of core (year, gearbox, cooler, ...), and no word of another domain.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

casebound::Vocabulary vocabulary();

}  // namespace casebound::transmission_fluids
