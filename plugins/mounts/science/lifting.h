#pragma once
// How far an engine must be raised to free a mount, against the room there is, and where it may be lifted, as
// instructions recorded for a configuration. Clearances are the person's own measurements; one that is missing keeps
// the answer open. Makers differ: one forbids a jack under the oil pan, others show a wood block there. Conflicting
// instructions are shown side by side and never merged, and silence is never permission.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::mounts {

// Stud engagement plus 5 to 10 mm: common practice, no source.
struct LiftNeed {
    double least_mm;
    double comfortable_mm;
};

// stud_engagement_mm 0 to 200.
LiftNeed lift_needed_mm(double stud_engagement_mm);

struct Clearance {
    std::string what;                    // "fan to shroud", "upper hose"
    std::optional<double> room_mm = {};  // 0 to 1000; nothing = not measured yet
};

// What is usually in the way, as a list to measure: common practice, no source.
std::vector<Clearance> clearances_to_measure();

enum class LiftVerdict {
    enough,       // every clearance is at least the comfortable lift
    tight,        // the smallest lies between the least and the comfortable lift
    not_enough,   // some clearance is below the least lift: release that part first
    cannot_tell,  // nothing measured is too small, but something is not measured
};

struct LiftAnswer {
    LiftVerdict verdict;
    LiftNeed need;
    std::optional<Clearance> smallest = {};  // among those measured; first of equals
    std::vector<std::string> release;        // clearances below the least lift
    std::vector<std::string> not_measured;
};

// An empty list is "cannot tell", never "enough".
LiftAnswer lift_answer(double stud_engagement_mm, const std::vector<Clearance>& clearances);

// ---------------------------------------------------------------- where to lift

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
