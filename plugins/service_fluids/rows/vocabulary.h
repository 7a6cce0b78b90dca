#pragma once
// The words of the domain: what can be found out about oil, coolant, filter and plugs, and how; kinds and places.

#include "core/contract/plugin.h"

namespace casebound::service_fluids {

Vocabulary vocabulary();

}  // namespace casebound::service_fluids
