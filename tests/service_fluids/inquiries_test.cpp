// The inquiries of service fluids, asked as on the command line.
#include <catch2/catch.hpp>

#include "tests/fakes.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

FakeFacts tables() {
    FakeFacts facts;
    facts.table("service_fluids_viscosities",
                "viscosity,beside,winter,cranking_mpas,cranking_c,pumping_c,kv100_min_mm2_s,kv100_below_mm2_s,hths_"
                "mpas\n10W,,yes,7000,-25,-30,4.1,,\n40,0W|5W|10W,no,,,,12.5,16.3,3.5\n40,,no,,,,12.5,16.3,3.7\n",
                Evidence::standard);
    facts.table("service_fluids_freezing", "base,glycol_pct,freeze_c\nethylene_glycol,0,0\nethylene_glycol,40,-24.5\n",
                Evidence::memory);
    facts.table("service_fluids_freezing", "base,glycol_pct,freeze_c\nethylene_glycol,50,-37\nethylene_glycol,60,-52\n",
                Evidence::common_practice);
    facts.table("service_fluids_coolant_volumes", "line,condition,total_l,drained_l,bleeding\ntest-line,,8.4,1,\n");
    facts.table("service_fluids_oil_volumes",
                "line,condition,without_filter_l,with_filter_l,dry_l,low_to_full_l\ntest-line,drive=2wd,4.2,4.6,,\n"
                "test-line,drive=4wd,6.7,7.4,,\n");
    facts.table("service_fluids_oil_changes",
                "line,condition,interval_km,interval_months,severe_factor,words\ntest-line,,15000,12,0.6,\n");
    return facts;
}

}  // namespace

TEST_CASE("an exact row is as firm as the row, and a point between two as the weaker of them") {
    const auto exact = ask(instance(), "freeze-point", {{"base", "ethylene_glycol"}, {"share", "50 %"}}, tables());
    CHECK(line_text(exact, "freezing point") == "-37 degC");
    CHECK(exact.lines.at(1).source.evidence == Evidence::common_practice);
    const auto between = ask(instance(), "freeze-point", {{"base", "ethylene_glycol"}, {"share", "45 %"}}, tables());
    CHECK(between.lines.at(1).source.evidence == Evidence::memory);
    CHECK_THROWS_WITH(ask(instance(), "freeze-point", {}, tables()), Contains("got neither"));
    CHECK(ask(instance(), "freeze-point", {{"share", "50 %"}}, FakeFacts()).verdict == Verdict::not_recorded);
}

TEST_CASE("what to draw off comes from the vehicle's own circuit, and more than the plug gives is said") {
    FakeVehicle vehicle;
    vehicle.tell("coolant_freeze_point", "-24.5 degC");
    const auto answer = ask(instance(), "draw-off", {}, tables(), &vehicle);
    CHECK(line_text(answer, "draw off") == "1.4 L");  // 8.4 x (50 - 40) / (100 - 40)
    CHECK_THAT(joined(answer.cautions), Contains("the rest stays in the block"));
    CHECK(ask(instance(), "draw-off", {{"total", "8 L"}}, tables()).verdict == Verdict::not_recorded);
    const auto weaker_mix = ask(instance(), "draw-off", {{"total", "8 L"}, {"have", "60 %"}}, tables());
    CHECK_THAT(weaker_mix.headline, Contains("distilled water"));
}

TEST_CASE("two volumes that may both hold are not chosen between") {
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    CHECK(ask(instance(), "fill", {}, tables(), &vehicle).verdict == Verdict::check_first);
    FakeVehicle petrol;
    petrol.may_be("drive", {"2wd"});
    CHECK_THAT(ask(instance(), "fill", {}, tables(), &petrol).headline, Contains("4.6 L go in"));
}

TEST_CASE("the class 40 is looked up beside its winter class, and the cold is weighed by the coldest start") {
    const auto answer = ask(instance(), "oil-class",
                            {{"wanted", "5W-40"}, {"offered", "10W-40"}, {"coldest", "-20 degC"}}, tables());
    CHECK(line_text(answer, "40: at 150 °C and high shear at least") == "3.5 mPa s");
    CHECK_THAT(line_text(answer, "the coldest start against its class"), Contains(": enough"));
    CHECK(answer.verdict == Verdict::check_first);
    const auto other = ask(instance(), "oil-class", {{"wanted", "15W-40"}, {"offered", "15W-40"}}, tables());
    CHECK(line_text(other, "40: at 150 °C and high shear at least") == "3.7 mPa s");
}

TEST_CASE("hard use takes the recorded factor, and nobody's word leaves both ends open") {
    FakeVehicle vehicle;
    vehicle.tell("engine_oil_changed_at", "80000 km").tell("engine_oil_changed", "2026-08");
    const std::vector<std::pair<std::string, std::string>> now{{"odometer", "90000 km"}, {"today", "2026-11-29"}};
    auto hard = now;
    hard.emplace_back("hard", "yes");
    const auto open = ask(instance(), "oil-due", now, tables(), &vehicle);
    CHECK(open.verdict == Verdict::check_first);
    CHECK(line_text(open, "overdue by distance, in hard use") == "1000 km");  // 80 000 + 15 000 x 0.6
    CHECK(ask(instance(), "oil-due", hard, tables(), &vehicle).verdict == Verdict::does_not_fit);
}

TEST_CASE("asked, DOT 5 and DOT 5.1 never replace each other, and a higher grade is still not the exact one") {
    // 49 CFR 571.116: only the base differs.
    for (const auto& [wanted, offered] : {std::pair{"DOT 5.1", "DOT 5"}, {"DOT 5", "DOT 5.1"}, {"DOT 4", "HSMO"}}) {
        const auto answer = ask(instance(), "brake-fluid", {{"wanted", wanted}, {"offered", offered}}, FakeFacts());
        CHECK(answer.verdict == Verdict::does_not_fit);
        CHECK_THAT(answer.headline, Contains("a base is never crossed"));
    }
    CHECK(ask(instance(), "brake-fluid", {{"wanted", "DOT 4"}, {"offered", "DOT 3"}}, FakeFacts()).verdict ==
          Verdict::does_not_fit);
    const auto higher = ask(instance(), "brake-fluid", {{"wanted", "DOT 4"}, {"offered", "DOT 5.1"}}, FakeFacts());
    CHECK(higher.verdict == Verdict::check_first);
    CHECK_THAT(higher.headline, Contains("still the exact grade"));
    CHECK(ask(instance(), "brake-fluid", {{"wanted", "DOT 4"}, {"offered", "DOT 4"}}, FakeFacts()).verdict ==
          Verdict::fits);
}
