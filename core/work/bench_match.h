// The part in hand against what this vehicle can have: what was measured on it, attribute by attribute and together,
// within each attribute's tolerance. Decides nothing about ordering; writes nothing.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/session/situation.h"

namespace casebound {

struct BenchMatch {
    std::vector<std::string> agree, differ;  // "pan_depth=41mm"
    std::vector<std::string> not_compared;   // attributes that tell the role's alternatives apart and were not compared
    std::string instead;                     // the groups that what was measured belongs to, when it differs
    bool matches() const { return differ.empty() && !agree.empty(); }
};

// `item`: its key, or empty. Throws Error(usage) for a word that is no attribute of the line or no value of it, and
// when nothing is compared although there is something to compare.
BenchMatch bench_match(const Situation& situation, const std::string& role, const std::string& item,
                       const std::vector<std::pair<std::string, std::string>>& measured);

}  // namespace casebound
