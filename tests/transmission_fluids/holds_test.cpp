// Stop findings of the fluid: which of what was told holds the order of fresh fluid, and what lifts it. Vehicles are
// invented; every rule is common practice, no source.
#include <catch2/catch.hpp>

#include "plugins/transmission_fluids/rows/findings.h"
#include "tests/fakes.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

const FakeFacts nothing;
const Engine engine;

std::vector<Hold> held(const VehicleView& vehicle) { return instance().holds({nothing, engine, &vehicle}); }

FakeVehicle milky(TellEvidence evidence = TellEvidence::measured) {
    return FakeVehicle().tell("fluid_colour", "milky", evidence);
}
FakeVehicle burnt_with(const std::string& attribute, const std::string& value) {
    return FakeVehicle().tell("fluid_smell", "burnt").tell(attribute, value);
}

// The first told thing is of an earlier day than the rest.
class Earlier final : public FakeVehicle {
public:
    explicit Earlier(const FakeVehicle& vehicle) : FakeVehicle(vehicle) {}
    std::vector<Told> told() const override {
        auto all = FakeVehicle::told();
        all.front().date = "2025-03-01";
        return all;
    }
};

}  // namespace

TEST_CASE("milky fluid holds the gearbox fluid and every cure until the cooler is tested") {
    const auto holds = held(milky());
    REQUIRE(holds.size() == 1);
    CHECK(holds[0].roles == std::vector<std::string>{"gearbox-fluid"});
    CHECK(holds[0].jobs.empty());
    CHECK_THAT(holds[0].reason, Contains("milky"));
    CHECK_THAT(holds[0].until, Contains("cooler"));
    CHECK(holds[0].attributes == std::vector<std::string>{"cooler_test", "fluid_colour"});
    CHECK(holds[0].every_cure);
    CHECK(holds[0].odds_steps == -2);
    CHECK(holds[0].source.evidence == Evidence::common_practice);
}

TEST_CASE("a cooler that is tight, renewed or not there lifts the hold; one that leaks keeps it") {
    for (const char* sound : {"tight", "renewed", "none"}) CHECK(held(milky().tell("cooler_test", sound)).empty());
    const auto leaks = held(milky().tell("cooler_test", "leaks"));
    REQUIRE(leaks.size() == 1);
    CHECK_THAT(leaks[0].reason, Contains("cooler leaks"));
    const auto clear = held(FakeVehicle().tell("cooler_test", "leaks"));  // whatever the fluid looks like
    REQUIRE(clear.size() == 1);
    CHECK_FALSE(clear[0].every_cure);  // a cooler that leaks is no stop finding by itself
}

TEST_CASE("a seller's word holds an order and lifts none") {
    const auto said = held(milky(TellEvidence::seller_said));
    REQUIRE(said.size() == 1);
    CHECK(said[0].source.evidence == Evidence::memory);
    CHECK(held(milky().tell("cooler_test", "tight", TellEvidence::seller_said)).size() == 1);
    CHECK(
        held(burnt_with("fluid_feel", "gritty").tell("pan_debris", "grey_paste_thin", TellEvidence::assumed)).size() ==
        1);
}

TEST_CASE("burnt fluid with metal or lost friction material holds the fluid until the pan was looked into") {
    for (const auto& [attribute, value] :
         {std::pair{"fluid_clarity", "metallic_sheen"}, {"fluid_feel", "gritty"}, {"fluid_colour", "black"}}) {
        INFO(attribute);
        const auto holds = held(burnt_with(attribute, value));
        REQUIRE(holds.size() == 1);
        CHECK(holds[0].roles == std::vector<std::string>{"gearbox-fluid"});
        CHECK(holds[0].attributes == std::vector<std::string>{"pan_debris", "fluid_smell"});
        CHECK(holds[0].every_cure);
        CHECK(held(burnt_with(attribute, value).tell("pan_debris", "grey_paste_thin")).empty());
        CHECK(held(FakeVehicle().tell(attribute, value)).empty());  // without the smell
    }
}

TEST_CASE("a look from before the finding settles nothing") {
    CHECK(held(Earlier(FakeVehicle().tell("cooler_test", "tight").tell("fluid_colour", "milky"))).size() == 1);
    CHECK(held(Earlier(FakeVehicle().tell("fluid_colour", "milky").tell("cooler_test", "tight"))).empty());
    const auto burnt = FakeVehicle().tell("pan_debris", "grey_paste_thin").tell("fluid_smell", "burnt");
    CHECK(held(Earlier(FakeVehicle(burnt).tell("fluid_feel", "gritty"))).size() == 1);
}

TEST_CASE("burnt fluid and metal or lining in the pan hold every cure until what is worn is found") {
    for (const char* debris : {"steel_pieces", "black_flakes", "brass_flakes", "aluminium_glitter"}) {
        INFO(debris);
        const auto holds = held(FakeVehicle().tell("fluid_smell", "burnt").tell("pan_debris", debris));
        REQUIRE(holds.size() == 1);
        CHECK(holds[0].every_cure);
        CHECK_THAT(holds[0].until, Contains("find out what is worn"));
        CHECK(held(FakeVehicle().tell("pan_debris", debris)).empty());  // another domain reads the pan
    }
    CHECK(held(FakeVehicle().tell("fluid_smell", "burnt").tell("pan_debris", "grey_paste_thin")).empty());
}

TEST_CASE("burnt, dark, cloudy or low alone holds nothing, and neither does no vehicle") {
    for (const auto& [attribute, value] : {std::pair{"fluid_smell", "burnt"},
                                           {"fluid_colour", "black"},
                                           {"fluid_clarity", "cloudy"},
                                           {"fluid_level", "low"}})
        CHECK(held(FakeVehicle().tell(attribute, value)).empty());
    CHECK(held(burnt_with("fluid_colour", "brown")).empty());
    CHECK(instance().holds({nothing, engine, nullptr}).empty());
}

TEST_CASE("one of several told alternatives is enough to hold, both stops hold at once") {
    CHECK(held(FakeVehicle().tell("fluid_colour", "brown|milky")).size() == 1);
    CHECK(held(burnt_with("fluid_feel", "gritty").tell("fluid_colour", "milky")).size() == 2);
}

TEST_CASE("what was told of the fluid and speaks of trouble is named with who said it") {
    const auto vehicle = milky(TellEvidence::seller_said).tell("fluid_smell", "none").tell("cooler_test", "leaks");
    const auto found = instance().findings({nothing, engine, &vehicle});
    REQUIRE(found.troubles.size() == 2);
    CHECK(found.troubles[0].attribute == "fluid_colour");
    CHECK(found.troubles[0].text == "milky");
    CHECK(found.troubles[0].source.evidence == Evidence::memory);
    CHECK(found.troubles[1].attribute == "cooler_test");
    CHECK(instance().findings({nothing, engine, nullptr}).troubles.empty());
}
