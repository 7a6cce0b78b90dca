#pragma once
// Torque units and torque-angle tightening kept as stages, in order. It never
// adds stages together: two turns of 60 and 30 degrees are not one of 90. It
// knows no torque of any vehicle.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::mounts {

// Exact: lbf 4.4482216152605 N (lb 0.45359237 kg, g 9.80665), inch 0.0254 m.
inline constexpr double nm_per_lbf_in = 0.1129848290276167;
inline constexpr double nm_per_lbf_ft = 1.3558179483314004;

enum class StageKind { torque, angle };

struct Stage {
    StageKind kind;
    double amount;  // N·m (0.1 to 2000) or degrees (1 to 720), by kind
};
bool operator==(const Stage& a, const Stage& b);

Stage torque_stage(double torque_nm);
Stage angle_stage(double angle_deg);

// "27 N·m + 60° + 30°". Also reads N m, N.m, Nm, deg, lbf in, in.lb, lbf ft, ft.lb;
// torques come out in N·m. Nothing when the text is not such a list, when a
// number has no unit, or when an angle stands first. Throws std::domain_error
// on an amount outside the ranges above.
std::optional<std::vector<Stage>> read_stages(std::string_view text);
std::string stages_text(const std::vector<Stage>& stages);

// Torque plus angle takes a bolt towards plastic stretch: on a removed bolt,
// "new bolt unless the data say reuse" (trade texts; no standard seen).
bool wants_new_bolts(const std::vector<Stage>& stages);

}  // namespace casebound::mounts
