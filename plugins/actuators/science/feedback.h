#pragma once
// Where an actuator says it stands: a share of the reference voltage, between two stops. A track across a steady
// reference divides it in proportion to where its wiper stands, so only the share counts, not the volts.

#include <cstdint>
#include <optional>

namespace casebound::actuators {

// % of the reference. Refuses a reference outside 1 to 32 V and a signal below 0 or more than 2 % above the reference:
// measured between other pins.
double share_pct(double signal_v, double reference_v);

// 0 at the first stop, 100 at the last; outside that it stands beyond a stop. Refuses stops less than 5 % apart: no
// track has them so close, from memory.
double position_pct(double share, double first_pct, double last_pct);

// Nearer to an end of the track than this no stop lies, so the wire is broken or shorted: from memory.
inline constexpr double dead_end_pct = 2;
// How far command and position may be apart when it has come to rest: from memory. A maker's figure replaces it.
inline constexpr double rest_within_pct = 5;

enum class Stand : std::uint8_t { where_commanded, short_of_it, past_it, beyond_a_stop, no_signal };
Stand stand_of(double share, double position, std::optional<double> command_pct);

// Degrees of travel between two shares, where `first_pct` to `last_pct` is `travel_deg`.
double turned_deg(double from_share, double to_share, double first_pct, double last_pct, double travel_deg);

}  // namespace casebound::actuators
