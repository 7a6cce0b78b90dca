#include "science/feedback.h"

#include <cmath>

#include "core/contract/valid_range.h"

namespace casebound::actuators {

double share_pct(double signal_v, double reference_v) {
    in_range("reference", reference_v, 1, 32, "V");
    if (signal_v < 0 || signal_v > 1.02 * reference_v)
        refuse("signal", with_unit(signal_v, "V"),
               "0 V to the reference, " + with_unit(reference_v, "V") +
                   ": measure signal and reference against the same minus pin");
    return 100 * signal_v / reference_v;
}

double position_pct(double share, double first_pct, double last_pct) {
    in_range("first stop", first_pct, 0, 100, "%");
    in_range("last stop", last_pct, 0, 100, "%");
    if (std::abs(last_pct - first_pct) < 5)
        refuse("stops", number_text(first_pct) + " and " + with_unit(last_pct, "%"), "at least 5 % apart");
    return 100 * (share - first_pct) / (last_pct - first_pct);
}

Stand stand_of(double share, double position, std::optional<double> command_pct) {
    if (share < dead_end_pct || share > 100 - dead_end_pct) return Stand::no_signal;
    if (position < -rest_within_pct || position > 100 + rest_within_pct) return Stand::beyond_a_stop;
    if (!command_pct || std::abs(position - *command_pct) <= rest_within_pct) return Stand::where_commanded;
    return position < *command_pct ? Stand::short_of_it : Stand::past_it;
}

double turned_deg(double from_share, double to_share, double first_pct, double last_pct, double travel_deg) {
    above("travel", travel_deg, 0, 720, "deg");
    return std::abs(position_pct(to_share, first_pct, last_pct) - position_pct(from_share, first_pct, last_pct)) / 100 *
           travel_deg;
}

}  // namespace casebound::actuators
