#pragma once
// Where an engine may be lifted, as instructions recorded for a configuration.
// Makers differ: one forbids a jack under the oil pan, others show a wood block
// there. Conflicting instructions are shown side by side and never merged, and
// silence is never permission.

#include <string>
#include <string_view>
#include <vector>

namespace casebound::mounts {

struct LiftInstruction {
    std::string point;  // "oil pan", "lifting eye", "crank pulley"
    bool allowed;
    std::string text;  // how the source puts it, shortened
    std::string source;
};

enum class LiftPermission {
    allowed,
    forbidden,
    cannot_tell,   // instructions conflict: both are in `instructions`
    not_recorded,  // find out; do not assume
};

struct LiftPointAnswer {
    LiftPermission permission;
    std::vector<LiftInstruction> instructions;  // those about this point, in order given
};

// Names are compared exactly. Give only the instructions that apply to the
// configuration; this function does not know configurations.
LiftPointAnswer lift_at(std::string_view point, const std::vector<LiftInstruction>& instructions);

// Every recorded point, sorted by name, each with its own answer.
std::vector<LiftPointAnswer> lift_points(const std::vector<LiftInstruction>& instructions);

}  // namespace casebound::mounts
