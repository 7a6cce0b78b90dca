#pragma once
// A small permanent-magnet motor by what a meter shows, and a stepper by what it counts. At rest the winding alone
// limits the current, I = U / R; turning, the motor generates against the supply: E = U - I R.

#include <cstdint>

namespace casebound::actuators {

// A. Refuses a supply outside 1 to 32 V and a winding outside 0.5 to 5000 ohm.
double stall_a(double supply_v, double winding_ohm);

// V generated against the supply: 0 when it stands, nearly the supply when it runs light. Below zero the reading of
// volts, ohms or amperes is off, or the winding is shorted in part.
double back_emf_v(double supply_v, double current_a, double winding_ohm);

enum class Draws : std::uint8_t { nothing, turning, held, too_much };
// From memory, of the stall current: below 2 % nothing flows, from 80 % on it stands, from 130 % on the winding has a
// short. Brushes and leads make the rest uncertain.
Draws draws(double supply_v, double current_a, double winding_ohm);

// Steps of a stepper for a travel of the shaft: travel x reduction / step angle. Refuses a step angle outside 0.1 to 90
// degrees, a reduction outside 1 to 5000 and a travel outside 0 to 720.
double steps_for(double travel_deg, double step_angle_deg, double reduction);

// s, at a rate in steps a second, 1 to 5000.
double seconds_for(double steps, double steps_per_s);

}  // namespace casebound::actuators
