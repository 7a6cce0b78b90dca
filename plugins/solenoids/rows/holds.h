#pragma once
// Orders that must wait: a solenoid, block, harness or sensor that nothing told speaks for while a fault is being
// looked for, and what must be programmed before anybody can. A hold says why and what lifts it; it never releases.

#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::solenoids {

// One hold for each reason, with all roles that it concerns; none while nothing told speaks of trouble and nothing has
// to be programmed.
std::vector<Hold> holds(const Services& services);

// A solenoid that waits while a fault is being looked for: its order is held, and as long as connector or feed stand in
// the way of every reading its verdict is in doubt as well.
struct Waiting {
    std::string gearbox, reason, until;
    bool in_doubt{};
    std::vector<std::string> untested;  // of feed and connector
    SourceNote source{};
};
std::vector<Waiting> waiting(std::string_view role, const Services& services);

// A calibration code that somebody has read off the tag: none is told, several are possible, or "unreadable" is not
// one.
bool code_is_read(const VehicleView& vehicle);

}  // namespace casebound::solenoids
