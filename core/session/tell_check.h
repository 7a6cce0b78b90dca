// What a person tells about a vehicle, before it is written down: each value in the form its domain keeps, what cannot
// be refused with every fault at once. What is merely unusual is taken, and said here for as long as it stands.
// Never writes.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"

namespace casebound {

// Several values of one finding that may stand side by side ("leak_at=a leak_at=b", "leak_at+=b") become one. Throws
// Error: 64 for an attribute that is not known, 65 for a value that cannot be or that leaves no configuration.
std::vector<ToldFact> checked_tellings(Session& session, const Vehicle& vehicle, const std::vector<ToldFact>& entries);

// Could anything be told of it on this vehicle? No where its domain refuses every value: a coil that no gearbox still
// possible has.
bool could_be_told(Session& session, const Situation& situation, const Attribute& attribute);

// Of what is told, what no rule forbids and nobody expects; each a sentence.
std::vector<std::string> unusual_told(Session& session, const Situation& situation);

}  // namespace casebound
