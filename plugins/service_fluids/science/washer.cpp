#include "science/washer.h"

#include "core/contract/valid_range.h"

namespace casebound::service_fluids {

WasherAnswer washer_on(double inside_mm, double thread_mm, double play_mm) {
    in_range("hole of the washer", inside_mm, 3, 60, "mm");
    in_range("thread of the plug", thread_mm, 3, 60, "mm");
    in_range("play", play_mm, 0, 5, "mm");
    // 0.05 mm: a calliper on a hole.
    if (inside_mm < thread_mm - 0.05) return WasherAnswer::too_tight;
    return inside_mm > thread_mm + play_mm ? WasherAnswer::too_wide : WasherAnswer::goes_on;
}

}  // namespace casebound::service_fluids
