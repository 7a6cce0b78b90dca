#pragma once
// A solenoid, block or harness as packs record its body: what to compare at the bench. Nothing is guessed from a
// part number or a title.

#include <optional>
#include <string>
#include <string_view>

#include "core/contract/plugin.h"
#include "science/resistance.h"

namespace casebound::solenoids {

struct PartRecord {
    std::string group, kind, grade;
    std::optional<OhmLimits> ohm_20 = {};
    std::optional<double> o_rings = {}, nose_mm = {}, connector_pins = {};
    std::optional<bool> screen = {};
    Origin origin{};
};

// Nothing when the group is in no row of solenoids_parts.
std::optional<PartRecord> part_of_group(const Facts& facts, std::string_view group);

// "11 to 16 ohm"
std::string ohm_range_text(OhmLimits limits);

// No resistance lies within both.
bool apart(OhmLimits a, OhmLimits b);

}  // namespace casebound::solenoids
