// A vehicle line whose configurations nobody has listed. What its statements' conditions speak of becomes its
// attributes; each keeps "something else" as a value, so that a statement never holds by being the only one. What was
// told of them is a value, too. An attribute that no statement speaks of does not matter and is left out.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/reason/possibilities.h"
#include "core/reason/told_fact.h"
#include "core/reason/vocabulary.h"

namespace casebound {

inline constexpr const char* something_else = "something else";

// Every end of a range, every value and every told value is a value of its own. A told value within the attribute's
// tolerance of a stated one is the stated one. Throws Error(bad_data) when the combinations pass 100,000.
Possibilities open_set(const Vocabularies& words, const std::string& line, const std::vector<const Condition*>& said,
                       const std::vector<ToldFact>& told);

}  // namespace casebound
