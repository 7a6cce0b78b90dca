#pragma once
// Engine height left against right as a sign of a sagged mount. It makes a
// mount suspect, never condemned: body repair, load and a leaning vehicle
// imitate it. Left and right as seen from the driver's seat facing forward.

#include <optional>

namespace casebound::mounts {

// More than 5 to 10 mm of difference makes a mount suspect: from memory. A
// maker's figure, where there is one, replaces both limits.
struct SagLimits {
    double look_mm = 5.0;
    double suspect_mm = 10.0;
};

enum class SagVerdict { even, look_closer, suspect };
enum class LowSide { none, left, right };

struct SagAnswer {
    SagVerdict verdict;
    double left_minus_right_mm;
    LowSide low_side;  // none when both heights are equal
};

// Heights from the same datum on both sides, 0 to 2000 mm. Limits 0.1 to
// 100 mm, look_mm not above suspect_mm. std::domain_error otherwise.
SagAnswer sag_between_sides(double left_height_mm, double right_height_mm, SagLimits limits = {});

// One side against the maker's figure: how far it hangs low (negative: high).
struct HeightAnswer {
    SagVerdict verdict;
    double below_figure_mm;
};
HeightAnswer sag_from_figure(double height_mm, double figure_mm, SagLimits limits = {});

}  // namespace casebound::mounts
