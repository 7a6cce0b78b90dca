// The words of this domain: item kinds, roles by function, and what can be found out about a gearbox's
// solenoids and their circuits. How to find out and the minutes it takes: common practice, no source.
// Never declares a word of core (gearbox, gearbox_tag, ...), and no word of another domain.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::solenoids {

casebound::Vocabulary vocabulary();

}  // namespace casebound::solenoids
