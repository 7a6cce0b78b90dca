// One pass of a pack through everything: files, cells, keys, words, conditions, rules, dependents, and, when all
// is sound, the catalog and the domains' own checks. Inside one transaction, committed only by load.
#pragma once

#include <string>

#include "core/pack/pack.h"

namespace casebound {

enum class PackGoal : std::uint8_t { check, seal, load };

PackReport run_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins, PackGoal goal);

}  // namespace casebound
