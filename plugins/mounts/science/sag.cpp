#include "science/sag.h"

#include "core/contract/valid_range.h"

#include <cmath>

namespace casebound::mounts {
namespace {

double checked_height(const char* what, double height_mm) { return in_range(what, height_mm, 0.0, 2000.0); }

SagVerdict verdict_for(double difference_mm, SagLimits limits) {
    in_range("suspect_mm", limits.suspect_mm, 0.1, 100.0);
    in_range("look_mm", limits.look_mm, 0.1, limits.suspect_mm);
    if (difference_mm > limits.suspect_mm) return SagVerdict::suspect;
    return difference_mm > limits.look_mm ? SagVerdict::look_closer : SagVerdict::even;
}

LowSide low_side(double left_minus_right_mm) {
    if (left_minus_right_mm == 0.0) return LowSide::none;
    return left_minus_right_mm < 0.0 ? LowSide::left : LowSide::right;
}

}  // namespace

SagAnswer sag_between_sides(double left_height_mm, double right_height_mm, SagLimits limits) {
    const double difference_mm = checked_height("left_height_mm", left_height_mm) -
                                 checked_height("right_height_mm", right_height_mm);
    return {verdict_for(std::abs(difference_mm), limits), difference_mm, low_side(difference_mm)};
}

HeightAnswer sag_from_figure(double height_mm, double figure_mm, SagLimits limits) {
    const double below_mm = checked_height("figure_mm", figure_mm) - checked_height("height_mm", height_mm);
    return {verdict_for(std::abs(below_mm), limits), below_mm};
}

}  // namespace casebound::mounts
