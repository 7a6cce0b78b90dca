// The jobs of a vehicle that are open, and what was fitted in a closed one for them too: two jobs that were done in one go.
// Reads the records; writes nothing.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

std::vector<StartedJob> jobs_not_closed(Session& session, const std::string& vehicle);  // oldest first
bool has_place(const Catalog& catalog, const std::string& job, const std::string& role);

struct FittedFor {
    std::int64_t open_job{};
    LineEvent event;  // of a job that is closed
};

// What was fitted after an open job had its first entry, in a place that this job has too.
std::vector<FittedFor> fitted_for_open_jobs(Session& session, const std::string& vehicle);

}  // namespace casebound
