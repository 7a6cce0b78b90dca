#include "rows/part_record.h"

namespace casebound::solenoids {

std::optional<PartRecord> part_of_group(const Facts& facts, std::string_view group) {
    const auto& rows = facts.rows("solenoids_parts", "group_key", group);
    if (rows.empty()) return std::nullopt;
    const Row& row = rows.front();
    PartRecord part{std::string(group), std::string(row.text("kind")), std::string(row.text("grade"))};
    const auto low = row.number("ohm_20_low"), high = row.number("ohm_20_high");
    if (low && high) part.ohm_20 = OhmLimits{*low, *high};
    part.o_rings = row.number("o_rings");
    part.nose_mm = row.number("nose_mm");
    part.connector_pins = row.number("connector_pins");
    if (!row.text("screen").empty()) part.screen = row.text("screen") == "yes";
    part.origin = row.origin;
    return part;
}

std::string ohm_range_text(OhmLimits limits) {
    return number_text(limits.low) + " to " + number_text(limits.high) + " ohm";
}

bool apart(OhmLimits a, OhmLimits b) { return a.low > b.high || b.low > a.high; }

}  // namespace casebound::solenoids
