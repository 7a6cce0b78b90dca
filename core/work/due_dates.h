// What is due over all vehicles: last days for returns and old parts, and service by distance and age, from what
// was recorded and told. Unknown history is due now. Computes no interval itself: the domains do. Writes nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

struct DueDate {
    std::string date, vehicle, what;
    bool past() const;  // today
};

struct ServiceDue {
    std::string vehicle, domain;
    std::string answer;                       // one sentence
    Verdict verdict = Verdict::not_recorded;  // fits: not due yet
    std::vector<std::string> details;         // "next at 152400 km", what was assumed, what is asked
    bool due() const { return verdict != Verdict::fits && verdict != Verdict::not_recorded; }
};

bool any_line_invented(Session& session);                // of the vehicles that there are
std::vector<DueDate> return_dates(Session& session);     // earliest first
std::vector<ServiceDue> services_due(Session& session);  // by vehicle; overdue and unknown before what is not due yet

// The last backup of the shop is old, or there never was one, in words; nothing while it is fresh, or no vehicle is old
// enough to be worth one.
std::optional<std::string> backup_due(Session& session);

// Distance of a year from odometer records and readings at least `least_days` apart, oldest against newest; nothing when
// there are no two, or the newer shows less.
struct Reading {
    std::string date;
    double km{};
    std::string told{};
};  // told: as it was said, "120000mi"
std::vector<Reading> odometer_readings(Session& session, const std::string& vehicle);  // recorded and told, by date
// A reading less than an earlier one, in words, each pair; none: they run forwards.
std::vector<std::string> odometer_contradictions(const std::vector<Reading>& readings);
std::optional<double> km_per_year(const std::vector<Reading>& readings, int least_days = 30);

}  // namespace casebound
