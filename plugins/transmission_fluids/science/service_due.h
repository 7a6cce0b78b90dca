#pragma once
// When the next fluid service is due, by distance and by age, whichever comes
// first. An unknown history is due now; a fluid "filled for life" has no
// interval stated, which is not the same as never. Never supplies an interval.
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace casebound::transmission_fluids {

struct ServiceInterval {
    std::optional<double> km;
    std::optional<int> months;
};

struct LastService {
    std::optional<double> odometer_km;
    std::optional<std::chrono::year_month_day> date;
};

struct ServiceNow {
    double odometer_km;
    std::chrono::year_month_day date;
    std::optional<double> km_per_year;
};

enum class DueState {
    no_interval_stated,
    history_unknown,  // due now: an interval is stated and its last service is not known
    overdue,
    due_today,
    later,
};

struct ServiceDue {
    DueState state;
    std::optional<double> next_km;
    std::optional<double> km_left;  // negative: overdue
    std::optional<std::chrono::year_month_day> date_by_age;
    std::optional<int> days_left;                                 // by age; negative: overdue
    std::optional<std::chrono::year_month_day> date_by_distance;  // predicted, needs a yearly distance
    std::optional<std::chrono::year_month_day> due;               // the earlier of the two dates
};

// severe_factor: 1 normal, 0.5 to 0.67 severe (common practice, no source); range
// 0.3 to 1. Refuses an odometer below that of the last service, a last service
// after today, and dates that do not exist.
ServiceDue service_due(const ServiceInterval& interval, const LastService& last, const ServiceNow& now,
                       double severe_factor = 1);

// Calendar months on, at the end of a shorter month if need be; a part of a
// month counts as that part of 30.436875 days, rounded down.
std::chrono::year_month_day months_after(std::chrono::year_month_day date, double months);

// YYYY-MM-DD, or YYYY-MM for its first day: the earlier reading makes the
// earlier date due. Refuses other texts, naming `what`.
std::chrono::year_month_day date_from(std::string_view what, const std::string& text);
std::string date_text(std::chrono::year_month_day date);  // "2021-03-15"

}  // namespace casebound::transmission_fluids
