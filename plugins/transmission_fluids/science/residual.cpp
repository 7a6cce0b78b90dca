#include "science/residual.h"

#include <algorithm>
#include <cmath>

#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

constexpr double highest_total_l = 200;
constexpr int highest_changes = 1000;
constexpr double smallest_target = 1e-6;
constexpr double rounding_slack = 1e-12;  // 0.5 * 0.5 must count as a quarter

double kept_share(double total_l, double drained_l) {
    above("total volume", total_l, 0, highest_total_l, "L");
    above("drained volume", drained_l, 0, total_l, "L");
    return 1 - drained_l / total_l;
}

void check_changes(int changes) { in_range("number of changes", changes, 0, highest_changes, ""); }

void check_target(double target_old) { in_range("share of old fluid aimed at", target_old, smallest_target, 1, ""); }

bool reaches(double kept, int changes, double target_old) {
    return std::pow(kept, changes) <= target_old * (1 + rounding_slack);
}

}  // namespace

double old_fluid_left(double total_l, double drained_l, int changes) {
    check_changes(changes);
    return std::pow(kept_share(total_l, drained_l), changes);
}

std::vector<double> old_fluid_after_each(double total_l, double drained_l, int changes) {
    check_changes(changes);
    std::vector<double> left;
    for (int change = 1; change <= changes; ++change) left.push_back(old_fluid_left(total_l, drained_l, change));
    return left;
}

int changes_for_target(double total_l, double drained_l, double target_old) {
    const double kept = kept_share(total_l, drained_l);
    check_target(target_old);
    if (target_old == 1) return 0;
    const double needed = std::ceil(std::log(target_old) / std::log(kept));
    in_range("number of changes this drain would take", needed, 0, highest_changes, "");
    int changes = static_cast<int>(needed);
    while (changes > 1 && reaches(kept, changes - 1, target_old)) --changes;
    while (!reaches(kept, changes, target_old)) ++changes;
    return changes;
}

ContinuousExchange continuous_exchange(double total_l, double exchanged_l) {
    above("total volume", total_l, 0, highest_total_l, "L");
    in_range("exchanged volume", exchanged_l, 0, 10 * highest_total_l, "L");
    const double turns = exchanged_l / total_l;
    return {std::exp(-turns), std::max(0.0, 1 - turns)};
}

double exchange_for_target_l(double total_l, double target_old) {
    above("total volume", total_l, 0, highest_total_l, "L");
    check_target(target_old);
    return target_old == 1 ? 0 : -std::log(target_old) * total_l;
}

}  // namespace casebound::transmission_fluids
