// What is told of a vehicle, and what it can still be, as text. Renders only.
#pragma once

#include <string>
#include <vector>

#include "core/reason/vocabulary.h"
#include "core/session/situation.h"

namespace casebound {

std::string told_text(const Vocabularies& words, const std::vector<ToldFact>& entries);

// What is still open, with how to find it out; what is known by now in one line.
std::string still_open_text(const Situation& situation);

}  // namespace casebound
