#pragma once
// What is known of the mounts on a vehicle: kinds still possible, hose and plug, as told or as the line's
// configurations leave it. It never concludes a kind from the age or title of a vehicle.

#include <string>
#include <vector>

#include "core/contract/services.h"
#include "science/mount_kind.h"

namespace casebound::mounts {

// The attributes mount_kind, mount_hose, mount_plug, mount_stud, mount_pin and mount_bracket are looked at on the
// mounts that carry the engine; they say nothing of the gearbox mount or the torque mount.
bool carries_engine(Position position);

// The connection as told or left; unknown unless looked for on both counts, or one was found.
Connection connection_seen(const VehicleView* vehicle);

// Kind and connection of the mount in this position, as far as known.
Mount mount_seen(const VehicleView* vehicle, Position position);

// One thing the vehicle may show, as a condition that core can meet, and the mount that would then be wanted.
struct Sight {
    std::string condition, attribute;
    Mount wanted;
};
std::vector<Sight> sights(const VehicleView& vehicle, Position position);

}  // namespace casebound::mounts
