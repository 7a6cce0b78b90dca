// What was looked at on a vehicle and not replaced, in jobs that are open: what is sound stays in, what is not is bought.
// Reads the records; writes nothing.
#pragma once

#include <map>
#include <string>

#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

bool found_bad(const WorkRecord& looked_at);  // worn, damaged or leaking

// By role, the newest; none where the role was fitted in an open job since.
std::map<std::string, WorkRecord> looked_at_of(Session& session, const std::string& vehicle);

}  // namespace casebound
