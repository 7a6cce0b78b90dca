#include "science/service_due.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>

#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr double days_per_year = 365.2425;
constexpr double days_per_month = days_per_year / 12;
constexpr double highest_odometer_km = 5'000'000;

std::string two_digits(unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); }

void check_date(const char* what, year_month_day date) {
    const int year = static_cast<int>(date.year());
    if (!date.ok() || year < 1900 || year > 2200)
        refuse(what, date_text(date), "a day of the calendar from 1900-01-01 to 2200-12-31");
}

void check_interval(const ServiceInterval& interval) {
    if (interval.km) in_range("service interval", *interval.km, 100, 1'000'000, "km");
    if (interval.months) in_range("service interval", *interval.months, 1, 600, "months");
}

void check_history(const LastService& last, const ServiceNow& now) {
    in_range("odometer now", now.odometer_km, 0, highest_odometer_km, "km");
    check_date("date today", now.date);
    if (now.km_per_year) above("distance in a year", *now.km_per_year, 0, 500'000, "km");
    if (last.odometer_km) in_range("odometer at the last service", *last.odometer_km, 0, now.odometer_km, "km");
    if (!last.date) return;
    check_date("date of the last service", *last.date);
    if (*last.date > now.date)
        refuse("date of the last service", date_text(*last.date), "1900-01-01 to today, " + date_text(now.date));
}

void by_distance(ServiceDue& due, double interval_km, double last_km, const ServiceNow& now) {
    due.next_km = last_km + interval_km;
    due.km_left = *due.next_km - now.odometer_km;
    if (!now.km_per_year) return;
    const double years = std::clamp(*due.km_left / *now.km_per_year, -100.0, 100.0);
    due.date_by_distance = sys_days(now.date) + days(std::lround(years * days_per_year));
}

void by_age(ServiceDue& due, double interval_months, year_month_day last, const ServiceNow& now) {
    due.date_by_age = months_after(last, interval_months);
    due.days_left = static_cast<int>((sys_days(*due.date_by_age) - sys_days(now.date)).count());
}

// A known "overdue" outranks an unknown other half.
DueState state_of(const ServiceDue& due, bool history_unknown) {
    const double km_left = due.km_left.value_or(1);
    const int days_left = due.days_left.value_or(1);
    if (km_left < 0 || days_left < 0) return DueState::overdue;
    if (history_unknown) return DueState::history_unknown;
    return km_left == 0 || days_left == 0 ? DueState::due_today : DueState::later;
}

std::optional<year_month_day> earlier(std::optional<year_month_day> a, std::optional<year_month_day> b) {
    if (!a || !b) return a ? a : b;
    return std::min(*a, *b);
}

}  // namespace

std::string date_text(year_month_day date) {
    return std::to_string(static_cast<int>(date.year())) + "-" + two_digits(static_cast<unsigned>(date.month())) + "-" +
           two_digits(static_cast<unsigned>(date.day()));
}

year_month_day date_from(std::string_view what, const std::string& text) {
    std::array<int, 3> parts{0, 0, 1};
    const char* at = text.data();
    const char* const end = at + text.size();
    const std::size_t count = text.size() == 7 ? 2 : 3;
    bool good = text.size() == 7 || text.size() == 10;
    for (std::size_t i = 0; i < count && good; ++i) {
        const char* const stop = at + (i == 0 ? 4 : 2);
        good = stop <= end && std::from_chars(at, stop, parts[i]).ptr == stop && (stop == end || *stop == '-');
        at = stop == end ? stop : stop + 1;
    }
    const year_month_day date{std::chrono::year(parts[0]), std::chrono::month(static_cast<unsigned>(parts[1])),
                              std::chrono::day(static_cast<unsigned>(parts[2]))};
    if (!good || !date.ok()) refuse(what, text, "a month or a day, written 2021-03 or 2021-03-15");
    return date;
}

year_month_day months_after(year_month_day date, double months) {
    const double whole = std::floor(months + 1e-9);
    const double part = std::max(0.0, months - whole);
    year_month_day moved = date + std::chrono::months(static_cast<int>(whole));
    if (!moved.ok()) moved = moved.year() / moved.month() / std::chrono::last;
    return sys_days(moved) + days(static_cast<int>(part * days_per_month));
}

ServiceDue service_due(const ServiceInterval& interval, const LastService& last, const ServiceNow& now,
                       double severe_factor) {
    check_interval(interval);
    check_history(last, now);
    in_range("severe factor", severe_factor, 0.3, 1, "");
    ServiceDue due{};
    due.state = DueState::no_interval_stated;
    if (!interval.km && !interval.months) return due;
    if (interval.km && last.odometer_km) by_distance(due, *interval.km * severe_factor, *last.odometer_km, now);
    if (interval.months && last.date) by_age(due, *interval.months * severe_factor, *last.date, now);
    const bool unknown = (interval.km && !last.odometer_km) || (interval.months && !last.date);
    due.state = state_of(due, unknown);
    due.due = earlier(due.date_by_age, due.date_by_distance);
    if (due.state != DueState::later) due.due = earlier(due.due, now.date);
    return due;
}

}  // namespace casebound::transmission_fluids
