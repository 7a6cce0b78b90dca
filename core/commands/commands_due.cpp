// `due`: what has a last day, and which service is due, over all vehicles.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/work/due_dates.h"

namespace casebound {

namespace {

std::string service_text(const Catalog& catalog, const ServiceDue& due, bool full) {
    std::string out = wrapped(
        fmt::format("{}: service{}: {}", due.vehicle, due.domain.empty() ? "" : ", " + spaced(due.domain), due.answer),
        0, 2);
    for (const auto& detail : due.details)
        if (full || due.verdict != Verdict::not_recorded) out += wrapped(in_titles(catalog, detail), 2, 4);
    return out;
}

Json due_json(const std::vector<DueDate>& dates, const std::vector<ServiceDue>& services,
              const std::optional<std::string>& backup, bool invented) {
    auto json = document("due");
    json["invented"] = invented;
    json["today"] = today();
    json["dates"] = Json::array();
    for (const auto& due : dates)
        json["dates"].push_back(
            {{"date", due.date}, {"vehicle", due.vehicle}, {"what", due.what}, {"past", due.past()}});
    json["service"] = Json::array();
    for (const auto& due : services)
        json["service"].push_back({{"vehicle", due.vehicle},
                                   {"domain", due.domain},
                                   {"answer", due.answer},
                                   {"due", due.due()},
                                   {"details", due.details}});
    if (backup) json["backup"] = *backup;
    return json;
}

// Of one vehicle where one is named.
template <class Due> void only_of(std::vector<Due>& all, const std::string& vehicle) {
    if (!vehicle.empty()) std::erase_if(all, [&](const Due& one) { return one.vehicle != vehicle; });
}

Result run_due(Session& session, const Args& args) {
    const auto vehicle = args.words.empty() ? std::string() : session.vehicle(args.words[0]).name;
    auto dates = return_dates(session);
    auto services = services_due(session);
    only_of(dates, vehicle);
    only_of(services, vehicle);
    if (session.json())
        return {Exit::yes, json_text(due_json(dates, services, backup_due(session), any_line_invented(session)))};
    const auto label = invented_label(any_line_invented(session));
    std::string out = label.empty() ? "" : spread(fmt::format("Due, {}", today()), label);
    out += dates.empty() ? "No part or old part has a last day.\n" : "";
    for (const auto& due : dates)
        out += wrapped(fmt::format("{}{} {}: {}", due.date, due.past() ? " PAST" : "", due.vehicle, due.what), 0, 2);
    for (const auto& due : services) out += service_text(session.catalog(), due, session.full());
    if (const auto backup = backup_due(session)) out += wrapped(*backup, 0, 2);
    return {Exit::yes, out};
}

}  // namespace

std::vector<Command> due_commands() {
    return {{"due",
             "[VEHICLE]",
             "dates of returns and old parts, and service due, of one vehicle or over all",
             0,
             1,
             {},
             run_due,
             "casebound due"}};
}

}  // namespace casebound
