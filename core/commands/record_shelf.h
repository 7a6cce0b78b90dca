// What an entry takes from the own shelf or puts on it, and what an entry that it corrects gives back. Writes nothing.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

// Of something fitted. `corrected`: may be null; `others`: all records of the vehicle. Throws Error(usage) where what was
// taken is not named.
std::vector<ShelfMove> shelf_moves(const Catalog& catalog, const std::string& vehicle, const WorkRecord& record,
                                   const WorkRecord* corrected, std::vector<WorkRecord> others);

std::vector<ShelfMove> left_over_moves(Session& session, const std::string& vehicle, const LineEvent& event);

}  // namespace casebound
