// The distance of a year from odometer readings; what the odometer reminder says of weight.
#include <catch2/catch.hpp>

#include "core/shop/reminders.h"
#include "core/work/due_dates.h"

using namespace casebound;

TEST_CASE("the distance of a year comes from the oldest and the newest reading") {
    CHECK(km_per_year({{"2025-11-25", 117800}, {"2026-11-25", 131800}}) ==
          Approx(14000).margin(12));  // 14,000 in 365 days
    CHECK(km_per_year({{"2024-11-25", 100000}, {"2025-05-25", 130000}, {"2026-11-25", 128000}}) ==
          Approx(14000).margin(12));
}

TEST_CASE("readings a few days apart, one alone, or a clock that runs backwards give no distance of a year") {
    CHECK(km_per_year({}) == std::nullopt);
    CHECK(km_per_year({{"2026-11-25", 131800}}) == std::nullopt);
    CHECK(km_per_year({{"2026-11-01", 131000}, {"2026-11-25", 131800}}) == std::nullopt);  // one long trip is no year
    CHECK(km_per_year({{"2025-11-25", 150000}, {"2026-11-25", 90000}}) == std::nullopt);
    CHECK(km_per_year({{"2025-11-25", 150000}, {"2026-11-25", 150000}}) == std::nullopt);
}

TEST_CASE("a gross weight rating of 16,000 lb is not exempt, of 16,001 lb is, as 49 CFR 580.17(a)(1) says") {
    CHECK_FALSE(odometer_statement_exempt_by_weight(16000 * 0.45359237));
    CHECK(odometer_statement_exempt_by_weight(16001 * 0.45359237));
}
