// What imitates a leak of the gearbox, and the orders that wait for it. The rows are invented.
#include <catch2/catch.hpp>

#include "tests/filters_seals/parts.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Contains;

TEST_CASE(
    "what imitates a leak is asked before a gasket is ordered for it, and a damaged gasket is renewed all the same") {
    PartFacts facts;
    static_cast<FakeFacts&>(facts).table(
        "imitators",
        "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
        "a wet place,coolant,look at a drop,10,pan-gasket|selector-shaft-seal,leak_at=pan_rail|selector_shaft,"
        "drip_fluid=coolant,drip_fluid=gearbox_fluid\n");
    static_cast<FakeFacts&>(facts).table(
        "job_roles",
        "job,role,reach\npan-gasket,pan-gasket,needs\nselector-seal,selector-shaft-seal,needs\n"
        "pan-service,pan-gasket,consumes\n");
    const Engine engine;
    const auto holds = [&](const FakeVehicle& vehicle) { return instance().holds(Services{facts, engine, &vehicle}); };
    const auto wet = [] { return FakeVehicle().tell("leak_at", "pan_rail+selector_shaft"); };
    REQUIRE(holds(wet()).size() == 2);
    CHECK(holds(wet())[0].jobs == std::vector<std::string>{"pan-gasket"});  // not the service, which renews it anyway
    CHECK(holds(wet())[1].jobs == std::vector<std::string>{"selector-seal"});
    CHECK(holds(wet())[0].until == "look at a drop (10 min)");
    CHECK(holds(wet().tell("drip_fluid", "gearbox_fluid")).empty());
    CHECK_THAT(holds(wet().tell("drip_fluid", "coolant")).at(0).reason, Contains("speaks for coolant"));
    const auto damaged = holds(wet().tell("old_gasket_state", "damaged"));
    REQUIRE(damaged.size() == 1);
    CHECK(damaged[0].roles == std::vector<std::string>{"selector-shaft-seal"});
    CHECK(holds(wet().tell("old_gasket_state", "damaged", TellEvidence::seller_said)).size() == 2);
}

TEST_CASE("a seal is not ordered for a leak that was told of other places, or of none") {
    PartFacts facts;
    static_cast<FakeFacts&>(facts).table(
        "job_roles", "job,role,reach\npan-gasket,pan-gasket,needs\nselector-seal,selector-shaft-seal,needs\n");
    const Engine engine;
    const auto holds = [&](const char* leak_at) {
        const auto vehicle = FakeVehicle().tell("leak_at", leak_at);
        return instance().holds(Services{facts, engine, &vehicle});
    };
    for (const auto& [leak_at, reason] :
         {std::pair{"dry", "no place is wet"}, std::pair{"pan_rail+cooler_line", "another place than this"}}) {
        REQUIRE(holds(leak_at).size() == 1);  // the gasket of the pan is renewed whenever the pan is off
        CHECK(holds(leak_at)[0].roles == std::vector<std::string>{"selector-shaft-seal"});
        CHECK_THAT(holds(leak_at)[0].reason, Contains(reason));
    }
    CHECK(holds("pan_rail+selector_shaft").empty());
    CHECK(holds("pan_rail|selector_shaft").empty());  // it may be there
}
