#pragma once
// Whether a fluid is due, by distance and by time, whichever comes first. An unknown history is due now. Never supplies
// an interval.

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace casebound::service_fluids {

using Day = std::chrono::year_month_day;

struct Change {
    std::optional<double> interval_km{}, last_at_km{}, odometer_km{};
    std::optional<int> interval_months{};
    std::optional<Day> last{};
    Day today{};
    double factor = 1;  // both intervals are multiplied by it in hard use; 0.3 to 1
};

enum class DueState : std::uint8_t { no_interval, history_unknown, overdue, later };
struct Due {
    DueState state = DueState::no_interval;
    std::optional<double> km_left{};  // negative: overdue
    std::optional<int> days_left{};   // negative: overdue
    std::optional<Day> day{};         // by time
};
Due due_of(const Change& change);

// YYYY-MM-DD, or YYYY-MM for its first day. Refuses other texts, naming `what`.
Day day_from(std::string_view what, const std::string& text);
std::string day_text(Day day);

}  // namespace casebound::service_fluids
