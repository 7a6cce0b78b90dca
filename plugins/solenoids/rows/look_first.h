#pragma once
// What imitates a bad solenoid and costs little to look at. From the catalog where it is recorded, else a list of
// common practice. It orders nothing.

#include <string>
#include <vector>

#include "core/contract/plugin.h"
#include "science/cause.h"

namespace casebound::solenoids {

struct LookFirst {
    std::string what, how;
    double minutes;
    Cause cause;  // where the fault would then be
    SourceNote source;
};

std::vector<LookFirst> look_first(const Facts& facts);

}  // namespace casebound::solenoids
