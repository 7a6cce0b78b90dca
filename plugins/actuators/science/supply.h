#pragma once
// What of the supply arrives: volts lost in copper, charge of a battery at rest, temperature of a sensor whose resistance
// falls as it warms. Knows no wire and no battery of its own: rows are given.

#include <vector>

namespace casebound::actuators {

// V lost on the way there and back. Refuses a current outside 0 to 300 A, a length outside 0 to 30 m and a resistance
// outside 0.05 to 1000 mohm a metre.
double lost_v(double current_a, double length_m, double mohm_per_m);

// mohm a metre of annealed copper at 20 degC: 1/58 ohm mm2 a metre, IEC 60028. Refuses a section outside 0.05 to 120 mm2.
double copper_mohm_per_m(double area_mm2);

struct Point {
    double x, y;
};
// Between two points of a curve that rises or falls in x throughout, in y by the straight line, or where `by_ratio` by
// equal ratios, as resistances fall. Refuses an x outside the curve, and a curve of fewer than two points.
double between(std::vector<Point> curve, double x, bool by_ratio);

}  // namespace casebound::actuators
