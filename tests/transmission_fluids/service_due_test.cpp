// Service due: severe factors are common practice, no source; the example is derived.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "plugins/transmission_fluids/science/service_due.h"

using namespace casebound::transmission_fluids;
using namespace std::chrono;
using namespace std::chrono_literals;
using Catch::Matchers::Contains;

namespace {

constexpr ServiceInterval sixty{60000, 60};
constexpr LastService served{92400, 2021y / March / 15};
constexpr ServiceNow today{131800, 2026y / November / 25, 14000};

constexpr auto unknown = std::nullopt;

bool same(std::optional<year_month_day> a, year_month_day b) { return a && *a == b; }

}  // namespace

TEST_CASE("20 600 km are left by distance but the age has been over since March 2026") {
    const auto due = service_due(sixty, served, today);
    CHECK(due.state == DueState::overdue);
    CHECK(*due.next_km == 152400);
    CHECK(*due.km_left == 20600);
    CHECK(same(due.date_by_age, 2026y / March / 15));
    CHECK(*due.days_left == -255);
    REQUIRE(due.date_by_distance);
    CHECK(due.date_by_distance->year() == 2028y);
    CHECK(due.date_by_distance->month() == May);
    CHECK(same(due.due, 2026y / March / 15));
}

TEST_CASE("severe use at 0.6 is overdue both ways") {
    const auto due = service_due(sixty, served, today, 0.6);
    CHECK(due.state == DueState::overdue);
    CHECK(*due.km_left == Approx(-3400));
    CHECK(same(due.date_by_age, 2024y / March / 15));
}

TEST_CASE("an unknown history is due now") {
    const auto due = service_due(sixty, {unknown, unknown}, today);
    CHECK(due.state == DueState::history_unknown);
    CHECK(same(due.due, today.date));
    CHECK_FALSE(due.next_km);
    CHECK_FALSE(due.days_left);
}

TEST_CASE("a history known only in part is due now, unless the known part is overdue") {
    CHECK(service_due(sixty, {92400, unknown}, today).state == DueState::history_unknown);
    CHECK(service_due(sixty, {unknown, 2025y / May / 1}, today).state == DueState::history_unknown);
    CHECK(same(service_due(sixty, {92400, unknown}, today).due, today.date));
    const auto late = service_due(sixty, {unknown, 2021y / March / 15}, today);
    CHECK(late.state == DueState::overdue);
    CHECK(same(late.due, 2026y / March / 15));
}

TEST_CASE("a part of the history that no interval asks for is not missed") {
    const auto due = service_due({60000, unknown}, {92400, unknown}, today);
    CHECK(due.state == DueState::later);
    CHECK(due.due == due.date_by_distance);
}

TEST_CASE("filled for life means no interval stated, not never and not now") {
    const auto due = service_due({unknown, unknown}, served, today);
    CHECK(due.state == DueState::no_interval_stated);
    CHECK_FALSE(due.due);
}

TEST_CASE("the earlier of age and distance decides") {
    const ServiceNow busy{100000, 2022y / March / 15, 40000};
    const auto due = service_due(sixty, served, busy);
    CHECK(due.state == DueState::later);
    CHECK(due.due == due.date_by_distance);
    CHECK(*due.due < *due.date_by_age);
}

TEST_CASE("without a yearly distance no date is predicted, but overdue is still due by today") {
    const auto later = service_due(sixty, served, {100000, 2022y / March / 15, unknown});
    CHECK_FALSE(later.date_by_distance);
    CHECK(later.due == later.date_by_age);
    const auto over = service_due(sixty, served, {160000, 2022y / March / 15, unknown});
    CHECK(over.state == DueState::overdue);
    CHECK(same(over.due, 2022y / March / 15));
}

TEST_CASE("the day itself and the kilometre itself are due today") {
    CHECK(service_due({unknown, 12}, {unknown, 2025y / May / 1}, {1000, 2026y / May / 1, unknown}).state ==
          DueState::due_today);
    CHECK(service_due({10000, unknown}, {0, unknown}, {10000, 2026y / May / 1, unknown}).state == DueState::due_today);
    CHECK(service_due({unknown, 12}, {unknown, 2025y / May / 1}, {1000, 2026y / May / 2, unknown}).state ==
          DueState::overdue);
}

TEST_CASE("months run to the end of a shorter month and parts of a month round down") {
    CHECK(months_after(2024y / January / 31, 1) == 2024y / February / 29);
    CHECK(months_after(2023y / January / 31, 1) == 2023y / February / 28);
    CHECK(months_after(2024y / February / 29, 12) == 2025y / February / 28);
    CHECK(months_after(2025y / May / 1, 0.5) == 2025y / May / 16);
    CHECK(months_after(2021y / March / 15, 60 * 0.6) == 2024y / March / 15);
}

TEST_CASE("a severer use is never due later, and a longer interval never sooner") {
    std::mt19937_64 random(413);
    std::uniform_int_distribution<int> km(1000, 120000), months(1, 120), day(0, 6000);
    std::uniform_real_distribution<double> factor(0.3, 0.99);
    for (int i = 0; i < 2000; ++i) {
        const auto last = year_month_day(sys_days(2008y / January / 1) + days(day(random)));
        const auto now = year_month_day(sys_days(last) + days(day(random)));
        const ServiceInterval interval{km(random), months(random)};
        const double last_km = km(random);
        const ServiceNow at{last_km + km(random), now, 12000};
        const double severe = factor(random);
        CAPTURE(i, severe);
        const auto normal = service_due(interval, {last_km, last}, at);
        const auto hard = service_due(interval, {last_km, last}, at, severe);
        CHECK(*hard.due <= *normal.due);
        CHECK(*hard.next_km < *normal.next_km);
        CHECK(*hard.date_by_age <= *normal.date_by_age);
        CHECK(*normal.due <= *normal.date_by_age);
        CHECK((normal.state == DueState::overdue) == (*normal.km_left < 0 || *normal.days_left < 0));
    }
}

TEST_CASE("histories that cannot be are refused") {
    CHECK_THROWS_WITH(service_due(sixty, {140000, unknown}, today),
                      "odometer at the last service: got 140000 km: valid range is 0 to 131800 km");
    CHECK_THROWS_WITH(service_due(sixty, {92400, 2026y / November / 26}, today),
                      "date of the last service: got 2026-11-26: valid range is 1900-01-01 to "
                      "today, 2026-11-25");
    CHECK_THROWS_WITH(service_due(sixty, {92400, 2025y / February / 29}, today),
                      Contains("date of the last service: got 2025-02-29"));
    CHECK_THROWS_WITH(service_due(sixty, served, today, 0), "severe factor: got 0: valid range is 0.3 to 1");
    CHECK_THROWS_WITH(service_due({0, unknown}, served, today), Contains("service interval: got 0 km"));
    CHECK_THROWS_AS(service_due(sixty, served, {std::nan(""), today.date, unknown}), std::domain_error);
    CHECK_THROWS_AS(service_due(sixty, served, {131800, today.date, 0}), std::domain_error);
}
