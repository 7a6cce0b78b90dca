#pragma once
// What shakes a mount and what it carries: given by hand, or looked up for the vehicle's line. A looked-up value
// keeps its row as source; a value nobody gives stays open.

#include <optional>
#include <string>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::mounts {

struct Known {
    double value;
    SourceNote source;
};

struct EngineLoad {
    std::optional<Known> carried_kg, cylinders, idle_rpm, figure_mm;
    std::vector<std::string> assumptions;  // "from the row where drive=4wd"
};

// Inputs `carried`, `cylinders`, `idle`, `figure` and `position`, as far as the inquiry has them; what is not given
// comes from mounts_loads, when its rows that may apply agree. Rows that disagree give nothing and say so.
EngineLoad engine_load(const Given& given, const Services& services);

std::optional<double> firing_hz(const EngineLoad& load);

}  // namespace casebound::mounts
