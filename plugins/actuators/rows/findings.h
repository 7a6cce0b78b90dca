#pragma once
// What was told of an actuator, in the terms of science/trouble.h; which of it speaks of trouble; which orders wait.

#include <optional>
#include <vector>

#include "core/contract/plugin.h"
#include "science/actuator.h"
#include "science/trouble.h"

namespace casebound::actuators {

struct ToldTrouble {
    Seen seen;
    std::optional<Place> place{};  // the actuator that was looked at
    SourceNote source;             // the weakest of what was told
    bool any{};                    // something speaks of trouble, or was looked at
};
ToldTrouble trouble_told(const VehicleView* vehicle);

Door door_from(std::string_view text);
Bench bench_from(std::string_view text);
Sound sound_from(std::string_view text);

Findings findings(const Services& services);

// No actuator is ordered where what was told names another, and none for a trouble that was told until the door was
// turned by hand and the motor was seen to fail, and until what keeps the air cold by itself is ruled out: common
// practice, no source.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::actuators
