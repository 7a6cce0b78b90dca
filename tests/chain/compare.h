// What the program says of a world beside what the oracle says: each difference as a class and a sentence. And the
// smallest world that still differs in a way. Knows no rule of its own.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "tests/chain/oracle.h"
#include "tests/chain/subject.h"

namespace chain {

struct Difference {
    std::string kind, text;  // kind: "released", "refused", "cost", ...
};

std::vector<Difference> differences(const World& world, const Asked& program);

// Leaves out row after row while the world still differs in that kind; every try is a pack of its own.
World shrunk(World world, const std::function<bool(const World&)>& still_differs);

}  // namespace chain
