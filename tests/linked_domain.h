// The domain that a test program links, as core would meet it.
#pragma once

#include "core/contract/plugin.h"

extern "C" const casebound::Manifest casebound_manifest;

namespace casebound {

inline const Domain& instance() { return casebound_manifest.domain_instance(); }

}  // namespace casebound
