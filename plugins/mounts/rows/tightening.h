#pragma once
// How the fasteners of a mount are tightened, as recorded for the vehicle. Knows no torque of its own.

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/mount_kind.h"

namespace casebound::mounts {

// "2 x M10 bolt": "40 N·m + 60°; new each time where drive=4wd", with its row.
Fastener fastener_of(const HeldRow& row);

// Rows of mounts_fasteners that hold on the vehicle or may; of every position when it is unknown.
std::vector<HeldRow> fasteners_at(const Services& services, Position position);

// Nothing recorded leaves the fasteners empty; bolts, brackets and hoses are listed with their mount.
Tightening tightening(std::string_view role, const Services& services);

}  // namespace casebound::mounts
