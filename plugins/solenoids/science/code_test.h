#pragma once
// The stored codes as one test with an outcome for each element and class, and what each place makes of them. The
// chances are assumptions from memory.

#include <optional>
#include <string>
#include <vector>

#include "science/cause_tests.h"

namespace casebound::solenoids {

// Nothing for a family without elements, or where the one code is about an element that it has not.
std::optional<CauseTest> code_test(const GearboxFamily& family, const std::vector<Suspect>& suspects, const Seen& seen,
                                   Attribute what);

using Chances = std::vector<double>;
// The chance of an outcome. Requires: it is one of them.
double& at(Chances& row, const std::vector<std::string>& outcomes, const std::string& outcome);

}  // namespace casebound::solenoids
