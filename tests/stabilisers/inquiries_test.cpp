// The inquiries of links, asked as on the command line.
#include <catch2/catch.hpp>

#include <stdexcept>

#include "tests/fakes.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

FakeFacts tables() {
    FakeFacts facts;
    facts.table("stabilisers_classes", "property_class,over_mm,up_to_mm,proof_mpa\n8.8,1.5,16,580\n8.8,16,39,600\n",
                Evidence::standard);
    facts.table("stabilisers_friction", "state,nut_factor\nas_received,0.2\nlubricated,0.15\ndry,0.3\n",
                Evidence::common_practice);
    facts.table("stabilisers_threads", "thread_mm,pitch_mm,stress_area_mm2\n12,1.75,84.3\n", Evidence::standard);
    facts.table("stabilisers_joints",
                "line,condition,axle,place,fastener,count,thread_mm,pitch_mm,property_class,torque_nm,angle_deg,reuse,"
                "at_ride_height\n"
                "test-line,,front,link_to_bar,lock nut M10,1,10,1.5,8.8,45,,never,no\n"
                "test-line,drive=4wd,rear,link_to_bar,lock nut M10,1,10,1.5,8.8,50,,never,no\n");
    facts.table("stabilisers_both_sides", "line,condition,axle,rule,words\ntest-line,,front,recommended,both\n");
    facts.table("stabilisers_links",
                "group_key,axle,side,ends,thread_mm,pitch_mm,length_mm,angle_deg,nuts_in_box\nNEW,front,either,two_"
                "studs,10,1.5,280,0,no\n");
    return facts;
}

}  // namespace

TEST_CASE("a computed torque says that it is computed, and shows what friction does to it") {
    // Public design texts: M12 of 8.8 at 70 %, K 0.20: 34.2 kN, 82 N m; 45.6 of 48.9 kN when oiled.
    const auto answer = ask(instance(), "torque", {{"thread", "12 mm"}, {"pitch", "1.75 mm"}, {"class", "8.8"}},
                            tables());
    CHECK_THAT(answer.headline, Contains("computed, not the maker's"));
    CHECK(line_text(answer, "preload") == "34.2 kN");
    CHECK(line_text(answer, "torque, computed") == "82 N·m");
    CHECK(line_text(answer, "proof load reached if the thread is oiled") == "93 %");
}

TEST_CASE("a recorded torque is the answer; one that may hold is none yet") {
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    CHECK_THAT(ask(instance(), "torque", {{"axle", "front"}}, tables(), &vehicle).headline,
               Contains("As recorded: 1 x lock nut M10, link to bar: 45"));
    const auto rear = ask(instance(), "torque", {{"axle", "rear"}}, tables(), &vehicle);
    CHECK_THAT(rear.headline, Contains("which row holds is not known yet"));
    CHECK(rear.verdict == Verdict::check_first);
    CHECK(ask(instance(), "torque", {}, tables()).verdict == Verdict::not_recorded);
}

TEST_CASE("a class that the table lacks for the thread is refused, never guessed") {
    CHECK_THROWS_WITH(
        ask(instance(), "proof-load", {{"thread", "12 mm"}, {"pitch", "1.75 mm"}, {"class", "10.9"}}, tables()),
        Contains("10.9 at M12"));
    const auto answer = ask(instance(), "proof-load", {{"thread", "12 mm"}, {"pitch", "1.75 mm"}, {"class", "8.8"}},
                            tables());
    CHECK(line_text(answer, "proof load") == "48.9 kN");  // ISO 898-1: 48 900 N
    CHECK(line_text(answer, "stress area, as printed") == "84.3 mm2");
}

TEST_CASE("what was told of a clunk answers for the vehicle, with what is said of the pair") {
    FakeVehicle vehicle;
    vehicle.tell("clunk_when", "one_wheel").tell("link_play", "front_left");
    const auto answer = ask(instance(), "clunk", {}, tables(), &vehicle);
    CHECK(answer.verdict == Verdict::fits);
    CHECK_THAT(answer.headline, Contains("Replace the link that has play"));
    CHECK(line_text(answer, "play of a link") == "front left");
    CHECK(line_text(answer, "both links of the axle") == "recommended");
    CHECK(ask(instance(), "clunk", {{"play", "no"}}, tables(), &vehicle).verdict == Verdict::check_first);
}

TEST_CASE("what the vehicle shows stands for the old link, and a hand overrides it") {
    FakeVehicle vehicle;
    vehicle.tell("link_ends_front", "two_studs").tell("link_thread_front", "10 mm").tell("link_pitch_front", "1.5 mm");
    vehicle.tell("link_length_front", "281 mm").tell("link_angle_front", "2 deg");
    const std::vector<std::pair<std::string, std::string>> inputs{
        {"old-axle", "front"}, {"old-side", "left"}, {"new", "NEW"}};
    CHECK(ask(instance(), "compare", inputs, tables(), &vehicle).verdict == Verdict::fits);
    auto by_hand = inputs;
    by_hand.emplace_back("old-thread", "12 mm");
    CHECK(ask(instance(), "compare", by_hand, tables(), &vehicle).verdict == Verdict::does_not_fit);
    CHECK(ask(instance(), "compare", {{"new", "NEW"}}, tables()).verdict == Verdict::check_first);
}
