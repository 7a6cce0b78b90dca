#include "science/bar.h"

#include <cmath>
#include <numbers>

#include "core/contract/valid_range.h"

namespace casebound::stabilisers {
namespace {

double bar_size(const char* what, double size_mm) { return in_range(what, size_mm, 8, 60, "mm"); }

}  // namespace

BushAnswer bush_on_bar(double bush_mm, double bar_mm, std::optional<double> bar_under_bush_mm, double within_mm) {
    in_range("within", within_mm, 0.05, 5, "mm");
    const double over_mm = bar_size("bush", bush_mm) - bar_size("bar", bar_mm);
    if (over_mm > within_mm) return BushAnswer::too_large;
    if (over_mm < -within_mm) return BushAnswer::too_small;
    const bool worn = bar_under_bush_mm && bar_mm - bar_size("bar under the bush", *bar_under_bush_mm) > within_mm;
    return worn ? BushAnswer::bar_worn : BushAnswer::for_this_bar;
}

double twist_deg(double arm_mm, double droop_mm) {
    in_range("arm", arm_mm, 50, 1500, "mm");
    return std::asin(in_range("droop", droop_mm, 0, arm_mm, "mm") / arm_mm) * 180 / std::numbers::pi;
}

}  // namespace casebound::stabilisers
