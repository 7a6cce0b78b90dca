#pragma once
// The domain as core and tests meet it: one object, made when first asked for, never destroyed before the program ends.

#include "core/contract/plugin.h"

namespace casebound::solenoids {

const Domain& instance();

}  // namespace casebound::solenoids
