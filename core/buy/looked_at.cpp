#include "core/buy/looked_at.h"

#include "core/buy/pieces.h"

namespace casebound {

bool found_bad(const WorkRecord& looked_at) { return !looked_at.state.empty() && looked_at.state != "sound"; }

std::map<std::string, WorkRecord> looked_at_of(Session& session, const std::string& vehicle) {
    std::map<std::string, WorkRecord> newest;
    const auto open = open_jobs_of(session, vehicle);
    const ShopRecords records(session.shop());
    for (auto& record : records.records(vehicle))
        if (record.stands && record.what == "looked_at" && record.job && open.contains(*record.job))
            newest.insert_or_assign(record.role, std::move(record));
    for (const auto& event : records.events(vehicle))
        if (event.stands && event.event == "fitted" && event.job && open.contains(*event.job)) newest.erase(event.role);
    return newest;
}

}  // namespace casebound
