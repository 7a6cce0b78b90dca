// Makes the worlds of the chain test: seeded, the same on every machine. Judges nothing.
#pragma once

#include <cstdint>

#include "tests/chain/world.h"

namespace chain {

World generate(std::uint64_t seed);

}  // namespace chain
