#pragma once
// The lines of `fault` that only repeat what was seen, each with how it is known. Concludes nothing.

#include "core/contract/plugin.h"
#include "science/seen.h"

namespace casebound::solenoids {

void show_seen(Answer& answer, const GearboxFamily& family, const Seen& seen);

}  // namespace casebound::solenoids
