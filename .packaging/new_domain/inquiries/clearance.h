// `casebound new_domain clearance`: how much room a part has.
#pragma once

#include "core/contract/plugin.h"

namespace casebound::new_domain {

Inquiry clearance();

}  // namespace casebound::new_domain
