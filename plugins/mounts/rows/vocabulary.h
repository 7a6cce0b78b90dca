// The words of this domain: item kinds, roles, and what can be found out about engine and gearbox mounts.
// How to find out and the minutes it takes: common practice, no source.
// Never declares a word of core (engine, drive, body, ...), and no word of another domain.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::mounts {

casebound::Vocabulary vocabulary();

}  // namespace casebound::mounts
