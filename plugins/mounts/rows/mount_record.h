#pragma once
// Mounts as packs record them and as the vehicle shows them, in the terms of mount_kind.h. A cell that is not
// stated stays unknown; nothing is guessed from a part number or a title.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/mount_kind.h"

namespace casebound::mounts {

struct MountRecord {
    Mount mount;
    std::optional<double> natural_hz, damping_ratio;
    Origin origin;
};

// Nothing when the group, or every group of the item, is in no row of mounts_mounts.
std::optional<MountRecord> mount_of_group(const Facts& facts, std::string_view group_or_item);
MountRecord mount_of_row(const Row& row);

// Words of packs and of the command line; unknown for anything else.
Position position_from(std::string_view text);
Kind kind_from(std::string_view text);
Connection connection_from(std::string_view text);
Bracket bracket_from(std::string_view text);
std::string position_key(Position position);  // "left"
std::string kind_key(Kind kind);              // "switched_vacuum"

std::vector<std::string> position_choices();
std::vector<std::string> kind_choices();

// unknown for a role that is no mount.
Position position_of_role(std::string_view role);
std::string role_of_position(Position position);

// A kind the vehicle shows, with the connection that goes with it: "hydraulic" there means that hose and plug were
// looked for and not found.
Mount mount_shown(Position position, Kind kind);

}  // namespace casebound::mounts
