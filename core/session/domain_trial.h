// Runs every hook of the loaded domains against the packs that they ship, in a child with limits, with
// nothing told and then with each value that its attributes can have. Finds what throws, what crashes, and what is said
// in words that nobody knows. Writes a catalog of its own in a folder that it takes away again, and nothing else.
#pragma once

#include <string>
#include <vector>

#include "core/host/plugin_host.h"

namespace casebound {

struct DomainFault {
    std::string domain, what;  // what: the hook, what is wrong with it, and what to do
};

// Of every loaded domain, by name; empty when there is none.
std::vector<DomainFault> domain_trials(const Plugins& plugins);

}  // namespace casebound
