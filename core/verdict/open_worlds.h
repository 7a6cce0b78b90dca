// What may be true of a vehicle while something told of it is in doubt.
#pragma once

#include "core/verdict/narrowing.h"

namespace casebound {

// What is left, and what open doubts allow beside it.
inline Bits may_be_true(const Narrowing& narrowing) {
    Bits open = narrowing.left;
    for (const auto& doubt : narrowing.doubts) open |= doubt.worlds;
    return open;
}

}  // namespace casebound
