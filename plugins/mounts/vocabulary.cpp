#include "vocabulary.h"

#include "core/attribute_rows.h"

namespace casebound::mounts {
namespace {

using Kind = ValueKind;

// The three yes-or-no columns of an attribute, by name.
constexpr bool raised = true, on_wheels = false;
constexpr bool opened = true, closed = false;
constexpr bool finding = true, identity = false;

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> identities() {
    return {
        {"mount_kind", "kind of the engine mounts", Kind::choice, "", 0,
         "Look from above with a torch: rubber block (solid), closed cup (hydraulic), cup with hose or plug (switched).",
         6, on_wheels, closed, identity,
         {"solid", "hydraulic", "switched_vacuum", "switched_electric", "active"}},
        {"mount_hose", "vacuum hose at an engine mount", Kind::yes_no, "", 0,
         "Feel around each engine mount for a thin hose or its stub.", 4, on_wheels, closed, identity, {}},
        {"mount_plug", "electric plug at an engine mount", Kind::yes_no, "", 0,
         "Feel around each engine mount for a plug.", 4, on_wheels, closed, identity, {}},
        {"mount_bracket", "bracket of the engine mounts", Kind::choice, "", 0,
         "Look whether mount and bracket are one piece (integral) or bolted together (separate).",
         5, on_wheels, closed, identity, {"integral", "separate"}},
        within(4, 30, {"mount_stud", "thread of the mount stud, 10 for M10", Kind::number, "mm", 0.3,
         "Measure the stud's thread with a calliper or a thread gauge.", 8, raised, closed, identity, {}}),
        within(3, 250, {"mount_stud_length", "free length of the mount stud", Kind::number, "mm", 1,
         "Take the mount off and measure the stud above its plate.", 60, raised, opened, identity, {}}),
        {"mount_pin", "locating pin on the mount", Kind::yes_no, "", 0,
         "Look with a mirror beside the stud for a pin and its hole.", 8, raised, closed, identity, {}},
        counted(1, 16, {"gearbox_mount_bolts", "bolts of the gearbox mount", Kind::number, "", 0,
         "Count the bolts from below between mount and crossmember.", 3, raised, closed, identity, {}}),
        {"torque_mount_fitted", "torque mount fitted", Kind::yes_no, "", 0,
         "Look for a link between engine and body, above or below.", 3, on_wheels, closed, identity, {}},
    };
}

std::vector<Attribute> findings() {
    return {
        {"mount_leak", "fluid at an engine mount", Kind::choice, "", 0,
         "Look for black wet streaks under each mount.", 5, on_wheels, closed, finding,
         {"dry", "left", "right", "both"}},
        {"idle_shake", "shake at idle", Kind::choice, "", 0,
         "Warm engine, brake held: neutral, then drive.", 4, on_wheels, closed, finding,
         {"smooth", "in_gear", "in_neutral", "always"}},
        usually(450, 1200, within(50, 12000, {"idle_speed", "idle speed in gear", Kind::number, "rpm", 20,
         "Read it with a code reader; misfire and low idle imitate a mount.", 4, on_wheels, closed, finding, {}})),
        {"misfire", "misfire", Kind::yes_no, "", 0,
         "Read misfire counters, or listen at the exhaust.", 5, on_wheels, closed, finding, {}},
        {"shift_clunk", "clunk from drive to reverse", Kind::yes_no, "", 0,
         "Brake held, nobody in the path: drive, neutral, reverse.", 3, on_wheels, closed, finding, {}},
        within(1, 2000, {"engine_height_left", "engine height, left", Kind::number, "mm", 1,
         "Measure from a fixed point of the body to the engine, left.", 6, on_wheels, closed, finding, {}}),
        within(1, 2000, {"engine_height_right", "engine height, right", Kind::number, "mm", 1,
         "Measure from the mirrored point of the body to the engine, right.", 6, on_wheels, closed, finding, {}}),
        {"mount_rubber", "state of the mount rubber", Kind::choice, "", 0,
         "Look with a torch; lever gently and watch for a gap.", 8, raised, closed, finding,
         {"sound", "cracked", "separated", "split"}},
    };
}

std::vector<ItemKind> item_kinds() {
    return {
        {"engine-mount", "engine mount", "each"},
        {"gearbox-mount", "gearbox mount", "each"},
        {"torque-mount", "torque mount", "each"},
        {"mount-bracket", "mount bracket", "each"},
        {"mount-bolt", "mount bolt", "each"},
        {"mount-nut", "mount nut", "each"},
        {"mount-hose", "vacuum hose of a mount", "each"},
    };
}

std::vector<Role> roles() {
    return {
        {"engine-mount-left", "engine mount, left", "engine-mount", false},
        {"engine-mount-right", "engine mount, right", "engine-mount", false},
        {"engine-mount-front", "engine mount, front", "engine-mount", false},
        {"engine-mount-rear", "engine mount, rear", "engine-mount", false},
        {"gearbox-mount", "gearbox mount", "gearbox-mount", false},
        {"torque-mount", "torque mount", "torque-mount", false},
        {"mount-bracket-left", "mount bracket, left", "mount-bracket", false},
        {"mount-bracket-right", "mount bracket, right", "mount-bracket", false},
        {"engine-mount-bolts", "engine mount bolts", "mount-bolt", false},
        {"engine-mount-nuts", "engine mount nuts", "mount-nut", false},
        {"gearbox-mount-bolts", "gearbox mount bolts", "mount-bolt", false},
        {"torque-mount-bolts", "torque mount bolts", "mount-bolt", false},
        {"mount-hose", "mount vacuum hose", "mount-hose", false},
    };
}

}  // namespace

Vocabulary vocabulary() {
    Vocabulary words{identities(), item_kinds(), roles()};
    const auto more = findings();
    words.attributes.insert(words.attributes.end(), more.begin(), more.end());
    return words;
}

}  // namespace casebound::mounts
