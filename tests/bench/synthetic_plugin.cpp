// The synthetic domain as a plugin, for measuring the pages over a large catalog.
#include "core/contract/plugin.h"
#include "tests/bench/synthetic_domain.h"

CASEBOUND_MANIFEST("bench", casebound::instance_of<casebound::bench::SyntheticDomain>)
