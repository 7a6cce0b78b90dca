// Which rows of the catalog hold on a partly known vehicle. Reads the condition language over the values that each
// attribute still has. Says "open" whenever it cannot be sure, also for a unit other than the attribute's own:
// never takes a row for granted.
#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

enum class Holds { no, open, yes };

// yes: on every configuration left. no: on none. An empty condition always holds.
Holds holds_on(std::string_view condition, const VehicleView& vehicle);

struct HeldRow {
    Row row;
    Holds holds;
};

// Rows of the vehicle's line whose condition is not ruled out, in file order; none without a vehicle.
std::vector<HeldRow> rows_on_vehicle(const Services& services, std::string_view table);

}  // namespace casebound::transmission_fluids
