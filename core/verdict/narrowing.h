// What was told about a vehicle, met with the configurations of its line. Contradictions are refused with the
// reason, never resolved silently. A told number agrees with a recorded one within the attribute's tolerance.
#pragma once

#include <string>
#include <vector>

#include "core/reason/told_fact.h"
#include "core/verdict/catalog.h"

namespace casebound {

// What was told does not sit well with what is on record: until it is settled, more than what is left may be true. It is
// named by its attribute; who orders before it is settled accepts one of its values by name.
struct Doubt {
    std::string attribute;
    std::string reason;  // "pan depth 44 mm is taken as 41 mm: on record are 41 mm, 61 mm"
    std::string until;   // what settles it, as a clause
    SourceNote source;
    Bits worlds;        // what may be true; holds what is left
    bool of_measure{};  // of a number that is taken as one on record
};

struct Narrowing {
    std::vector<ToldFact> facts;  // by attribute
    Bits left;
    std::vector<Doubt> doubts{};
    std::vector<std::string> out_of_reach{};    // attributes that nobody can get at
    std::vector<std::string> ordered_as_if{};   // what earlier orders took for true and nobody has measured since
    Bits left_without(std::size_t fact) const;  // had that fact not been told
    // Had only these been told.
    Bits left_by(const std::vector<const ToldFact*>& facts) const;
    // Attributes told as one value, and those that nobody can get at: asking them tells nothing.
    std::vector<std::string> not_asked() const;
};

// What may be true of a doubt's attribute, as it is typed: "41mm".
std::vector<std::string> values_in_doubt(const LineModel& line, const Doubt& doubt);

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
