// What imitates a part that fails, as a domain reads the rows about its places. Rows, words and vehicles are invented.
#include "core/contract/false_leads.h"

#include <catch2/catch.hpp>

#include "tests/fakes.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

constexpr const char* table = "imitators";

Vocabulary lamp_words() {
    return vocabulary_of({}, {{"bulb", "bulb", StandIns::may_be_offered, {{"lamp", "lamp"}, {"holder", "holder"}}}});
}

// A dark lamp: a blown fuse and a bad earth by one test, a flat battery by another.
const FakeFacts& lamp_facts() {
    static const FakeFacts all = [] {
        FakeFacts facts;
        facts.table(table,
                    "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
                    "a dark lamp,a flat battery,switch on the horn,20,lamp|holder,lamp=dark|dim,horn=silent,horn=loud\n"
                    "a dark lamp,a blown fuse,bridge it,5,lamp|holder,lamp=dark|dim,bridged=by_fuse,bridged=dark\n"
                    "a dark lamp,a bad earth,bridge it,5,lamp|holder,lamp=dark|dim,bridged=by_earth,bridged=dark\n",
                    Evidence::common_practice);
        facts.table("job_roles",
                    "job,role,reach\nlamp-change,lamp,needs\nlamp-change,holder,needs\nlamp-pair,lamp,disturbs\n"
                    "yearly-service,lamp,consumes\nholder-change,spring,needs\n");
        return facts;
    }();
    return all;
}

const Engine& engine() {
    static const Engine one;
    return one;
}

Services of(const VehicleView& vehicle) { return {lamp_facts(), engine(), &vehicle}; }

std::vector<FalseLead> about_lamps(const Services& services, OwnStanding own = nullptr) {
    return false_leads(services, known_words<lamp_words>(), own);
}

std::vector<Hold> holds_on_lamp(const VehicleView& vehicle, const std::vector<std::string>& spared = {}) {
    return lead_holds(of(vehicle), about_lamps(of(vehicle)), spared);
}

std::string reasons(const std::vector<Hold>& holds) {
    std::vector<std::string> all;
    for (const auto& hold : holds) all.push_back(hold.reason + ": " + hold.until);
    return listed(all, "\n");
}

}  // namespace

TEST_CASE("nothing is asked about imitators where no trouble is told, and none speaks without a vehicle") {
    CHECK(about_lamps(of(FakeVehicle())).empty());
    CHECK(about_lamps(of(FakeVehicle().tell("lamp", "bright"))).empty());
    CHECK(about_lamps(of(FakeVehicle().tell("mirror", "broken"))).empty());
    CHECK(about_lamps({lamp_facts(), engine(), nullptr}).empty());
}

TEST_CASE("a trouble brings its imitators up, those of one test together, the quickest test first") {
    const auto held = holds_on_lamp(FakeVehicle().tell("lamp", "dark"));
    REQUIRE(held.size() == 2);
    CHECK(held[0].reason == "a dark lamp may be a blown fuse or a bad earth instead");
    CHECK(held[0].until == "bridge it (5 min)");
    CHECK(held[0].attributes == std::vector<std::string>{"bridged"});
    CHECK(held[1].reason == "a dark lamp may be a flat battery instead");
    CHECK(held[1].attributes == std::vector<std::string>{"horn"});
    CHECK(held[0].roles == std::vector<std::string>{"lamp", "holder"});
    CHECK(held[0].source.evidence == Evidence::common_practice);
    const auto said = lead_cautions(about_lamps(of(FakeVehicle().tell("lamp", "dark"))));
    REQUIRE(said.size() == 2);
    CHECK(said[0].text == "a dark lamp may be a blown fuse or a bad earth instead: bridge it (5 min)");
}

TEST_CASE("only a job that is about the part waits, not a service that uses one up") {
    const auto held = holds_on_lamp(FakeVehicle().tell("lamp", "dark"));
    REQUIRE_FALSE(held.empty());
    CHECK(held[0].jobs == std::vector<std::string>{"lamp-change"});
    FakeFacts bare;
    bare.table(table,
               "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
               "a dark lamp,a flat battery,switch on the horn,20,lamp,lamp=dark,horn=silent,horn=loud\n");
    bare.table("job_roles", "job,role,reach\nyearly-service,lamp,consumes\n");
    const FakeVehicle dark = FakeVehicle().tell("lamp", "dark");
    const Services services{bare, engine(), &dark};
    CHECK(about_lamps(services).size() == 1);
    CHECK(lead_holds(services, about_lamps(services)).empty());
}

TEST_CASE("each place waits in the jobs that are about it, and not where it is only looked at") {
    FakeFacts facts;
    facts.table(table,
                "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
                "a dark lamp,a flat battery,horn,20,lamp|holder|spring|glass,lamp=dark,horn=silent,horn=loud\n");
    facts.table("job_roles",
                "job,role,reach\nlamp-change,lamp,needs\nlamp-change,spring,needs\nlamp-change,holder,look_first\n"
                "holder-change,holder,needs\n");
    const FakeVehicle dark = FakeVehicle().tell("lamp", "dark");
    const Services services{facts, engine(), &dark};
    const auto held = lead_holds(services, about_lamps(services));
    REQUIRE(held.size() == 2);
    CHECK(held[0].roles == std::vector<std::string>{"lamp", "spring"});
    CHECK(held[0].jobs == std::vector<std::string>{"lamp-change"});
    CHECK(held[1].roles == std::vector<std::string>{"holder"});
    CHECK(held[1].jobs == std::vector<std::string>{"holder-change"});
    CHECK(held[0].reason == held[1].reason);
}

TEST_CASE("a rival that is shown is named, and what is not told beside it is not asked") {
    const FakeVehicle shown = FakeVehicle().tell("lamp", "dark").tell("bridged", "by_earth");
    const auto held = holds_on_lamp(shown);
    REQUIRE(held.size() == 1);
    CHECK(held[0].reason == "what was told speaks for a bad earth; a dark lamp may be no more than that");
    CHECK(held[0].until == "put that right, and look again whether it is still there");
    CHECK(held[0].attributes == std::vector<std::string>{"bridged"});
    CHECK(holds_on_lamp(FakeVehicle().tell("bridged", "by_earth")).size() == 1);  // shown without the trouble told
    const FakeVehicle hearsay =
        FakeVehicle().tell("lamp", "dark").tell("bridged", "by_earth", TellEvidence::seller_said);
    CHECK_THAT(reasons(holds_on_lamp(hearsay)), Contains("speaks for a bad earth"));  // a seller's word holds an order
    CHECK(holds_on_lamp(hearsay)[0].source.evidence == Evidence::memory);
}

TEST_CASE("a rival is ruled out by a look at the vehicle that is no older than the trouble") {
    const auto with = [](TellEvidence evidence, const char* date) {
        return FakeVehicle().tell("lamp", "dark").tell("bridged", "dark", evidence, date);
    };
    CHECK_THAT(reasons(holds_on_lamp(with(TellEvidence::measured, "2026-11-25"))), !Contains("bridge it"));
    CHECK_THAT(reasons(holds_on_lamp(with(TellEvidence::read, "2026-11-26"))), !Contains("bridge it"));
    CHECK_THAT(reasons(holds_on_lamp(with(TellEvidence::read, "2026-11-24"))), Contains("bridge it"));
    for (const auto word : {TellEvidence::said, TellEvidence::seller_said, TellEvidence::assumed})
        CHECK_THAT(reasons(holds_on_lamp(with(word, "2026-11-26"))), Contains("bridge it"));
    CHECK(holds_on_lamp(with(TellEvidence::read, "2026-11-25").tell("horn", "loud")).empty());
}

TEST_CASE("what may be the trouble, or stands beside another, brings its imitators up") {
    CHECK(holds_on_lamp(FakeVehicle().tell("lamp", "bright|dark")).size() == 2);
    CHECK(holds_on_lamp(FakeVehicle().tell("lamp", "dim+green")).size() == 2);
    CHECK(holds_on_lamp(FakeVehicle().tell("lamp", "bright+green")).empty());
    CHECK(holds_on_lamp(FakeVehicle().tell("lamp", "dark").tell("bridged", "by_earth|by_fuse"))[0].reason ==
          "a dark lamp may be a blown fuse or a bad earth instead");  // one of two: neither is shown
}

TEST_CASE("a place that something seen condemns is spared, and what is left of a hold stays") {
    const FakeVehicle dark = FakeVehicle().tell("lamp", "dark");
    for (const auto& hold : holds_on_lamp(dark, {"lamp"})) CHECK(hold.roles == std::vector<std::string>{"holder"});
    CHECK(holds_on_lamp(dark, {"lamp", "holder"}).empty());
}

TEST_CASE("what a domain works out itself comes before the conditions of the row") {
    const OwnStanding horn_is_loud = [](const Services&, const Row& row) {
        return row.text("rival") == "a flat battery" ? std::optional(LeadStanding::ruled_out) : std::nullopt;
    };
    const FakeVehicle dark = FakeVehicle().tell("lamp", "dark");
    CHECK(about_lamps(of(dark), horn_is_loud).size() == 2);
    CHECK(about_lamps(of(dark)).size() == 3);
}

TEST_CASE("the names in a condition are read, whatever stands around them") {
    CHECK(attributes_named("not codes=none; fluid_level = low|high;volts<13.2") ==
          std::vector<std::string>{"codes", "fluid_level", "volts"});
    CHECK(attributes_named("").empty());
}

TEST_CASE("a domain hears of the rows about its own places alone") {
    FakeFacts facts;
    facts.table(table,
                "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
                "a dark lamp,a flat battery,horn,20,lamp,lamp=dark,horn=silent,horn=loud\n"
                "a dark lamp,a blown fuse,fuse,2,fuse|relay,lamp=dark,fuse=blown,fuse=whole\n");
    const FakeVehicle dark = FakeVehicle().tell("lamp", "dark");
    const Services services{facts, engine(), &dark};
    const auto leads = about_lamps(services);
    REQUIRE(leads.size() == 1);
    CHECK(leads[0].row->text("rival") == "a flat battery");
}
