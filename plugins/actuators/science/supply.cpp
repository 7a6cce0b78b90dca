#include "science/supply.h"

#include <algorithm>
#include <cmath>

#include "core/contract/valid_range.h"

namespace casebound::actuators {

double lost_v(double current_a, double length_m, double mohm_per_m) {
    return 2 * in_range("current", current_a, 0, 300, "A") * above("length", length_m, 0, 30, "m") *
           in_range("resistance", mohm_per_m, 0.05, 1000, "mohm/m") / 1000;
}

double copper_mohm_per_m(double area_mm2) { return 1000 / 58.0 / in_range("section", area_mm2, 0.05, 120, "mm2"); }

double between(std::vector<Point> curve, double x, bool by_ratio) {
    if (curve.size() < 2) refuse("curve", "fewer than two points", "two points or more");
    std::sort(curve.begin(), curve.end(), [](Point a, Point b) { return a.x < b.x; });
    in_range("reading", x, curve.front().x, curve.back().x);
    auto after = std::find_if(curve.begin() + 1, curve.end(), [&](Point point) { return x <= point.x; });
    if (after == curve.end()) --after;
    const auto before = after - 1;
    const double span = by_ratio ? std::log(after->x / before->x) : after->x - before->x;
    const double part = by_ratio ? std::log(x / before->x) : x - before->x;
    return before->y + (after->y - before->y) * part / span;
}

}  // namespace casebound::actuators
