#pragma once
// Every observation that separates the places a fault may sit, with what each place makes of it. What was seen is
// marked; the rest can still be done. The chances are assumptions from memory. Chooses and ranks nothing.

#include <optional>
#include <string>
#include <vector>

#include "core/contract/words.h"
#include "science/alternatives.h"
#include "science/seen.h"
#include "science/suspects.h"

namespace casebound::solenoids {

struct CauseTest {
    ProbableTest test;
    std::optional<std::size_t> seen = {};  // the outcome; nothing while it is still to be done
    // By outcome: the causes it speaks for by itself. Gears name an element and a lone circuit code a circuit, no cause.
    std::vector<std::vector<Cause>> speaks_for = {};
};

// Rows in the order of `suspects`; `words`: how each observation is made, and its minutes.
std::vector<CauseTest> cause_tests(const GearboxFamily& family, const std::vector<Suspect>& suspects, const Seen& seen,
                                   const Vocabulary& words);

// "2-2-3-3" as told, or as a fault gives it for these commanded gears.
std::string pattern_text(const std::vector<std::string>& obtained);
std::string pattern_text(const ApplyTable& table, const Fault& fault, const std::vector<std::string>& commanded,
                         const GearboxState& gearbox);

}  // namespace casebound::solenoids
