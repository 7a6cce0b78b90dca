#include "science/due.h"

#include <charconv>
#include <cmath>

#include "core/contract/valid_range.h"

namespace casebound::service_fluids {
namespace {

std::optional<int> number_in(std::string_view text) {
    int number = 0;
    const auto* end = text.data() + text.size();
    const bool whole = !text.empty() && std::from_chars(text.data(), end, number).ptr == end;
    return whole ? std::optional(number) : std::nullopt;
}

std::string two_digits(unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); }

// Whole months on, at the end of a shorter month if need be.
Day months_on(Day day, int months) {
    Day moved = day + std::chrono::months(months);
    if (!moved.ok()) moved = moved.year() / moved.month() / std::chrono::last;
    return moved;
}

void by_distance(const Change& change, Due& due) {
    if (!change.interval_km || !change.last_at_km || !change.odometer_km) return;
    const double odometer_km = in_range("odometer", *change.odometer_km, 0, 5e6, "km");
    in_range("odometer at the last change", *change.last_at_km, 0, odometer_km, "km");
    due.km_left = *change.last_at_km + *change.interval_km * change.factor - odometer_km;
}

void by_time(const Change& change, Due& due) {
    if (!change.interval_months || !change.last) return;
    if (*change.last > change.today)
        refuse("last change", day_text(*change.last), "a day up to today, " + day_text(change.today));
    due.day = months_on(*change.last, static_cast<int>(std::floor(*change.interval_months * change.factor)));
    due.days_left = static_cast<int>((std::chrono::sys_days(*due.day) - std::chrono::sys_days(change.today)).count());
}

}  // namespace

Due due_of(const Change& change) {
    in_range("factor of hard use", change.factor, 0.3, 1);
    Due due;
    if (!change.interval_km && !change.interval_months) return due;
    by_distance(change, due);
    by_time(change, due);
    // A known "overdue" outranks an unknown other half.
    const bool unknown = (change.interval_km && !due.km_left) || (change.interval_months && !due.days_left);
    if (due.km_left.value_or(1) <= 0 || due.days_left.value_or(1) <= 0) due.state = DueState::overdue;
    else due.state = unknown ? DueState::history_unknown : DueState::later;
    return due;
}

Day day_from(std::string_view what, const std::string& text) {
    const auto wrong = [&] { refuse(what, text, "a month or a day, written 2021-03 or 2021-03-15"); };
    if ((text.size() != 7 && text.size() != 10) || text[4] != '-' || (text.size() == 10 && text[7] != '-')) wrong();
    const auto year = number_in(text.substr(0, 4)), month = number_in(text.substr(5, 2));
    const auto day_of_month = text.size() == 10 ? number_in(text.substr(8)) : std::optional(1);
    if (!year || !month || !day_of_month || *month < 1 || *day_of_month < 1) wrong();
    const Day day{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                  std::chrono::day(static_cast<unsigned>(*day_of_month))};
    if (!day.ok()) wrong();
    return day;
}

std::string day_text(Day day) {
    return std::to_string(static_cast<int>(day.year())) + "-" + two_digits(static_cast<unsigned>(day.month())) + "-" +
           two_digits(static_cast<unsigned>(day.day()));
}

}  // namespace casebound::service_fluids
