#include "core/work/open_work.h"

#include <algorithm>
#include <map>

namespace casebound {

std::vector<StartedJob> jobs_not_closed(Session& session, const std::string& vehicle) {
    const ShopRecords records(session.shop());
    auto open = records.jobs(vehicle);
    for (const auto& closing : records.closings(vehicle))
        std::erase_if(open, [&](const StartedJob& job) { return job.id == closing.job; });
    return open;
}

bool has_place(const Catalog& catalog, const std::string& job, const std::string& role) {
    const auto rows = catalog.facts().rows("job_roles", "job", job);
    return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.text("role") == role; });
}

std::vector<FittedFor> fitted_for_open_jobs(Session& session, const std::string& vehicle) {
    const auto open = jobs_not_closed(session, vehicle);
    const auto is_open = [&](std::int64_t id) {
        return std::any_of(open.begin(), open.end(), [&](const StartedJob& job) { return job.id == id; });
    };
    const auto events = ShopRecords(session.shop()).events(vehicle);
    std::map<std::int64_t, std::int64_t> first;  // entry of each job
    for (const auto& event : events)
        if (event.job) first.emplace(*event.job, event.id);
    std::vector<FittedFor> all;
    for (const auto& event : events) {
        if (!event.stands || event.event != "fitted" || !event.job || is_open(*event.job)) continue;
        for (const auto& job : open)
            if (const auto begun = first.find(job.id);
                begun != first.end() && begun->second < event.id && has_place(session.catalog(), job.job, event.role))
                all.push_back({job.id, event});
    }
    return all;
}

}  // namespace casebound
