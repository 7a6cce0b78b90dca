// The synthetic domain as a plugin, for measuring the pages over a large catalog.
#include "core/contract/plugin.h"
#include "tests/bench/synthetic_domain.h"

namespace casebound::bench {

const Domain& instance() {
    static const SyntheticDomain domain;
    return domain;
}

}  // namespace casebound::bench

CASEBOUND_MANIFEST("bench", casebound::bench::instance)
