#pragma once
// A washer under a drain plug, by its hole and the plug's thread. Lengths in mm. Never says that one seals.

#include <cstdint>

namespace casebound::service_fluids {

enum class WasherAnswer : std::uint8_t { goes_on, too_tight, too_wide };

// The hole is at least the thread and at most `play_mm` wider, else it lies beside the middle. 1.5 mm, from memory.
inline constexpr double washer_play_mm = 1.5;
WasherAnswer washer_on(double inside_mm, double thread_mm, double play_mm = washer_play_mm);

}  // namespace casebound::service_fluids
