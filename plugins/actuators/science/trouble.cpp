#include "science/trouble.h"

namespace casebound::actuators {
namespace {

// What the motor shows off its door, or where it stands.
Suspect of_motor(const Seen& seen) {
    const bool no_supply = seen.supplied.has_value() && !*seen.supplied;
    switch (seen.bench) {
        case Bench::slips: return Suspect::stripped_gear;
        case Bench::still: return Suspect::dead_motor;  // on the bench it has its own supply
        case Bench::turns:
            if (no_supply) return Suspect::wiring;
            if (!seen.feedback_follows) return Suspect::feedback_next;
            return *seen.feedback_follows ? Suspect::not_the_actuator : Suspect::feedback_lost;
        case Bench::not_tried: break;
    }
    if (no_supply) return Suspect::wiring;
    if (!seen.supplied.value_or(false)) return Suspect::bench_it;
    if (seen.winding_open.value_or(false)) return Suspect::motor_by_meter;
    return Suspect::bench_it;
}

}  // namespace

Suspect suspect_of(const Seen& seen) {
    if (seen.door == Door::stuck || seen.door == Door::stiff) return Suspect::door_stuck;
    if (seen.door == Door::hangs_loose) return Suspect::door_broken;
    if (seen.after_battery.value_or(false) && seen.bench == Bench::not_tried) return Suspect::teach_first;
    if (seen.door == Door::not_tried) {
        if (seen.supplied.has_value() && !*seen.supplied && seen.bench == Bench::not_tried) return Suspect::wiring;
        return Suspect::try_the_door;
    }
    return of_motor(seen);
}

}  // namespace casebound::actuators
