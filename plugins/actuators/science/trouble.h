#pragma once
// What clicks, stays silent or sends warm air to one side only: a stuck door, a broken lever, a stripped gear, a dead
// motor, a lost feedback, a wire, or nothing but stops that were never taught. Common practice, no source. Condemns no
// motor whose door nobody has turned by hand: a stuck door kills the next one.

#include <cstdint>
#include <optional>

namespace casebound::actuators {

enum class Door : std::uint8_t { not_tried, moves_freely, stiff, stuck, hangs_loose };
enum class Bench : std::uint8_t { not_tried, turns, slips, still };  // off its door, supplied at its own plug
enum class Sound : std::uint8_t { not_said, silent, clicks, hums, moves };

struct Seen {
    Door door = Door::not_tried;
    Bench bench = Bench::not_tried;
    Sound sound = Sound::not_said;
    std::optional<bool> after_battery{};     // began when the battery was off, or an actuator was changed
    std::optional<bool> supplied{};          // volts at the plug while it is told to move
    std::optional<bool> winding_open{};      // no continuity, whichever way the shaft stands
    std::optional<bool> feedback_follows{};  // the share changes while the shaft turns
    std::optional<bool> held{};              // draws its stall current
};

enum class Suspect : std::uint8_t {
    door_stuck,        // by hand, with the actuator off
    door_broken,       // lever or pin: the actuator turns nothing
    teach_first,       // sound before the battery was off
    wiring,            // nothing arrives at the plug
    stripped_gear,     // turns on the bench and slips, or the motor runs and the shaft does not
    dead_motor,        // supplied and still, off its door
    motor_by_meter,    // volts arrive and no continuity: what is enough of them is from memory
    feedback_lost,     // turns, and says that it does not
    feedback_next,     // turns, and nobody has looked whether it says so
    not_the_actuator,  // turns and says so
    bench_it,          // the door is free; what the motor does off its door decides
    try_the_door       // nothing that decides was looked at
};

Suspect suspect_of(const Seen& seen);

// May an actuator be ordered for what was found?
constexpr bool speaks_for_the_actuator(Suspect suspect) {
    return suspect == Suspect::stripped_gear || suspect == Suspect::dead_motor || suspect == Suspect::feedback_lost;
}

// Volts at the plug, under load, from which on a 12 V actuator counts as supplied: from memory.
inline constexpr double supplied_from_v = 9;

}  // namespace casebound::actuators
