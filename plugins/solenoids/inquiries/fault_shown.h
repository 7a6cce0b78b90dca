#pragma once
// What `fault` is asked with, and its lines that only repeat what was seen, each with how it is known. Concludes
// nothing.

#include "core/contract/plugin.h"
#include "science/seen.h"

namespace casebound::solenoids {

std::vector<Input> fault_inputs();

void show_seen(Answer& answer, const GearboxFamily& family, const Seen& seen);

}  // namespace casebound::solenoids
