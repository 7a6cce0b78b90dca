// What the fluid domain objects to: a candidate on a vehicle, one fluid in the place of another, rows of a pack.
// Fluids, owners and vehicles are invented; the limit of 15 % is a default from memory.
#include <catch2/catch.hpp>

#include <random>
#include <sstream>

#include "plugins/transmission_fluids/rows/check.h"
#include "plugins/transmission_fluids/rows/examine.h"
#include "plugins/transmission_fluids/rows/stand_in.h"
#include "tests/fakes.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;
using transmission_fluids::check;
using transmission_fluids::examine;
using transmission_fluids::may_stand_in;

namespace {

const Engine engine;

constexpr const char* spec_columns =
    "group_key,gearbox_kind,owner,issued,kv40_mm2_s,kv100_mm2_s,jaso_class,sae_j306_grade,base\n";

FakeFacts specs() {
    FakeFacts facts;
    facts.table("transmission_fluids_specs",
                std::string(spec_columns) +
                    "OLD-2,planetary_automatic,Owner A,1998,35,7.3,1-A13,,\n"
                    "NEW-3,planetary_automatic,Owner A,2006,34,7.2,1-A13,,\n"
                    "THIN,planetary_automatic,Owner A,2009,28,5.8,1-A-LV13,,\n"
                    "BELT,belt_cvt,Owner B,2010,34,7.2,,,\n"
                    "CHAIN,chain_cvt,Owner B,2011,34,7.2,,,\n"
                    "WET,dual_clutch_wet,Owner B,2012,34,7.2,,,\n"
                    "CASE,transfer_case,Owner C,2003,36,7.4,,,\n"
                    "GEAR-75,manual,Owner C,2003,80,14.5,,75W-90,\n"
                    "GEAR-80,manual,Owner C,2003,120,14.2,,80W-90,\n"
                    "BARE,,,,,,,,\n",
                Evidence::maker);
    facts.table("transmission_fluids_gearboxes",
                "gearbox,gearbox_kind\nash-4,planetary_automatic\nreed-v,belt_cvt\nsorrel-5,manual\n", Evidence::maker);
    return facts;
}

Opinion swapped(const FakeFacts& facts, const std::string& wanted, const std::string& offered,
                const std::string& item = "", bool claimed = false) {
    return may_stand_in({wanted, "", offered, item, "", claimed}, {facts, engine, nullptr});
}

Opinion swapped(const std::string& wanted, const std::string& offered) { return swapped(specs(), wanted, offered); }

Examination examined(const FakeFacts& facts, const std::string& group, const VehicleView& vehicle,
                     const std::string& role = "gearbox-fluid") {
    return examine({role, group, ""}, {facts, engine, &vehicle});
}

const Objection* objection_on(const Examination& examination, const std::string& condition) {
    for (const auto& one : examination.objections)
        if (one.condition == condition) return &one;
    return nullptr;
}

std::vector<std::string> faults_of(const std::string& table, const std::string& csv, FakeFacts facts = {}) {
    facts.table(table, csv);
    std::vector<std::string> texts;
    for (const auto& fault : check(facts, "test-pack"))
        texts.push_back(std::to_string(fault.origin.line) + ":" + fault.column + ": " + fault.what);
    return texts;
}

}  // namespace

// ---------------------------------------------------------------- one fluid in the place of another

TEST_CASE("nothing speaks against a successor of the same kind and thickness") {
    const auto opinion = swapped("OLD-2", "NEW-3");
    CHECK(opinion.at_most == Verdict::fits);
    CHECK(opinion.reasons.empty());
    CHECK(opinion.conditions.empty());
}

TEST_CASE("planetary, belt, chain and dual clutch are never crossed, whatever the viscosity") {
    for (const char* wanted : {"NEW-3", "BELT", "CHAIN", "WET"})
        for (const char* offered : {"NEW-3", "BELT", "CHAIN", "WET"}) {
            INFO(offered << " for " << wanted);
            const auto opinion = swapped(wanted, offered);
            CHECK((opinion.at_most == Verdict::does_not_fit) == (std::string(wanted) != offered));
            if (std::string(wanted) != offered)
                CHECK_THAT(joined(opinion.reasons), Contains("kinds are never crossed"));
        }
}

TEST_CASE("a transfer case may take a gearbox fluid only by its maker's own text") {
    const auto opinion = swapped("CASE", "NEW-3");
    CHECK(opinion.at_most == Verdict::check_first);
    CHECK_THAT(joined(opinion.conditions), Contains("the maker of the unit permits it"));
}

TEST_CASE("more than 15 % thinner at 100 degC lowers the verdict with the arithmetic, and as from memory") {
    const auto opinion = swapped("NEW-3", "THIN");
    CHECK(opinion.at_most == Verdict::check_first);
    CHECK_THAT(joined(opinion.reasons), Contains("5.8 against 7.2 mm2/s at 100 °C: 19.4 % thinner, more than 15 %"));
    FakeFacts facts;
    facts.table(
        "transmission_fluids_specs",
        std::string(spec_columns) +
            "A,planetary_automatic,,,,6.0,,,\nB,planetary_automatic,,,,6.9,,,\nC,planetary_automatic,,,,6.91,,,\n",
        Evidence::maker);
    CHECK(swapped(facts, "A", "B").at_most == Verdict::fits);  // exactly 15 %
    const auto over = swapped(facts, "A", "C");
    CHECK(over.at_most == Verdict::check_first);
    CHECK(over.source.evidence == Evidence::memory);
}

TEST_CASE("a product's own data sheet counts before what is typical of its spec") {
    auto facts = specs();
    facts.table("transmission_fluids_products", "item,kv40_mm2_s,kv100_mm2_s,density_15c_kg_m3\nTHICK-1,60,9.0,\n");
    facts.table("items", "item,kind\nTHICK-1,transmission-fluid\n");
    CHECK(swapped(facts, "OLD-2", "NEW-3", "THICK-1").at_most == Verdict::check_first);
    CHECK(swapped(facts, "NEW-3", "NEW-3", "THICK-1").at_most == Verdict::check_first);
    CHECK(swapped(facts, "NEW-3", "NEW-3").at_most == Verdict::fits);
}

TEST_CASE("a JASO class is compared by name only, and it says that there are no limits") {
    const auto opinion = swapped("NEW-3", "THIN");
    CHECK_THAT(joined(opinion.reasons),
               Contains("JASO M315 class 1-A13 is called for, THIN has 1-A-LV13; limits not available"));
}

TEST_CASE("80W-90 for 75W-90 is questioned with the edition, 75W-90 for 80W-90 is not") {
    const auto opinion = swapped("GEAR-75", "GEAR-80");
    CHECK(opinion.at_most == Verdict::check_first);
    CHECK_THAT(joined(opinion.reasons), Contains("SAE J306, 2005, 80W-90 for 75W-90: cold limit of 75W is not kept"));
    CHECK(swapped("GEAR-80", "GEAR-75").at_most == Verdict::fits);
}

TEST_CASE("a base that is called for must be on record, and another one is a veto") {
    FakeFacts facts;
    facts.table(
        "transmission_fluids_specs",
        std::string(spec_columns) + "MIN,manual,,,,7,,,mineral\nSYN,manual,,,,7,,,synthetic\nUNSAID,manual,,,,7,,,\n");
    CHECK(swapped(facts, "MIN", "SYN").at_most == Verdict::does_not_fit);
    CHECK(swapped(facts, "MIN", "UNSAID").at_most == Verdict::check_first);
    CHECK_THAT(joined(swapped(facts, "MIN", "UNSAID").reasons), Contains("the base of UNSAID is not recorded"));
    CHECK(swapped(facts, "UNSAID", "MIN").at_most == Verdict::fits);
}

TEST_CASE("a seller's claim never makes it firmer; its words are shown") {
    auto facts = specs();
    facts.table("transmission_fluids_claims",
                "item,group_key,wording,words,claimed_by,seen\n"
                "ALL-1,NEW-3,suitable_for,Suitable for NEW-3,Seller S,2026-10-19\n"
                "FIRM-1,BELT,licensed,Licensed for OLD-2,Owner A,\n");
    const auto claimed = swapped(facts, "NEW-3", "NEW-3", "ALL-1", true);
    CHECK(claimed.at_most == Verdict::check_first);
    CHECK_THAT(joined(texts_of(claimed.cautions)), Contains("\"Suitable for NEW-3\", says Seller S, read 2026-10-19"));
    CHECK(swapped(facts, "OLD-2", "BELT", "FIRM-1").at_most == Verdict::does_not_fit);
}

TEST_CASE("what is not recorded is a question, never a yes") {
    const auto opinion = swapped("NEW-3", "NOBODY-KNOWS");
    CHECK(opinion.at_most == Verdict::check_first);
    CHECK_THAT(joined(opinion.reasons), Contains("what kind of gearbox NOBODY-KNOWS is made for is not recorded") &&
                                            Contains("viscosity at 100 °C of NOBODY-KNOWS is not recorded"));
    CHECK(opinion.conditions.size() == 2);
}

// Losing a cell about the offered fluid, or the kind or viscosity of either, never turns a doubt into a yes.
TEST_CASE("a substitution never gets better by losing evidence") {
    std::mt19937 random(315);
    const std::vector<std::string> kinds{"planetary_automatic", "belt_cvt", "manual", "transfer_case"};
    const std::vector<std::string> kv{"5.8", "6.9", "7.2", "7.4"}, jaso{"", "1-A13", "1-A-LV13"},
        grade{"", "75W-90", "80W-90"}, base{"", "mineral", "synthetic"};
    const auto any = [&](const auto& list) {
        return list[std::uniform_int_distribution<std::size_t>(0, list.size() - 1)(random)];
    };
    const auto opinion_of = [](const std::vector<std::string>& wanted, const std::vector<std::string>& offered) {
        std::ostringstream csv;
        csv << "group_key,gearbox_kind,kv100_mm2_s,jaso_class,sae_j306_grade,base,owner,issued,kv40_mm2_s\n";
        for (const auto* row : {&wanted, &offered})
            for (std::size_t i = 0; i < row->size(); ++i)
                csv << (i ? "," : "") << (*row)[i] << (i + 1 == row->size() ? "\n" : "");
        FakeFacts facts;
        facts.table("transmission_fluids_specs", csv.str());
        return swapped(facts, "W", "O").at_most;
    };
    int doubts = 0;
    for (int round = 0; round < 2000; ++round) {
        const std::vector<std::string> wanted{"W", any(kinds), any(kv), any(jaso), any(grade), any(base)};
        const std::vector<std::string> offered{"O", any(kinds), any(kv), any(jaso), any(grade), any(base)};
        const auto before = opinion_of(wanted, offered);
        if (before != Verdict::fits) ++doubts;
        for (std::size_t i = 2; i < offered.size(); ++i) {
            auto less = offered;
            less[i].clear();
            if (before != Verdict::fits) CHECK(opinion_of(wanted, less) != Verdict::fits);
        }
        auto less = wanted;
        less[2].clear();
        if (before != Verdict::fits) CHECK(opinion_of(less, offered) != Verdict::fits);
        CHECK(opinion_of({"W2"}, offered) != Verdict::fits);  // its whole row lost
        CHECK(opinion_of(wanted, {"O2"}) != Verdict::fits);
    }
    CHECK((doubts > 500 && doubts < 2000));
}

// ---------------------------------------------------------------- a candidate on a vehicle

TEST_CASE("a fluid for planetary automatics is stopped on the configurations with a belt gearbox, and only there") {
    const auto vehicle = FakeVehicle().may_be("gearbox", {"ash-4", "reed-v"});
    const auto planetary = examined(specs(), "NEW-3", vehicle);
    REQUIRE(planetary.objections.size() == 1);
    CHECK(planetary.objections[0].condition == "gearbox=reed-v");
    CHECK(planetary.objections[0].at_most == Verdict::does_not_fit);
    CHECK_THAT(planetary.objections[0].reason,
               Contains("NEW-3 is made for a planetary automatic; gearbox reed-v is a belt CVT"));
    CHECK(planetary.objections[0].source.evidence == Evidence::maker);
    const auto belt = examined(specs(), "BELT", vehicle);
    REQUIRE(belt.objections.size() == 1);
    CHECK(belt.objections[0].condition == "gearbox=ash-4");
}

TEST_CASE("a gearbox family whose kind is not recorded raises no objection, and neither does an unknown spec") {
    const auto vehicle = FakeVehicle().may_be("gearbox", {"ash-4", "unheard-of"});
    CHECK(examined(specs(), "NEW-3", vehicle).objections.empty());
    const auto unknown = examined(specs(), "NOBODY-KNOWS", vehicle);
    CHECK(unknown.objections.empty());
    CHECK_THAT(joined(texts_of(unknown.cautions)),
               Contains("what kind of gearbox NOBODY-KNOWS is made for is not recorded"));
}

TEST_CASE("the kind of gearbox read off the vehicle itself counts, even where the line knows no such attribute") {
    auto vehicle = FakeVehicle().may_be("gearbox", {"unheard-of"});
    vehicle.tell("gearbox_kind", "belt_cvt");
    const auto held = examined(specs(), "NEW-3", vehicle);
    const auto* all = objection_on(held, "gearbox_kind=belt_cvt");
    REQUIRE(all != nullptr);
    CHECK(all->at_most == Verdict::does_not_fit);
    CHECK(all->source.evidence == Evidence::measured);
    const auto line_knows = FakeVehicle().may_be("gearbox_kind", {"planetary_automatic", "belt_cvt"});
    CHECK(objection_on(examined(specs(), "NEW-3", line_knows), "gearbox_kind=belt_cvt") != nullptr);
}

TEST_CASE("every objection is on an attribute that the vehicle's line has") {
    const auto facts = specs();
    auto vehicle = FakeVehicle().may_be("gearbox", {"ash-4", "reed-v", "sorrel-5"}).may_be("drive", {"2wd"});
    vehicle.tell("gearbox_kind", "manual").tell("fluid_label", "OLD-2");
    for (const char* group : {"NEW-3", "BELT", "CASE", "GEAR-75", "BARE", "NOBODY-KNOWS"})
        for (const char* role : {"gearbox-fluid", "transfer-case-fluid"})
            for (const auto& objection : examined(facts, group, vehicle, role).objections) {
                const auto name = objection.condition.substr(0, objection.condition.find('='));
                CHECK((name.empty() || !vehicle.possible(name).empty()));
                CHECK(objection.at_most != Verdict::fits);
                CHECK_FALSE(objection.reason.empty());
            }
}

TEST_CASE("a manual gearbox and an automatic's fluid: the maker may permit it, so it is asked and not stopped") {
    const auto vehicle = FakeVehicle().may_be("gearbox", {"sorrel-5"});
    const auto examination = examined(specs(), "NEW-3", vehicle);
    REQUIRE(examination.objections.size() == 1);
    CHECK(examination.objections[0].at_most == Verdict::check_first);
}

TEST_CASE("another spec on the vehicle's own label is a question, unless a successor is on record") {
    auto facts = specs();
    FakeVehicle vehicle;
    vehicle.tell("fluid_label", "old 2");
    const auto differs = examined(facts, "NEW-3", vehicle);
    REQUIRE(objection_on(differs, "fluid_label=old 2") != nullptr);
    CHECK(objection_on(differs, "fluid_label=old 2")->at_most == Verdict::check_first);
    CHECK(examined(facts, "OLD-2", vehicle).objections.empty());
    facts.table("stand_ins",
                "offered,relation,wanted,withdrawn\nNEW-3,supersedes,OLD-2,\nTHIN,supersedes,OLD-2,printed in error\n");
    const auto successor = examined(facts, "NEW-3", vehicle);
    CHECK(successor.objections.empty());
    CHECK_THAT(joined(texts_of(successor.cautions)), Contains("on record as replacing it"));
    CHECK(objection_on(examined(facts, "THIN", vehicle), "fluid_label=old 2") !=
          nullptr);  // the statement was withdrawn
}

TEST_CASE("what the fluid looks like, how its level is read and a lone dry fill are said with the candidate") {
    auto facts = specs();
    facts.table("transmission_fluids_levels",
                "line,condition,method,low_temp_c,high_temp_c,engine_running,lever,attitude\ntest-line,,overflow_plug,"
                "35,45,yes,P,level\n");
    facts.table("transmission_fluids_fills",
                "line,condition,service_refill_l,pan_filter_refill_l,dry_fill_l,reuse_clean\ntest-line,,,,9.4,no\n");
    FakeVehicle vehicle;
    vehicle.tell("fluid_colour", "milky").tell("fluid_level", "low");
    const auto said = joined(texts_of(examined(facts, "NEW-3", vehicle).cautions));
    CHECK_THAT(said, Contains("Do not drive") && Contains("find the leak"));
    CHECK_THAT(said,
               Contains("read the level by overflow plug at 35 to 45 °C, engine running, lever in P, vehicle level"));
    CHECK_THAT(said, Contains("only a dry fill of 9.4 L is on record") && Contains("does not go back"));
}

TEST_CASE("a label that is an attribute of the line narrows it, and raises no second objection") {
    auto facts = specs();
    facts.table(
        "configurations",
        "line,attribute_values,share\ntest-line,year=2003; fluid_label=OLD-2,1\ntest-line,fluid_label=NEW-3,1\n");
    auto vehicle = FakeVehicle().may_be("fluid_label", {"OLD-2"});
    vehicle.tell("fluid_label", "OLD-2");
    CHECK(examined(facts, "NEW-3", vehicle).objections.empty());
}

TEST_CASE("what a caution rests on goes with it: a row, or what was told and how") {
    auto facts = specs();
    facts.table("transmission_fluids_levels",
                "line,condition,method,low_temp_c,high_temp_c,engine_running,lever,attitude\n"
                "test-line,,overflow_plug,35,45,yes,P,level\n",
                Evidence::maker);
    FakeVehicle vehicle;
    vehicle.tell("fluid_smell", "burnt", TellEvidence::seller_said);
    const auto cautions = examined(facts, "NEW-3", vehicle).cautions;
    REQUIRE(cautions.size() == 2);
    CHECK(cautions[0].source.evidence == Evidence::memory);  // hearsay
    CHECK_THAT(cautions[0].source.title, Contains("told: seller said"));
    CHECK(cautions[1].source.row.file == "transmission_fluids_levels.csv");
    CHECK(cautions[1].source.row.line == 2);
}

TEST_CASE("the label is asked for only where it decides something") {
    auto facts = specs();
    facts.table("applications", "line,role,says,group_key,withdrawn\ntest-line,gearbox-fluid,fits,NEW-3,\n");
    FakeVehicle vehicle;
    CHECK(examined(facts, "NEW-3", vehicle).questions.empty());
    facts.table("applications", "line,role,says,group_key,withdrawn\ntest-line,gearbox-fluid,fits,THIN,\n");
    CHECK(examined(facts, "NEW-3", vehicle).questions == std::vector<std::string>{"fluid_label"});
    vehicle.tell("fluid_label", "NEW-3");
    CHECK(examined(facts, "NEW-3", vehicle).questions.empty());
}

// ---------------------------------------------------------------- rows of a pack

TEST_CASE("a sound pack has no faults") {
    FakeFacts facts = specs();
    facts.table(
        "transmission_fluids_claims",
        "item,group_key,wording,words,claimed_by,seen\nP-1,NEW-3,approved,Approved under NEW-3,Owner A,2026-10-05\n");
    facts.table("group_members", "group_key,item,basis\nNEW-3,P-1,approved\nNEW-3,P-2,approved\n");
    facts.table("transmission_fluids_fills",
                "line,condition,service_refill_l,pan_filter_refill_l,total_l,dry_fill_l,cooler_l,source\n"
                "test-line,,4.6,5.2,9.8,9.1,0.7,s\n");
    facts.table("transmission_fluids_levels",
                "line,condition,method,low_temp_c,high_temp_c,source\n"
                "test-line,,dipstick_hot,70,80,s\ntest-line,drive=4wd,side_plug,,,s\n");
    facts.table(
        "transmission_fluids_intervals",
        "line,condition,interval_km,interval_months,severe_factor,words,source\ntest-line,,,,,filled for life,s\n");
    for (const auto& fault : check(facts, "test-pack"))
        FAIL_CHECK(fault.origin.file << ":" << fault.origin.line << ":" << fault.column << ": " << fault.what);
}

TEST_CASE("each fault of a spec names its column and what to do") {
    FakeFacts groups;
    groups.table("groups", "group_key,kind\nG-1,transmission-fluid\nF-1,pan-filter\n");
    const auto faults = faults_of("transmission_fluids_specs",
                                  std::string(spec_columns) +
                                      "F-1,planetary_automatic,,,,,,,\n"
                                      "X-1,manual,,2016-13,,,,75W90,\n"
                                      "X-2,manual,,,100,7.0,,75W-140,\n"
                                      "X-3,planetary_automatic,,,340,7.1,,,\n",
                                  groups);
    REQUIRE(faults.size() == 5);
    CHECK_THAT(faults[0], Contains("2:group_key: `F-1` is a group of pan-filter"));
    CHECK_THAT(faults[1],
               Contains("3:sae_j306_grade: `75W90` is no grade of SAE J306 (2005 or 2019): write it as 75W-90"));
    CHECK_THAT(faults[2], Contains("3:issued: `2016-13` is no date"));
    CHECK_THAT(faults[3],
               Contains("4:kv100_mm2_s: 7 mm2/s at 100 °C is not within SAE J306 75W-140") || Contains("4:kv40_mm2_s"));
    CHECK_THAT(faults[4], Contains("5:kv40_mm2_s: with 7.1 mm2/s at 100 °C its viscosity index would be -"));
}

TEST_CASE("a column may not say more than the words on the label, nor membership more than the claims") {
    FakeFacts members;
    members.table("group_members", "group_key,item,basis\nNEW-3,P-1,approved\nNEW-3,P-2,claimed\n");
    const auto faults = faults_of("transmission_fluids_claims",
                                  "item,group_key,wording,words,claimed_by,seen\n"
                                  "P-1,NEW-3,meets,Suitable for use where NEW-3 is called for,Seller,last May\n"
                                  "P-2,NEW-3,meets,,Seller,\n",
                                  members);
    REQUIRE(faults.size() == 4);
    CHECK_THAT(faults[0], Contains("2:wording: the words say \"Suitable for use where NEW-3 is called for\": that is "
                                   "suitable_for, not meets"));
    CHECK_THAT(faults[1], Contains("2:seen: `last May` is no date"));
    CHECK_THAT(faults[2], Contains("3:words: a claim without its words is none"));
    CHECK_THAT(faults[3], Contains("2:basis: `approved` for P-1 in NEW-3, but its label says no more than meets"));
}

TEST_CASE("volumes, windows and intervals that cannot be are faults") {
    CHECK(faults_of("transmission_fluids_fills",
                    "line,condition,service_refill_l,pan_filter_refill_l,total_l,dry_fill_l,cooler_l,source\n"
                    "l,,9.1,5.2,9.8,4.6,,s\nl,x=1,,,9,10,11,s\nl,x=2,,,,,1,s\nl,x=2,4,,,,,s\n")
              .size() == 6);
    const auto levels = faults_of(
        "transmission_fluids_levels",
        "line,condition,method,low_temp_c,high_temp_c,source\nl,,overflow_plug,35,,a\nl,,dipstick_hot,160,180,b\n");
    REQUIRE(levels.size() == 3);
    CHECK_THAT(levels[0], Contains("2:high_temp_c: a level by overflow_plug means nothing without its temperatures"));
    CHECK_THAT(levels[1], Contains("is it in degF?"));
    CHECK(
        faults_of("transmission_fluids_intervals",
                  "line,condition,interval_km,interval_months,severe_factor,words,source\nl,,,,,,a\nl,,60,700,0.2,,b\n")
            .size() == 4);
    CHECK(faults_of("transmission_fluids_published", "quantity,low,high,unit\ndrained_share_of_total,30,50,share\n")
              .size() == 1);
}

TEST_CASE("only rows of the pack that is checked are reported") {
    FakeFacts facts;
    facts.table("transmission_fluids_published", "quantity,low,high,unit\na,30,50,share\n", Evidence::maker,
                "other-pack");
    CHECK(check(facts, "test-pack").empty());
    CHECK(check(facts, "other-pack").size() == 1);
}
