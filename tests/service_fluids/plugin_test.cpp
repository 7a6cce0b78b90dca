// The domain of service fluids as core meets it: examination, substitution, check, findings, holds, tightening.
#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/fakes.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

FakeFacts fleet() {
    FakeFacts facts;
    facts.table("service_fluids_oils",
                "group_key,viscosity,category,note\nO530,5W-30,API-SN,\nO540,5W-40,API-SP,\nO520,5W-20,API-SN,\n"
                "OLD,5W-30,API-SL,\nOD,5W-30,API-CK-4,\n");
    facts.table("service_fluids_categories",
                "category,series,place,words\nAPI-SL,api_gasoline,2,\nAPI-SN,api_gasoline,4,\nAPI-SP,api_gasoline,5,\n"
                "API-CK-4,api_diesel_ck4,1,\n");
    facts.table("service_fluids_coolants",
                "group_key,family,base,d3306_type,glycol_pct,note\nCO,organic,ethylene_glycol,I,100,\n"
                "CO50,organic,ethylene_glycol,III,50,\nCI,inorganic,ethylene_glycol,I,100,\n"
                "CH,hybrid_silicate,ethylene_glycol,I,100,\nCP,organic,propylene_glycol,II,100,\n");
    facts.table("service_fluids_mixes",
                "offered,present,may,words\nhybrid_silicate,inorganic,yes,\norganic,hybrid_silicate,no,falls out\n");
    facts.table("service_fluids_oil_filters",
                "group_key,form,thread_mm,pitch_mm,seal_outside_mm,height_mm\nF20,spin_on,20,1.5,70,92\n"
                "F20S,spin_on,20,1.5,70,76\nF18,spin_on,18,1.5,62,92\nFE,element,,,,92\n");
    facts.table("service_fluids_washers",
                "group_key,inside_mm,outside_mm,thick_mm,form\nW14,14.2,20,2,crush\nW14C,14.2,20,2,copper\n"
                "W16,16.2,22,2,copper\n");
    facts.table("service_fluids_plugs",
                "line,condition,plug,thread_mm,pitch_mm,torque_nm,words\ntest-line,,engine_oil,14,1.5,30,\n"
                "test-line,engine=2.6,oil_filter,20,1.5,,three quarters of a turn\n");
    facts.table("service_fluids_coolant_volumes",
                "line,condition,total_l,drained_l,bleeding\ntest-line,,8.4,6,open the screw\n");
    return facts;
}

struct Bench {
    FakeFacts facts = fleet();
    Engine engine{};
    FakeVehicle vehicle{};

    Services services() { return {facts, engine, &vehicle}; }
    Examination examined(const std::string& group, const std::string& role) {
        return instance().examine({role, group, ""}, services());
    }
    std::vector<Hold> holds() { return instance().holds(services()); }
};

Opinion opinion(const std::string& wanted, const std::string& offered) {
    Bench bench;
    return instance().may_stand_in({wanted, "", offered, "", "", false}, bench.services());
}

bool objects(const Examination& examination, const std::string& condition, Verdict at_most) {
    return std::any_of(examination.objections.begin(), examination.objections.end(),
                       [&](const Objection& one) { return one.condition == condition && one.at_most == at_most; });
}

}  // namespace

TEST_CASE("the viscosity that the maker prints is asked for, and another one is checked first") {
    Bench bench;
    CHECK(bench.examined("O530", "engine-oil").objections.empty());
    bench.vehicle.may_be("oil_viscosity_printed", {"5W-30", "10W-40"});
    const auto examination = bench.examined("O530", "engine-oil");
    CHECK(objects(examination, "not oil_viscosity_printed=5W-30", Verdict::check_first));
    CHECK(examination.questions == std::vector<std::string>{"oil_viscosity_printed"});
}

TEST_CASE("every family that no source lets in is flushed out first") {
    Bench bench;
    bench.vehicle.tell("coolant_family", "inorganic");
    const auto organic = bench.examined("CO", "coolant"), hybrid = bench.examined("CH", "coolant");
    CHECK(objects(organic, "coolant_family=inorganic", Verdict::check_first));
    CHECK_FALSE(objects(organic, "coolant_family=organic", Verdict::check_first));
    CHECK_FALSE(objects(hybrid, "coolant_family=inorganic", Verdict::check_first));
    CHECK(objects(hybrid, "coolant_family=organic", Verdict::check_first));
}

TEST_CASE("a circuit of which nothing is known is said, with what stays in the block and how to bleed it") {
    Bench bench;
    const auto cautions = joined(texts_of(bench.examined("CO", "coolant").cautions));
    CHECK_THAT(cautions, Contains("is not known: flush it out"));
    CHECK_THAT(cautions, Contains("2.4 L of the old stay in the block"));
    CHECK_THAT(cautions, Contains("to bleed: open the screw"));
    CHECK_THAT(cautions, Contains("concentrate: mix it"));
    CHECK_THAT(joined(texts_of(bench.examined("CO50", "coolant").cautions)), Contains("no water to it"));
}

TEST_CASE("a thread that was measured refuses filter and washer of another") {
    Bench bench;
    bench.vehicle.tell("oil_filter_thread", "18 mm").tell("oil_plug_thread", "16 mm");
    CHECK(objects(bench.examined("F20", "engine-oil-filter"), "oil_filter_thread<19.70", Verdict::does_not_fit));
    CHECK(objects(bench.examined("W14", "oil-plug-washer"), "oil_plug_thread>14.25", Verdict::does_not_fit));
    CHECK(bench.examined("W14", "coolant-plug-washer").objections.empty());
}

TEST_CASE("a crush washer never goes back, a can is looked behind for the old ring") {
    Bench bench;
    CHECK(bench.examined("W14", "oil-plug-washer").never_again);
    CHECK_FALSE(bench.examined("W14C", "oil-plug-washer").never_again);
    CHECK_THAT(joined(texts_of(bench.examined("F20", "engine-oil-filter").cautions)), Contains("old seal ring"));
    CHECK(bench.examined("FE", "engine-oil-filter").cautions.empty());
}

TEST_CASE("an oil stands in by both classes only") {
    CHECK(opinion("O530", "O540").at_most == Verdict::check_first);   // thicker
    CHECK(opinion("O530", "O520").at_most == Verdict::does_not_fit);  // thinner
    CHECK(opinion("OLD", "O530").at_most == Verdict::fits);           // a later class
    CHECK(opinion("O530", "OLD").at_most == Verdict::does_not_fit);   // an earlier one
    CHECK(opinion("O530", "OD").at_most == Verdict::check_first);     // of another series
    CHECK(opinion("O530", "NOBODY").at_most == Verdict::check_first);
    CHECK(opinion("O530", "O530").at_most == Verdict::fits);
}

TEST_CASE("a coolant stands in by family and glycol, and by quantity") {
    CHECK(opinion("CO", "CI").at_most == Verdict::check_first);
    CHECK(opinion("CI", "CH").at_most == Verdict::fits);  // a source permits it
    CHECK(opinion("CH", "CI").at_most == Verdict::check_first);
    CHECK(opinion("CO", "CP").at_most == Verdict::check_first);
    CHECK(opinion("CO", "CO50").at_most == Verdict::fits);
    CHECK_THAT(joined(opinion("CO", "CO50").conditions), Contains("another quantity"));
}

TEST_CASE("a filter stands in by thread and ring, a washer by its hole") {
    CHECK(opinion("F20", "F18").at_most == Verdict::does_not_fit);
    CHECK(opinion("F20", "FE").at_most == Verdict::does_not_fit);
    CHECK(opinion("F20", "F20S").at_most == Verdict::check_first);
    CHECK(opinion("W14", "W16").at_most == Verdict::does_not_fit);
    CHECK(opinion("W14", "W14C").at_most == Verdict::check_first);
    CHECK(opinion("OTHER", "OTHER-2").at_most == Verdict::fits);  // nothing of this domain's
}

TEST_CASE("brake fluid is exact only, and never where another fluid goes") {
    Bench bench;
    bench.facts.table("service_fluids_brake_fluids", "group_key,grade,base\nB4,DOT 4,glycol\nB5,DOT 5,silicone\n");
    bench.facts.table("groups", "group_key,kind\nB-1,brake-fluid\nB-2,brake-fluid\nO530,engine-oil\n");
    const auto swapped = [&](const char* wanted, const char* offered) {
        return instance().may_stand_in({wanted, "", offered, "", "", false}, bench.services());
    };
    for (const auto& [wanted, offered] :
         {std::pair{"B4", "B5"}, {"B5", "B4"}, {"B4", "O530"}, {"O530", "B4"}, {"B-1", "B-2"}})
        CHECK(swapped(wanted, offered).at_most == Verdict::does_not_fit);
    CHECK_THAT(joined(swapped("B4", "B5").reasons), Contains("a base is never crossed"));
    CHECK(objects(bench.examined("B4", "engine-oil"), "", Verdict::does_not_fit));
    CHECK(objects(bench.examined("O530", "brake-fluid"), "", Verdict::does_not_fit));
    CHECK(bench.examined("B4", "brake-fluid").objections.empty());
}

TEST_CASE("a brake fluid's base and limits are those of the law for its grade") {
    FakeFacts facts;
    facts.table("service_fluids_brake_fluids",
                "group_key,grade,base,dry_boiling_min_c,wet_boiling_min_c,kv_minus_40_max_mm2_s,kv_100_min_mm2_s\n"
                "A,DOT 5,glycol,260,180,900,\nB,DOT 4,glycol,230,150,1800,1.5\nC,DOT 3,glycol,205,140,1500,1.5\n"
                "D,,mineral,,,,\n");
    facts.table("service_fluids_brake_limits",
                "grade,base,dry_boiling_min_c,wet_boiling_min_c,kv_minus_40_max_mm2_s,kv_100_min_mm2_s\n"
                "DOT 4,glycol,230,155,1800,1.5\nDOT 4,glycol,205,155,1800,1.5\n");
    const auto faults = instance().check(facts, "test-pack");
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].column == "base");
    CHECK(faults[1].column == "wet_boiling_min_c");
    CHECK(faults[2].column == "dry_boiling_min_c");
    CHECK(faults[2].origin.file == "service_fluids_brake_limits.csv");
}

TEST_CASE("oil waits while it is milky, until the circuit was tested tight by somebody here") {
    Bench bench;
    bench.vehicle.tell("engine_oil_look", "milky+fuel_smell");
    REQUIRE(bench.holds().size() == 1);
    CHECK(bench.holds()[0].roles == std::vector<std::string>{"engine-oil", "engine-oil-filter"});
    Bench hearsay = bench, tested = bench, alternatives;
    hearsay.vehicle.tell("cooling_pressure_test", "tight", TellEvidence::seller_said);
    CHECK(hearsay.holds().size() == 1);
    tested.vehicle.tell("cooling_pressure_test", "tight");
    CHECK(tested.holds().empty());
    alternatives.vehicle.tell("engine_oil_look", "sound|milky");
    CHECK(alternatives.holds().size() == 1);
}

TEST_CASE("coolant waits for a leak, for oil in it and for what is missing") {
    Bench leaks, oily, low, mended, sound;
    leaks.vehicle.tell("cooling_pressure_test", "leaks").tell("coolant_level", "low");
    CHECK(leaks.holds().size() == 1);
    oily.vehicle.tell("coolant_look", "oily");
    CHECK(oily.holds().size() == 1);
    low.vehicle.tell("coolant_level", "low");
    CHECK_THAT(low.holds().at(0).reason, Contains("nobody has said where it went"));
    mended.vehicle.tell("coolant_level", "low").tell("cooling_pressure_test", "mended");
    CHECK(mended.holds().empty());
    sound.vehicle.tell("coolant_level", "right").tell("engine_oil_look", "sound").tell("coolant_look", "clean");
    CHECK(sound.holds().empty());
    CHECK(instance().findings(sound.services()).troubles.empty());
    CHECK(instance().findings(leaks.services()).troubles.size() == 2);
}

TEST_CASE("plugs and the filter are tightened as recorded, with the condition while it is open") {
    Bench bench;
    bench.vehicle.may_be("engine", {"2.6", "2.9d"});
    const auto plug = instance().tightening("oil-plug-washer", bench.services()).fasteners;
    REQUIRE(plug.size() == 1);
    CHECK(plug[0].what == "oil drain plug M14x1.5");
    CHECK(plug[0].tightening == "30 N·m");
    const auto filter = instance().tightening("engine-oil-filter", bench.services()).fasteners;
    REQUIRE(filter.size() == 1);
    CHECK(filter[0].tightening == "three quarters of a turn where engine=2.6");
    CHECK(instance().tightening("engine-oil", bench.services()).none_here);
    CHECK(instance().tightening("coolant-plug-washer", bench.services()).fasteners.empty());
}

TEST_CASE("the check names what cannot be in one row, and what one source says twice") {
    FakeFacts facts;
    facts.table("service_fluids_oils", "group_key,viscosity,category\nA,5W30,\nB,5W-30,\n");
    facts.table("service_fluids_viscosities",
                "viscosity,beside,winter,kv100_min_mm2_s,kv100_below_mm2_s\n5W,,no,3.8,\n30,,no,12.5,9.3\n");
    facts.table("service_fluids_coolants",
                "group_key,family,base,d3306_type,glycol_pct\nC,organic,propylene_glycol,I,100\n"
                "D,organic,ethylene_glycol,III,100\nE,organic,ethylene_glycol,I,50\nF,organic,ethylene_glycol,I,100\n");
    facts.table("service_fluids_oil_filters", "group_key,form,thread_mm,pitch_mm\nG,element,20,1.5\nH,spin_on,,1.5\n");
    facts.table("service_fluids_oil_changes", "line,interval_km,interval_months,severe_factor,words\ntest-line,,,,\n");
    facts.table("service_fluids_coolant_changes",
                "line,interval_km,interval_months,severe_factor,words\n"
                "test-line,,,0.5,for life\n");
    facts.table("service_fluids_mixes",
                "offered,present,may,words,source\norganic,inorganic,no,,one\norganic,inorganic,yes,,one\n"
                "organic,inorganic,yes,,two\n");
    facts.table("stand_ins", "offered,relation,wanted,condition,withdrawn\nC,supersedes,F,,\nC,stands_in_if,F,,\n");
    std::vector<std::string> columns;
    for (const auto& fault : instance().check(facts, "test-pack"))
        columns.push_back(fault.origin.file + ":" + std::to_string(fault.origin.line) + " " + fault.column);
    const std::vector<std::string> wanted{"service_fluids_oils.csv:2 viscosity",
                                          "service_fluids_viscosities.csv:2 winter",
                                          "service_fluids_viscosities.csv:3 kv100_min_mm2_s",
                                          "service_fluids_coolants.csv:2 base",
                                          "service_fluids_coolants.csv:3 glycol_pct",
                                          "service_fluids_coolants.csv:4 glycol_pct",
                                          "service_fluids_oil_filters.csv:2 thread_mm",
                                          "service_fluids_oil_filters.csv:3 pitch_mm",
                                          "service_fluids_oil_changes.csv:2 interval_km",
                                          "service_fluids_coolant_changes.csv:2 severe_factor",
                                          "stand_ins.csv:2 relation",
                                          "service_fluids_mixes.csv:3 may"};
    CHECK(columns == wanted);
    CHECK(instance().check(facts, "another-pack").empty());
}

TEST_CASE(
    "a drip that is coolant holds fresh coolant until the circuit is tight, and says what missing coolant may be") {
    Bench drips, tight;
    drips.vehicle.tell("drip_fluid", "coolant");
    REQUIRE(drips.holds().size() == 1);
    CHECK_THAT(drips.holds()[0].reason, Contains("coolant drips"));
    tight.vehicle.tell("drip_fluid", "coolant").tell("cooling_pressure_test", "mended");
    CHECK(tight.holds().empty());
    Bench low;
    low.facts.table(
        "imitators",
        "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
        "missing coolant,air that came out,test it,25,coolant,coolant_level=low,cooling_pressure_test=tight,"
        "cooling_pressure_test=leaks\n");
    low.vehicle.tell("coolant_level", "low");
    const auto cautions = instance().findings(low.services()).cautions;
    REQUIRE(cautions.size() == 1);
    CHECK(cautions[0].text == "missing coolant may be air that came out instead: test it (25 min)");
    CHECK(low.holds().size() == 1);  // the one that it always had: a job that only uses coolant up is about none
}
