// Classes, shares, washers and due dates against published figures and by generation.
#include <catch2/catch.hpp>

#include <random>
#include <stdexcept>

#include "plugins/service_fluids/science/coolant.h"
#include "plugins/service_fluids/science/due.h"
#include "plugins/service_fluids/science/viscosity.h"
#include "plugins/service_fluids/science/washer.h"

using namespace casebound::service_fluids;

namespace {

// A handbook of chemistry, propylene glycol by volume.
std::vector<FreezePoint> propylene() {
    return {{50, -33.3}, {0, 0}, {20, -6.7}, {40, -20.6}, {10, -2.2}, {30, -12.8}, {45, -26.7}};
}

Change by_km(double last_km, double now_km) {
    Change change;
    change.interval_km = 15000;
    change.last_at_km = last_km;
    change.odometer_km = now_km;
    change.today = day_from("today", "2026-11-29");
    return change;
}

}  // namespace

TEST_CASE("a viscosity class is read in its two parts, and what is none is refused") {
    CHECK(viscosity_grade("5W-30").winter == "5W");
    CHECK(viscosity_grade("5W-30").hot == "30");
    CHECK(viscosity_grade("30").winter.empty());
    CHECK(viscosity_grade("20W").hot.empty());
    for (const auto* none : {"", "5W30", "W-30", "5-30", "5W-", "5W-30-40", "5w-30", "555W-30", "SAE 30"})
        CHECK_THROWS_AS(viscosity_grade(none), std::domain_error);
}

TEST_CASE("a lower winter number starts in more cold, a lower hot number is thinner") {
    const auto difference = [](const char* offered, const char* wanted) {
        return against(viscosity_grade(offered), viscosity_grade(wanted));
    };
    CHECK(difference("0W-30", "5W-30").cold == Against::more);
    CHECK(difference("10W-30", "5W-30").cold == Against::less);
    CHECK(difference("5W-40", "5W-30").hot == Against::more);
    CHECK(difference("5W-20", "5W-30").hot == Against::less);
    CHECK(difference("5W-30", "5W-30").hot == Against::same);
    CHECK(difference("30", "5W-30").cold == Against::less);
    CHECK(difference("5W-30", "30").cold == Against::same);  // nothing is asked of the cold
}

TEST_CASE("the freezing point at each row is the row's own, and between two rows on their line") {
    const auto points = falling(propylene());
    for (const auto& row : propylene()) {
        CHECK(*freeze_at(points, row.glycol_pct) == Approx(row.freeze_c).margin(1e-9));
        CHECK(*share_at(points, row.freeze_c) == Approx(row.glycol_pct).margin(1e-9));
    }
    CHECK(*freeze_at(points, 42.5) == Approx((-20.6 - 26.7) / 2));
    CHECK_FALSE(freeze_at(points, 51));
    CHECK_FALSE(share_at(points, -40));
    CHECK_FALSE(freeze_at({}, 50));
}

TEST_CASE("where more glycol freezes earlier again the table ends") {
    auto points = propylene();
    points.push_back({100, -12});
    CHECK(falling(points).back().glycol_pct == 50);
}

TEST_CASE("what is drawn off and filled gives the share that was wanted, for generated circuits") {
    std::mt19937 random(1303);
    std::uniform_real_distribution<double> total(3, 20), have(0, 45), want(46, 60), fill(61, 100);
    for (int i = 0; i < 500; ++i) {
        const double total_l = total(random), have_pct = have(random), want_pct = want(random), fill_pct = fill(random);
        const double drawn_l = draw_off_l(total_l, have_pct, want_pct, fill_pct);
        CHECK(share_after_pct(total_l, have_pct, drawn_l, fill_pct) == Approx(want_pct));
        CHECK(draw_off_l(total_l, have_pct, want_pct, 100) <= drawn_l);  // concentrate takes the least
    }
    CHECK(draw_off_l(8, 33, 50, 100) == Approx(8 * 17.0 / 67));
    CHECK(draw_off_l(8, 60, 50, 0) == Approx(8 * 10.0 / 60));  // weaker, with water
    CHECK(draw_off_l(8, 50, 50, 50) == 0);
    CHECK_THROWS_WITH(draw_off_l(8, 33, 50, 40), Catch::Matchers::Contains("at least 50 %"));
    CHECK_THROWS_WITH(draw_off_l(8, 60, 50, 55), Catch::Matchers::Contains("at most 50 %"));
    CHECK_THROWS_AS(draw_off_l(0, 33, 50, 100), std::domain_error);
}

TEST_CASE("a washer goes over its thread and lies in the middle") {
    // Limit from memory.
    CHECK(washer_on(14.2, 14) == WasherAnswer::goes_on);
    CHECK(washer_on(15.5, 14) == WasherAnswer::goes_on);
    CHECK(washer_on(15.6, 14) == WasherAnswer::too_wide);
    CHECK(washer_on(13.9, 14) == WasherAnswer::too_tight);
    CHECK_THROWS_AS(washer_on(1.4, 14), std::domain_error);
}

TEST_CASE("due by distance or by time, whichever comes first, and halved in hard use") {
    auto change = by_km(80000, 94000);
    CHECK(due_of(change).state == DueState::later);
    CHECK(*due_of(change).km_left == 1000);
    change.factor = 0.5;
    CHECK(due_of(change).state == DueState::overdue);
    CHECK(*due_of(change).km_left == -6500);
    change.factor = 1;
    change.interval_months = 12;
    CHECK(due_of(change).state == DueState::history_unknown);
    change.last = day_from("last", "2025-11");
    CHECK(due_of(change).state == DueState::overdue);
    CHECK(day_text(*due_of(change).day) == "2026-11-01");
    change.last = day_from("last", "2025-12");
    CHECK(due_of(change).state == DueState::later);
    CHECK(due_of({}).state == DueState::no_interval);
}

TEST_CASE("what is overdue by one is due, whatever is not known of the other") {
    auto change = by_km(80000, 96000);
    change.interval_months = 12;
    CHECK(due_of(change).state == DueState::overdue);
}

TEST_CASE("an odometer that ran backwards, a day that never was and a change to come are refused") {
    CHECK_THROWS_AS(due_of(by_km(90000, 80000)), std::domain_error);
    for (const auto* none : {"2026", "2026-13", "2026-02-30", "29.11.2026", "2026/11/29", "2026-1-01", "2026-00"})
        CHECK_THROWS_AS(day_from("last", none), std::domain_error);
    auto change = by_km(80000, 90000);
    change.interval_months = 12;
    change.last = day_from("last", "2026-12");
    CHECK_THROWS_AS(due_of(change), std::domain_error);
    change.factor = 0.1;
    CHECK_THROWS_AS(due_of(change), std::domain_error);
}

TEST_CASE("a month is counted to the end of a shorter one") {
    Change change;
    change.interval_months = 6;
    change.last = day_from("last", "2026-08-31");
    change.today = day_from("today", "2026-11-29");
    CHECK(day_text(*due_of(change).day) == "2027-02-28");
}
