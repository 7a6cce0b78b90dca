// The shop's own pack: what was measured and fitted on one vehicle becomes a row that any pack load reads, with the
// source kind `measured`, the day and the vehicle. Rows are only added; a pack that would have a fault is left as
// it was. Contradictions stay visible: nothing in other packs is changed.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "session.h"

namespace casebound {

struct OwnFact {
    std::string table;                                         // "applications", or any other table with a source
    std::vector<std::pair<std::string, std::string>> cells;    // column and text; the source is filled in
    std::string vehicle, date, note;
};

// The rows as they would stand in the files, file name first.
std::vector<std::pair<std::string, std::string>> rows_of(Session& session, const OwnFact& fact, const std::string& folder);

// Writes the rows, brings the descriptor up to date, checks the pack, and loads it. On a fault the files are put
// back and Error(bad_data) names every fault.
void keep_fact(Session& session, const OwnFact& fact, const std::string& folder);

}  // namespace casebound
