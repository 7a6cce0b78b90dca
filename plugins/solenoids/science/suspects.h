#pragma once
// Where the fault may sit, as hypotheses for core's possibilities engine, and what each makes probable. The numbers
// are assumptions from memory, for a demo or until the shop's own history replaces them: an answer that rests on
// them is "from memory" and speaks in words. Nothing is ranked here, ordered or condemned.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/alternatives.h"
#include "science/cause.h"
#include "science/family.h"

namespace casebound::solenoids {

enum class Word { unlikely, possible, likely };

// Likely from 0.5, possible from 0.1 (chosen here; no source). share 0 to 1.
Word word_for(double share);
std::string_view word(Word word);

// One per cause, in the order of all_causes, summing to 1. From memory.
const std::array<double, all_causes.size()>& assumed_priors();

// What the stored codes are, given the cause: one circuit electrical, several, stuck only, ratio only, none.
// Rows in the order of all_causes. From memory.
using CodeChances = std::array<double, 5>;
const std::array<CodeChances, all_causes.size()>& assumed_code_chances();

// One place a single fault may sit.
struct Suspect {
    Cause cause;
    std::string element;             // or the node; "" when it is about no element
    std::optional<Fault> held = {};  // what it does to the apply table; nothing when no element is held
    bool several = false;            // takes away several circuits at once
    bool in_part = false;            // goes with the solenoid when that is exchanged
    double weight = 0;
    std::string label;
};

// Every place in a family, the priors of each cause shared evenly among its places. A family of solenoid states with
// no shared feed on record is taken to have one for all: something always feeds them.
std::vector<Suspect> suspects(const GearboxFamily& family);

}  // namespace casebound::solenoids
