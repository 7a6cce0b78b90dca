// Level, service, condition, claims and grades, asked as on the command line. Check values: API MPMS 11.1, SAE J306 and
// J300, 49 CFR 571.116; fluids and vehicles are invented.
#include <catch2/catch.hpp>

#include <set>

#include "tests/transmission_fluids/shelf.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

// ---------------------------------------------------------------- level

TEST_CASE("8.5 L of 870 kg/m3 grow by 0.39 L from 20 to 80 degC") {
    // API MPMS 11.1 / ASTM D1250, lubricating oils: 8.8916 L.
    const auto answer = asked("level-rise", {{"volume", "8.5"}, {"check_temp", "80"}, {"density", "870"}});
    CHECK(line_text(answer, "rise in volume") == "0.39 L");
    CHECK_THAT(joined(answer.next), Contains("Give area"));
    const auto on_stick = asked("level-rise", {{"volume", "9"}, {"check_temp", "80"}, {"area", "0.105"}});
    CHECK(line_text(on_stick, "rise of the level") == "4.0 mm");  // 850 kg/m3: 9 L x 4.72 % over 0.105 m2
    CHECK(on_stick.series.at(0).y_unit == "mm");
}

TEST_CASE("the product's own density is taken when it is on record") {
    const auto answer = asked("level-rise", {{"volume", "8.5"}, {"check_temp", "80"}, {"fluid", "P-1"}});
    CHECK(line_text(answer, "P-1: density at 15 °C") == "870 kg/m3");
    CHECK(line_text(answer, "rise in volume") == "0.39 L");
}

TEST_CASE("a cold reading at the hot mark is overfull by what the fluid will grow") {
    const auto vehicle = shallow();
    const auto answer = asked(
        "overfill", {{"reading", "0"}, {"temp", "20"}, {"engine_running", "yes"}, {"vehicle_level", "yes"}}, &vehicle);
    CHECK_FALSE(answer.verdict);
    const auto unsaid = asked("overfill", {{"reading", "0"}, {"temp", "20"}, {"engine_running", "yes"}}, &vehicle);
    CHECK(unsaid.verdict == Verdict::check_first);
    CHECK_THAT(unsaid.headline, Contains("Only if the vehicle stood level: nobody has said."));
    CHECK(line_text(answer, "too much") == "0.42 L");  // 10.2 L at 75 degC is 0.42 L less at 20 degC (850 kg/m3)
    CHECK_THAT(joined(answer.assumptions), Contains("75 °C, the middle of the maker's window"));
}

TEST_CASE("a reading with the engine standing where it must run means nothing") {
    const auto vehicle = shallow();
    const auto stood = asked("overfill", {{"reading", "20"}, {"temp", "75"}, {"engine_running", "no"}}, &vehicle);
    CHECK(stood.verdict == Verdict::not_recorded);
    CHECK_THAT(stood.headline, Contains("not taken under the maker's terms"));
    CHECK(line_text(stood, "too much").empty());
    CHECK(asked("overfill", {{"reading", "20"}, {"temp", "75"}}, &vehicle).verdict == Verdict::check_first);
    CHECK(asked("overfill", {{"reading", "20"}, {"temp", "75"}, {"engine_running", "yes"}, {"vehicle_level", "no"}},
                &vehicle)
              .verdict == Verdict::check_first);
    CHECK(asked("overfill", {{"reading", "20"}, {"engine_running", "yes"}}, &vehicle).verdict == Verdict::not_recorded);
}

TEST_CASE("ramps of 165 mm under a 2.7 m wheelbase put the stick 12 mm off") {
    // asin(165/2700) = 3.5 degrees; 200 mm x tan = 12.2 mm.
    const auto vehicle = shallow();
    const auto answer = asked("tilt-error", {{"ramp", "165"}, {"wheelbase", "2.7 m"}}, &vehicle);
    CHECK(line_text(answer, "angle of the vehicle") == "3.5 degrees");
    CHECK(line_text(answer, "the level reads off by") == "12.2 mm");
    CHECK(line_text(answer, "filled by it, that would be off by") == "1.29 L");
    CHECK_THAT(answer.headline, Contains("all four wheels raised equally or none"));
    REQUIRE(answer.pictures.size() == 1);
    CHECK_THAT(answer.pictures[0].text_equivalent, Contains("12.2 mm too high on one side"));
    CHECK_THROWS_WITH(asked("tilt-error", {{"ramp", "900"}, {"wheelbase", "1500"}}),
                      Contains("ramp height: got 900 mm: valid range is 0 to 750 mm"));
}

// ---------------------------------------------------------------- service and condition

TEST_CASE("60 000 km and 60 months: by age overdue, by distance not") {
    // Last 15 March 2021 at 92 400; today 25 November 2026 at 131 800; worked by hand.
    const Inputs history{{"interval", "60000"},          {"interval_age", "60"}, {"last_at", "92400"},
                         {"last_changed", "2021-03-15"}, {"odometer", "131800"}, {"today", "2026-11-25"},
                         {"km_per_year", "14000"},       {"severe", "no"}};
    const auto answer = asked("service-due", history);
    CHECK(answer.verdict == Verdict::does_not_fit);
    CHECK(answer.headline == "Overdue by age since 2026-03-15.");
    CHECK(line_text(answer, "left by distance") == "20600 km");
    CHECK_THAT(line_text(answer, "that is about"), Contains("2028-05"));
    auto severe = history;
    severe.back() = {"severe", "yes"};
    CHECK(asked("service-due", severe).headline == "Overdue by 3400 km and by age since 2024-03-15.");  // factor 0.6
}

TEST_CASE("an unknown history is due now, and filled for life is not never") {
    const auto unknown = asked("service-due", {{"interval", "60000"}, {"odometer", "131800"}, {"today", "2026-11-25"}});
    CHECK(unknown.verdict == Verdict::check_first);
    CHECK_THAT(unknown.headline, Contains("Due now"));
    FakeFacts facts;
    facts.table("transmission_fluids_intervals",
                "line,condition,interval_km,interval_months,severe_factor,words\ntest-line,,,,,filled for life\n");
    const FakeVehicle vehicle;
    const auto life = ask(instance(), "service-due", {{"odometer", "131800"}, {"today", "2026-11-25"}}, facts,
                          &vehicle);
    CHECK(life.verdict == Verdict::not_recorded);
    CHECK(line_text(life, "the source's words") == "filled for life");
    CHECK_THAT(life.headline, Contains("not the same as never"));
}

TEST_CASE("interval and history are taken from the catalog and from what was told") {
    auto vehicle = shallow();
    vehicle.tell("odometer", "131800 km")
        .tell("fluid_changed_at", "92400 km")
        .tell("fluid_changed", "2021-03")
        .tell("severe_use", "no");
    CHECK(asked("service-due", {{"today", "2026-11-25"}}, &vehicle).headline == "Overdue by age since 2026-03-01.");
    CHECK(asked("service-due", {{"today", "2023-11-25"}}, &vehicle).verdict == Verdict::fits);
}

TEST_CASE("intervals on record that differ are no interval that is not stated") {
    FakeFacts facts;
    facts.table("transmission_fluids_intervals",
                "line,condition,interval_km,interval_months,severe_factor,words\n"
                "test-line,drive=2wd,60000,,,\ntest-line,drive=4wd,40000,,,\n");
    const auto vehicle = FakeVehicle().may_be("drive", {"2wd", "4wd"});
    const auto answer = ask(instance(), "service-due", {{"odometer", "131800"}, {"today", "2026-11-25"}}, facts,
                            &vehicle);
    CHECK(answer.verdict == Verdict::check_first);
    CHECK(answer.headline == "Cannot tell yet: the records of the interval differ.");
    CHECK_THAT(joined(answer.next), Contains("give interval: the maker's distance."));
}

TEST_CASE("the service that is due is that of the gearbox fluid, with the inputs that core fills") {
    const auto due = instance().services_due();
    REQUIRE(due.size() == 1);
    CHECK(due[0].role == "gearbox-fluid");
    std::set<std::string> names;
    for (const auto& input : due[0].inquiry.inputs) names.insert(input.name);
    for (const auto& name :
         {due[0].today, due[0].last_changed, due[0].last_at_km, due[0].odometer_km, due[0].km_per_year})
        CHECK(names.contains(name));
}

TEST_CASE("dates that do not exist or lie ahead are refused") {
    const Inputs inputs{{"interval_age", "60"}, {"today", "2026-11-25"}, {"last_changed", ""}};
    for (const char* wrong : {"2021-13", "2021-02-30", "15.3.2021", "2021", "2021-3-1", "2021-03-1x"}) {
        auto bad = inputs;
        bad.back().second = wrong;
        INFO(wrong);
        CHECK_THROWS_WITH(asked("service-due", bad),
                          Contains("last change: got ") && Contains("written 2021-03 or 2021-03-15"));
    }
    auto ahead = inputs;
    ahead.back().second = "2027-01";
    CHECK_THROWS_WITH(asked("service-due", ahead), Contains("date of the last service: got 2027-01-01"));
}

TEST_CASE("milky fluid: do not drive; black and burnt: look at the pan; colour alone: look further") {
    // Common practice, no source.
    CHECK(asked("fluid-condition", {{"colour", "milky"}}).verdict == Verdict::does_not_fit);
    CHECK_THAT(asked("fluid-condition", {{"colour", "milky"}}).headline, Contains("Do not drive"));
    const auto burnt = asked("fluid-condition",
                             {{"colour", "black"}, {"smell", "burnt"}, {"clarity", "clear"}, {"feel", "smooth"}});
    CHECK(burnt.verdict == Verdict::check_first);
    CHECK_THAT(joined(burnt.next), Contains("Drop the pan"));
    CHECK(asked("fluid-condition", {{"colour", "red"}}).verdict == Verdict::check_first);
    CHECK(asked("fluid-condition", {{"colour", "brown"}, {"smell", "none"}, {"clarity", "clear"}, {"feel", "smooth"}})
              .verdict == Verdict::fits);
    CHECK(asked("fluid-condition", {}).verdict == Verdict::not_recorded);
}

// ---------------------------------------------------------------- claims and grades

TEST_CASE("a claim is given word for word with who makes it, and a seller's alone is no yes") {
    const auto approved = asked("claims", {{"fluid", "P-1"}});
    CHECK(approved.verdict == Verdict::fits);
    CHECK_THAT(all_text(approved), Contains("\"Approved under PL-1\", says Owner A, read 2026-05-01"));
    const auto seller = asked("claims", {{"fluid", "ALL-1"}});
    CHECK(seller.verdict == Verdict::check_first);
    CHECK_THAT(all_text(seller), Contains("\"Suitable for use in place of PL-1\", says Seller C") &&
                                     Contains("its seller says suitable for"));
    CHECK(asked("claims", {{"fluid", "P-4"}}).verdict == Verdict::not_recorded);
    CHECK_THAT(all_text(asked("claims", {{"fluid", "PL-1"}})), Contains("by name only: the limits are not available"));
}

TEST_CASE("7.5 mm2/s is class 80 by the 2005 edition and 75 by the 2019 one") {
    CHECK_THAT(asked("oil-grade", {{"scale", "j306-2005"}, {"kv100", "7.5"}}).headline,
               Contains("class 80 of SAE J306, 2005"));
    CHECK_THAT(asked("oil-grade", {{"scale", "j306-2019"}, {"kv100", "7.5"}}).headline,
               Contains("class 75 of SAE J306, February 2019"));
}

TEST_CASE("6.5 mm2/s falls in two classes of J300 and the high-shear viscosity decides") {
    const auto both = asked("oil-grade", {{"scale", "j300-2015"}, {"kv100", "6.5"}});  // 12 and 16; 8 ends below 6.1
    CHECK(both.verdict == Verdict::check_first);
    CHECK_THAT(both.headline, Contains("12, 16"));
    CHECK(asked("oil-grade", {{"scale", "j300-2015"}, {"kv100", "6.5"}, {"hths", "2.1"}}).verdict == std::nullopt);
}

TEST_CASE("engine and gear grades are separate scales, and JASO classes have names only") {
    const auto across = asked(
        "oil-grade", {{"scale", "j306-2019"}, {"wanted", "90"}, {"offered", "40"}, {"offered_scale", "j300-2015"}});
    CHECK(across.verdict == Verdict::not_recorded);
    const auto jaso = asked("oil-grade", {{"scale", "jaso-m315"}, {"wanted", "1-A13"}, {"offered", "1-A-LV13"}});
    CHECK(jaso.verdict == Verdict::not_recorded);
    CHECK(line_text(jaso, "limits") == "limits not available");
    CHECK(asked("oil-grade", {{"scale", "jaso-m315"}, {"wanted", "1-A13"}, {"offered", "1-A13"}}).verdict ==
          Verdict::fits);
}

TEST_CASE("80W-90 is not offered where 75W-90 is called for, and an unknown grade is refused") {
    CHECK(asked("oil-grade", {{"scale", "j306-2019"}, {"wanted", "75W-90"}, {"offered", "80W-90"}}).verdict ==
          Verdict::does_not_fit);
    CHECK(asked("oil-grade", {{"scale", "j306-2019"}, {"wanted", "80W-90"}, {"offered", "75W-90"}}).verdict ==
          Verdict::fits);
    CHECK_THROWS_WITH(asked("oil-grade", {{"scale", "j306-2019"}, {"wanted", "75W90"}, {"offered", "90"}}),
                      Contains("SAE J306, February 2019 grade: got 75W90"));
}

TEST_CASE("32 mm2/s at 40 degC is ISO VG 32, and 36 is between two classes") {
    CHECK_THAT(asked("oil-grade", {{"scale", "iso-3448"}, {"kv40", "32"}}).headline, Contains("ISO VG 32"));
    CHECK_THAT(asked("oil-grade", {{"scale", "iso-3448"}, {"kv40", "36"}}).headline, Contains("between two classes"));
}
