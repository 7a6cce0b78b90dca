// Where the pack lies that a domain ships: a folder of the domain's name beside its plugin, or, installed, in
// share/casebound/packs of the same prefix. Finds them; never reads a row, and never loads one.
#pragma once

#include <string>
#include <vector>

#include "core/host/plugin_host.h"

namespace casebound {

struct ReferencePack {
    std::string domain, folder;
    bool invented{};  // a demo: loaded by its own name only
};

// In the order of the domains; a domain that ships none is left out.
std::vector<ReferencePack> reference_packs(const Plugins& plugins);

}  // namespace casebound
