#pragma once
// How much old fluid is left after drain-and-fills or a continuous exchange.
// Plain dilution arithmetic (common practice, no source) that assumes full
// mixing: drive between changes, or mixing has not happened. Never guesses what
// share one drain takes out; published shares run from a third to 60 %, so both
// volumes must be told.
#include <vector>

namespace casebound::transmission_fluids {

// Share of old fluid, 0 to 1, after `changes` drains of drained_l out of
// total_l, each refilled. Refuses a drain of nothing and one above the total.
double old_fluid_left(double total_l, double drained_l, int changes);

// The same after 1, 2 ... changes.
std::vector<double> old_fluid_after_each(double total_l, double drained_l, int changes);

// Fewest changes that leave at most target_old (0 < target_old <= 1) of the old
// fluid.
int changes_for_target(double total_l, double drained_l, double target_old);

// Exchange by machine while the unit runs. The truth lies between the two.
struct ContinuousExchange {
    double worst_old;  // new fluid mixes at once: exp(-exchanged / total)
    double best_old;   // new fluid pushes the old out: 1 - exchanged / total, not below 0
};
ContinuousExchange continuous_exchange(double total_l, double exchanged_l);

// Volume to exchange so that even the worst case leaves at most target_old.
double exchange_for_target_l(double total_l, double target_old);

}  // namespace casebound::transmission_fluids
