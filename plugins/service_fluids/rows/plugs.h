#pragma once
// How drain plugs and screwed filters are tightened, as recorded. Computes no torque: a plug sits in a thin pan.

#include <string_view>

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

Tightening tightening(std::string_view role, const Services& services);

}  // namespace casebound::service_fluids
