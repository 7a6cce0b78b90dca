// Brake fluid: 49 CFR 571.116 (FMVSS 116).
#include <catch2/catch.hpp>

#include "plugins/service_fluids/science/brake_fluid.h"

using namespace casebound::service_fluids;
using Catch::Matchers::Contains;
using V = BrakeFluidVerdict;

namespace {
V verdict(const char* offered, const char* wanted) { return brake_fluid_may_replace(offered, wanted).verdict; }
}  // namespace

TEST_CASE("brake fluid limits are those of 49 CFR 571.116, S5.1.1 to S5.1.4") {
    struct Row {
        const char* name;
        double dry_c, dry_f, wet_c, wet_f, cold;
    };
    for (const Row& r : {Row{"DOT 3", 205, 401, 140, 284, 1500},
                         {"DOT 4", 230, 446, 155, 311, 1800},
                         {"DOT 5", 260, 500, 180, 356, 900},
                         {"DOT 5.1", 260, 500, 180, 356, 900}}) {
        CAPTURE(r.name);
        const auto& grade = brake_fluid_grade(r.name);
        CHECK(*grade.dry_boiling_min_c == r.dry_c);
        CHECK(1.8 * *grade.dry_boiling_min_c + 32 == Approx(r.dry_f));
        CHECK(*grade.wet_boiling_min_c == r.wet_c);
        CHECK(1.8 * *grade.wet_boiling_min_c + 32 == Approx(r.wet_f));
        CHECK(*grade.kv_minus_40_max_mm2_s == r.cold);
        CHECK(*grade.kv_100_min_mm2_s == 1.5);  // DOT 5 and DOT 5.1 from memory
    }
    CHECK(*brake_fluid_grade("DOT 3").ph_min == 7.0);
    CHECK(*brake_fluid_grade("DOT 4").ph_max == 11.5);
    CHECK_FALSE(brake_fluid_grade("DOT 5").ph_min);  // exempt, from memory
    CHECK(brake_fluid_grade("DOT 5").colour == "purple");
    CHECK(brake_fluid_grade("DOT 3").colour == "colourless to amber");
}

TEST_CASE("DOT 5 and DOT 5.1 share every number and still never replace each other") {
    const auto& silicone = brake_fluid_grade("DOT 5");
    const auto& other = brake_fluid_grade("DOT 5.1");
    CHECK(silicone.dry_boiling_min_c == other.dry_boiling_min_c);
    CHECK(silicone.wet_boiling_min_c == other.wet_boiling_min_c);
    CHECK(silicone.kv_minus_40_max_mm2_s == other.kv_minus_40_max_mm2_s);
    CHECK(silicone.kv_100_min_mm2_s == other.kv_100_min_mm2_s);
    CHECK(verdict("DOT 5", "DOT 5.1") == V::base_differs);
    CHECK(verdict("DOT 5.1", "DOT 5") == V::base_differs);
    CHECK_THAT(brake_fluid_may_replace("DOT 5", "DOT 5.1").reasons.at(0),
               Contains("DOT 5 is silicone, DOT 5.1 is non-silicone"));
}

TEST_CASE("no fluid replaces one of another base") {
    for (const auto& a : brake_fluid_grades())
        for (const auto& b : brake_fluid_grades()) {
            CAPTURE(a.name, b.name);
            const auto answer = brake_fluid_may_replace(a.name, b.name);
            CHECK((answer.verdict == V::base_differs) == (a.base != b.base));
            CHECK((answer.verdict == V::same_grade) == (&a == &b));
            CHECK(answer.reasons.empty() ==
                  (answer.verdict == V::same_grade || answer.verdict == V::keeps_every_limit));
        }
}

TEST_CASE("mineral oil and glycol-type fluids exclude each other") {
    CHECK(verdict("HSMO", "DOT 4") == V::base_differs);
    CHECK(verdict("DOT 4", "HSMO") == V::base_differs);
}

TEST_CASE("DOT 5.1 keeps every limit of DOT 3 and DOT 4, not the reverse") {
    CHECK(verdict("DOT 5.1", "DOT 3") == V::keeps_every_limit);
    CHECK(verdict("DOT 5.1", "DOT 4") == V::keeps_every_limit);
    CHECK(verdict("DOT 4", "DOT 5.1") == V::falls_short);
    CHECK(verdict("DOT 3", "DOT 4") == V::falls_short);
}

TEST_CASE("DOT 4 boils higher than DOT 3 but may be thicker in the cold") {
    const auto answer = brake_fluid_may_replace("DOT 4", "DOT 3");
    CHECK(answer.verdict == V::falls_short);
    REQUIRE(answer.reasons.size() == 1);
    CHECK(answer.reasons[0] == "viscosity at -40 °C up to 1800 against 1500 mm2/s");
}

TEST_CASE("a boiling point of 265 °C may change by 5 °C") {
    CHECK(boiling_point_change_max_c(265) == Approx(5.0));
    CHECK(boiling_point_change_max_c(225) == 3.0);
    CHECK(boiling_point_change_max_c(205) == 3.0);
    CHECK_THROWS_AS(boiling_point_change_max_c(0), std::domain_error);
}

TEST_CASE("an unknown brake fluid grade is refused with those that exist") {
    CHECK_THROWS_WITH(brake_fluid_grade("DOT5"),
                      "brake fluid grade: got DOT5: valid range is DOT 3, DOT 4, DOT 5, DOT 5.1, HSMO");
}
