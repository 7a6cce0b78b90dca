// The domain as core and tests meet it: one object, made when it is first asked for.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

const Domain& instance();

}  // namespace casebound::transmission_fluids
