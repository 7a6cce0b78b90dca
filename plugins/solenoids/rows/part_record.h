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
inline std::optional<PartRecord> part_of_group(const Facts& facts, std::string_view group) {
    const auto& rows = facts.rows("solenoids_parts", "group_key", group);
    if (rows.empty()) return std::nullopt;
    const Row& row = rows.front();
    PartRecord part{std::string(group), std::string(row.text("kind")), std::string(row.text("grade"))};
    const auto low = row.number("ohm_20_low"), high = row.number("ohm_20_high");
    if (low && high) part.ohm_20 = OhmLimits{*low, *high};
    part.o_rings = row.number("o_rings");
    part.nose_mm = row.number("nose_mm");
    part.connector_pins = row.number("connector_pins");
    if (row.stated("screen")) part.screen = row.yes("screen");
    part.origin = row.origin;
    return part;
}

// "11 to 16 ohm"
inline std::string ohm_range_text(OhmLimits limits) {
    return number_text(limits.low) + " to " + number_text(limits.high) + " ohm";
}

// No resistance lies within both.
inline bool apart(OhmLimits a, OhmLimits b) { return a.low > b.high || b.low > a.high; }

}  // namespace casebound::solenoids
