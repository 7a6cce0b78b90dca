// Worlds made for one cause each that worlds at random seldom reach: a chain of stand-ins with a link that is ruled
// out, a kit that is here, a job that hearsay makes shorter, a part that needs another beside it, one word that the answer hangs on. Plain but for that,
// so that the answer hangs on it. Judges nothing.
#pragma once

#include <cstdint>

#include "tests/chain/world.h"

namespace chain {

enum class Theme {
    chain_of_stand_ins,
    kit_here,
    shorter_by_hearsay,
    part_beside,
    open_line,
    two_fluids,
    one_word,
    together
};
inline constexpr int themes = 7;  // that take turns; `together` stands apart

World themed(Theme theme, std::uint64_t seed);
World resting_on_one_word(std::uint64_t seed);

}  // namespace chain
