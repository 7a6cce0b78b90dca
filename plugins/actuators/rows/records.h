#pragma once
// Actuators as packs record them, the one that the vehicle shows, and the rows of a line at one place. A cell that is
// not stated stays unknown.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/actuator.h"

namespace casebound::actuators {

inline constexpr const char* motors_table = "actuators_door_motors";

Actuator actuator_of_row(const Row& row);

// What is known of the actuator at a place, and the weakest that it rests on.
struct SeenThere {
    Actuator part;
    std::optional<SourceNote> source{};
};
SeenThere actuator_seen(const VehicleView* vehicle, Place place);

// Rows of the vehicle's line at that place, or of its function, or, where the row names none, of every actuator.
std::vector<HeldRow> rows_at(const Services& services, std::string_view table, Place place);

// "battery off, then wait 10 min before anything beside an airbag", the maker's; or that it is not recorded. Nothing
// where no way in to that place lies beside one.
struct AirbagWait {
    std::optional<double> minutes{};
    std::string text;
    SourceNote source{};
};
std::optional<AirbagWait> airbag_wait(const Services& services, Place place);

}  // namespace casebound::actuators
