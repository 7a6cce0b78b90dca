// Where the program is known to differ from the oracle, and waits to be mended: by a rule that it does not keep
// (Lesser), or world by world. Nothing else may differ, and no more of it than is said here.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "tests/chain/compare.h"

namespace chain {

// Why a world differs: each rule, or the one reason of the world; empty when that is not known.
std::vector<std::string> known_as(const World& world, const Asked& said, const std::vector<Difference>& found);

// In how many of the usual worlds; a class that is mended is taken out, and its rule out of the oracle.
const std::map<std::string, std::size_t>& known_in_usual_worlds();

}  // namespace chain
