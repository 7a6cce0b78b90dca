// The shop's own pack: what was measured and fitted on one vehicle, or what somebody says of it, becomes rows that any
// pack load reads, with the kind of its source, the day and the vehicle. Rows are only added. The pack is made anew beside the old one,
// checked and sealed there, and put in its place in one step: a fault, or a kill or power cut at any moment, leaves it
// as before or as after. Contradictions stay visible: nothing in other packs is changed.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/session/session.h"

namespace casebound {

using OwnCells = std::vector<std::pair<std::string, std::string>>;  // column and text; the source is filled in

struct OwnFact {
    std::vector<std::pair<std::string, OwnCells>> rows;  // table and cells, in the order they are written
    std::string vehicle, date, note;
    std::string kind = "measured", title{};  // of the source; no title: measured here, on the vehicle, that day
};

using OwnRows = std::vector<std::pair<std::string, std::string>>;  // file name and row

// The rows as they would stand in the files.
OwnRows rows_of(Session& session, const OwnFact& fact, const std::string& folder);

// Whether a table takes facts with a source, and whether it has a column. Throws Error(usage) with a near miss.
bool own_table_has(Session& session, const std::string& table, std::string_view column);

// Writes the rows, loads the pack and returns what was written; one process at a time works on a folder. On a fault
// nothing is changed and Error(bad_data) names every fault.
OwnRows keep_fact(Session& session, const OwnFact& fact, const std::string& folder);

}  // namespace casebound
