// Loops that may not be: of `supersedes`, and of a kit that contains itself through groups, at any depth.
// Looks across all packs; prints the loop.
#pragma once

#include "core/pack/loaded_packs.h"
#include "core/pack/pack_check.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"

namespace casebound {

void check_supersedes_loops(PackData& data, LoadedPacks& others, FaultList& faults);
void check_kit_loops(const PackShape& shape, PackData& data, LoadedPacks& others, ItemKinds& kinds, FaultList& faults);

}  // namespace casebound
