#pragma once
// What there is to say of a link, a bush or a nut offered for a place: what was measured against what is recorded,
// what must be new, the pair, and the last turn at ride height. Only ever lowers a verdict.

#include "core/contract/plugin.h"

namespace casebound::stabilisers {

Examination examine(const Candidate& candidate, const Services& services);

}  // namespace casebound::stabilisers
