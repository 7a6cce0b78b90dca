#include "science/motor.h"

#include "core/contract/valid_range.h"

namespace casebound::actuators {

double stall_a(double supply_v, double winding_ohm) {
    return in_range("supply", supply_v, 1, 32, "V") / in_range("winding", winding_ohm, 0.5, 5000, "ohm");
}

double back_emf_v(double supply_v, double current_a, double winding_ohm) {
    in_range("supply", supply_v, 1, 32, "V");
    in_range("winding", winding_ohm, 0.5, 5000, "ohm");
    return supply_v - in_range("current", current_a, 0, 20, "A") * winding_ohm;
}

Draws draws(double supply_v, double current_a, double winding_ohm) {
    const double share = in_range("current", current_a, 0, 20, "A") / stall_a(supply_v, winding_ohm);
    if (share < 0.02) return Draws::nothing;
    if (share < 0.8) return Draws::turning;
    return share < 1.3 ? Draws::held : Draws::too_much;
}

double steps_for(double travel_deg, double step_angle_deg, double reduction) {
    above("travel", travel_deg, 0, 720, "deg");
    in_range("step angle", step_angle_deg, 0.1, 90, "deg");
    return travel_deg * in_range("reduction", reduction, 1, 5000) / step_angle_deg;
}

double seconds_for(double steps, double steps_per_s) {
    return steps / in_range("rate", steps_per_s, 1, 5000, "steps/s");
}

}  // namespace casebound::actuators
