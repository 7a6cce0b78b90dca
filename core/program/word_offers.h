// What may stand next in what is being typed: the vehicles, jobs, places, parts and values that are really on file. For
// the completions of the shells, which ask by `casebound completion next WORD...`. Never names a domain.
#pragma once

#include <string>
#include <vector>

#include "core/session/command.h"

namespace casebound {

// One word that may be typed, and what it is.
struct Offered {
    std::string word, what;
};

// `typed`: the words in front, without the one being typed. Empty where nothing on file may stand.
std::vector<Offered> offered_next(Session& session, const std::vector<Command>& table,
                                  const std::vector<std::string>& typed);

}  // namespace casebound
