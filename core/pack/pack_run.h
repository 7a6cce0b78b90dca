// One pass of a pack through everything: files, cells, keys, words, conditions, rules, dependents, and, when all
// is sound, the catalog and the domains' own checks. Inside one transaction, committed only by load.
#pragma once

#include <cstdint>
#include <string>

#include "core/host/plugin_host.h"
#include "core/pack/pack_report.h"

namespace casebound {

enum class PackGoal : std::uint8_t { check, seal, load };

PackReport run_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins, PackGoal goal);

}  // namespace casebound
