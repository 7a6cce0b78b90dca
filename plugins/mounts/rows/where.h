#pragma once
// Whether the condition of a catalog row holds on what is still possible of a vehicle. Three-valued: a row that
// may or may not apply is shown with its condition, never silently used or dropped. It judges each term by
// itself, so "no" and "yes" are certain and "cannot tell" may be too cautious.

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::mounts {

enum class Applies { yes, no, cannot_tell };

// The condition language of packs: `attribute=a|b; year=2004..2008; not drive=4wd`. Without a vehicle only an
// empty condition is a yes. An attribute the line does not have cannot be told.
Applies applies(std::string_view condition, const VehicleView* vehicle);

// Rows of `table` for the vehicle's line that are not ruled out, those that may or may not apply included.
// Empty without a vehicle.
std::vector<Row> rows_of_line(const Services& services, std::string_view table);

// "where drive=4wd" for a row that may or may not apply, else "".
std::string where_text(const Row& row, const VehicleView* vehicle);

}  // namespace casebound::mounts
