// Orders that wait on what was found sound, and what comes first where several circuits fail at once. The gearbox is
// invented; the rules are common practice, no source.
#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/fakes.h"
#include "tests/linked_domain.h"
#include "tests/solenoids/gearbox_facts.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

using Tells = std::vector<std::pair<std::string, std::string>>;

std::vector<Hold> held_on(const Tells& told) {
    static const FakeFacts facts = gearbox_facts();
    static const Engine engine;
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"ash-4"});
    for (const auto& [attribute, text] : told) vehicle.tell(attribute, text, TellEvidence::measured);
    return instance().holds({facts, engine, &vehicle});
}

// Why no order of solenoid A; "" when there is no hold.
std::string why_no_a(const Tells& told) {
    std::string all;
    for (const auto& hold : held_on(told))
        if (std::find(hold.roles.begin(), hold.roles.end(), "shift-solenoid-a") != hold.roles.end())
            all += hold.reason + ": " + hold.until + "\n";
    return all;
}

}  // namespace

TEST_CASE("gears as commanded, no code and a coil in limits each speak against the solenoid") {
    CHECK_THAT(why_no_a({{"codes", "none"}, {"connector_state", "clean"}, {"gears_obtained", "1-2-3-4"}}),
               Contains("every gear driven was obtained as commanded: nothing points at it"));
    CHECK_THAT(why_no_a({{"codes", "none"}}), Contains("no code is stored, and nothing points at it"));
    CHECK_THAT(why_no_a({{"coil_a", "13.5 ohm"}, {"coil_temp", "20 degC"}}),
               Contains("its coil is in limits, and nothing points at it"));
}

TEST_CASE("a feed that falls and a wet connector come before what several circuits share") {
    const Tells two{{"codes", "P0753+P0758"}, {"codes_before_clearing", "yes"}};
    auto wet = two, falls = two, sound = two;
    wet.emplace_back("connector_state", "wet");
    falls.emplace_back("feed_under_load", "9 V");
    for (const auto& [attribute, text] :
         Tells{{"feed_under_load", "12.4 V"}, {"feed_fuse", "sound"}, {"connector_state", "clean"}})
        sound.emplace_back(attribute, text);
    CHECK_THAT(why_no_a(wet), Contains("the case connector is wet"));
    CHECK_THAT(why_no_a(falls), Contains("the feed falls to 9 V"));
    CHECK_THAT(why_no_a(two), Contains("test feed, fuse, ground and case connector"));
    CHECK_THAT(why_no_a(sound), Contains("measure the coils at the case connector and at their own pins"));
    for (const auto& hold : held_on(sound))
        for (const auto* told : {"feed_under_load", "feed_fuse", "connector_state"})
            CHECK(std::find(hold.attributes.begin(), hold.attributes.end(), told) == hold.attributes.end());
}
