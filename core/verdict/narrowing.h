// What was told about a vehicle, met with the configurations of its line. Contradictions are refused with the
// reason, never resolved silently. A told number agrees with a recorded one within the attribute's tolerance.
#pragma once

#include <string>
#include <vector>

#include "core/reason/told_fact.h"
#include "core/verdict/catalog.h"

namespace casebound {

// What was told does not sit well with what is on record: until it is settled, more than what is left may be true.
struct Doubt {
    std::string attribute;
    std::string reason;  // "pan depth 44 mm was told, and 41 mm and 61 mm are on record"
    std::string until;   // what settles it, as a clause
    SourceNote source;
    Bits worlds;  // what may be true; holds what is left
};

struct Narrowing {
    std::vector<ToldFact> facts;  // by attribute
    Bits left;
    std::vector<Doubt> doubts{};
    Bits left_without(std::size_t fact) const;  // had that fact not been told
    // Had only these been told.
    Bits left_by(const std::vector<const ToldFact*>& facts) const;
    std::vector<std::string> told_once() const;  // attributes told as one value: asking them again tells nothing
};

// Where a condition holds: over the whole line for the line's own attributes; for one that the line does not have, by
// what was told of it.
struct Met {
    Bits on;        // within this it holds, or, when `open`, may
    bool open{};    // it hinges on something told as more than one value
    bool untold{};  // it hinges on an attribute that the line does not have and nothing was told of
};
Met meet(const LineModel& line, const Vocabularies& vocabularies, const Narrowing& narrowing,
         const Condition& condition);

// The same for the text of a condition, on what is left. Throws std::invalid_argument for a text that is none.
Holds holds_on(const LineModel& line, const Vocabularies& vocabularies, const Narrowing& narrowing,
               std::string_view condition);

// Throws Error(bad_data) naming, for impossible values, what the line has, and for contradictions, which told
// facts exclude each other and the configurations that would remain without each.
Narrowing narrow(const LineModel& line, const Vocabularies& vocabularies, std::vector<ToldFact> facts);

}  // namespace casebound
