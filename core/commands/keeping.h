// What `keep` would write, for the command and for the page that shows it first.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/session/command.h"

namespace casebound {

struct KeptRows {
    std::vector<std::pair<std::string, std::string>> rows;  // file, the row as it stands there
    std::vector<std::string> contradicts;                   // what the catalog says to the contrary, a sentence each
};

// As `keep` without --confirm: nothing is written. Closes the catalog. Throws what `keep` throws.
KeptRows rows_to_keep(Session& session, const Args& args);

}  // namespace casebound
