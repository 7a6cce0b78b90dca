// The links domain as core meets it: examination, substitution, check, findings and holds, tightening.
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
    facts.table("stabilisers_links",
                "group_key,axle,side,ends,thread_mm,pitch_mm,length_mm,angle_deg,nuts_in_box\n"
                "L10,front,left,two_studs,10,1.5,280,0,no\n"
                "R10,front,right,two_studs,10,1.5,280,0,no\n"
                "L12,front,left,two_studs,12,1.5,280,0,yes\n"
                "L284,front,either,two_studs,10,1.5,284,0,no\n"
                "BARE,front,either,two_studs,,,,,\n");
    facts.table("stabilisers_bushes",
                "group_key,axle,bar_mm,form\nB24,front,24,split\nB27,front,27,split\nB24C,front,24,closed\n");
    facts.table("stabilisers_joints",
                "line,condition,axle,place,fastener,count,thread_mm,pitch_mm,property_class,torque_nm,angle_deg,reuse,"
                "at_ride_height\n"
                "test-line,,front,link_to_bar,lock nut M10,1,10,1.5,8.8,45,,never,no\n"
                "test-line,drive=4wd,front,link_to_wheel,lock nut M12,1,12,1.75,8.8,,,never,yes\n"
                "test-line,,front,clamp,bolt M8,2,8,1.25,,,,if_undamaged,no\n");
    facts.table("stabilisers_classes", "property_class,over_mm,up_to_mm,proof_mpa\n8.8,1.5,16,580\n8.8,16,39,600\n",
                Evidence::standard);
    facts.table("stabilisers_friction", "state,nut_factor\nas_received,0.2\n", Evidence::common_practice);
    facts.table("stabilisers_both_sides", "line,condition,axle,rule,words\ntest-line,,front,required,both\n");
    return facts;
}

Examination examined(const std::string& group, const std::string& role, const FakeVehicle& vehicle) {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().examine({role, group, ""}, {facts, engine, &vehicle});
}

Opinion opinion(const std::string& wanted, const std::string& offered) {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().may_stand_in({wanted, "", offered, "", "", false}, {facts, engine, nullptr});
}

bool objects(const Examination& examination, const std::string& condition, Verdict at_most) {
    return std::any_of(examination.objections.begin(), examination.objections.end(),
                       [&](const Objection& one) { return one.condition == condition && one.at_most == at_most; });
}

std::vector<Hold> holds_of(const FakeVehicle& vehicle) {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().holds({facts, engine, &vehicle});
}

// Why no order of the role; "" when there is no hold.
std::string why_held(const FakeVehicle& vehicle, const std::string& role) {
    std::string all;
    for (const auto& hold : holds_of(vehicle))
        if (std::find(hold.roles.begin(), hold.roles.end(), role) != hold.roles.end()) all += hold.reason;
    return all;
}

}  // namespace

TEST_CASE("a link of the other side or axle never fits") {
    const FakeVehicle vehicle;
    CHECK(objects(examined("R10", "link-front-left", vehicle), "", Verdict::does_not_fit));
    CHECK(objects(examined("L10", "link-rear-left", vehicle), "", Verdict::does_not_fit));
    CHECK(examined("L10", "link-front-left", vehicle).objections.empty());
    CHECK(examined("L284", "link-front-right", vehicle).objections.empty());
}

TEST_CASE("thread, length and ends that were told refute what is recorded") {
    FakeVehicle vehicle;
    vehicle.tell("link_thread_front", "12 mm").tell("link_length_front", "280 mm").tell("link_ends_front", "two_studs");
    const auto examination = examined("L10", "link-front-left", vehicle);
    CHECK(objects(examination, "link_thread_front>10.30", Verdict::does_not_fit));
    CHECK(objects(examination, "link_length_front>282.00", Verdict::check_first));
    CHECK(objects(examination, "link_length_front>290.00", Verdict::does_not_fit));
    CHECK(objects(examination, "not link_ends_front=two_studs", Verdict::does_not_fit));
}

TEST_CASE("a bar that was measured refuses the bush of another") {
    FakeVehicle vehicle;
    vehicle.may_be("bar_diameter_front", {"24 mm", "27 mm"});
    const auto examination = examined("B24", "bar-bushes-front", vehicle);
    CHECK(objects(examination, "bar_diameter_front>24.50", Verdict::does_not_fit));
    CHECK(examination.questions == std::vector<std::string>{"bar_diameter_front"});
}

TEST_CASE("nuts that are new each time come along once, unless they lie in the box or the row only may hold") {
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    const auto with = [](const Examination& examination, const char* role) {
        return std::count_if(examination.companions.begin(), examination.companions.end(),
                             [&](const Companion& one) { return one.role == role; });
    };
    const auto plain = examined("L10", "link-front-left", vehicle), boxed = examined("L12", "link-front-left", vehicle);
    CHECK(with(plain, "link-nuts-front") == 1);
    CHECK_THAT(joined(texts_of(plain.cautions)), Contains("lock nut M12: new each time, where drive=4wd"));
    CHECK(with(boxed, "link-nuts-front") == 0);
    CHECK_THAT(joined(texts_of(boxed.cautions)), Contains("in the box of the link"));
    CHECK(with(plain, "link-front-right") == 1);
    CHECK_THAT(joined(texts_of(plain.cautions)), Contains("at ride height"));
    CHECK(examined("", "link-nuts-front", vehicle).never_again);
    CHECK_FALSE(examined("", "bar-clamp-bolts-front", vehicle).never_again);
}

TEST_CASE("a link of which nothing is recorded gets no objection, only what to compare") {
    const FakeVehicle vehicle;
    const auto examination = examined("NOBODY", "link-front-left", vehicle);
    CHECK(examination.objections.empty());
    CHECK_THAT(joined(texts_of(examination.cautions)), Contains("hold it beside the old one"));
}

TEST_CASE("play that is told of another wheel is said at this one") {
    FakeVehicle vehicle;
    vehicle.tell("link_play", "front_right");
    CHECK_THAT(joined(texts_of(examined("L10", "link-front-left", vehicle).cautions)),
               Contains("play is told of another"));
    CHECK_THAT(joined(texts_of(examined("R10", "link-front-right", vehicle).cautions)), !Contains("told of another"));
}

TEST_CASE("a stand-in of another thread is vetoed, a longer one goes in pairs, an unknown one waits for the bench") {
    CHECK(opinion("L10", "L12").at_most == Verdict::does_not_fit);
    CHECK(opinion("L10", "R10").at_most == Verdict::does_not_fit);
    const auto longer = opinion("L10", "L284");
    CHECK(longer.at_most == Verdict::check_first);
    CHECK_THAT(joined(longer.conditions), Contains("only both sides alike"));
    CHECK(opinion("L10", "BARE").at_most == Verdict::check_first);
    CHECK(opinion("L10", "NOBODY").at_most == Verdict::check_first);
    CHECK(opinion("L10", "L10").at_most == Verdict::fits);
    CHECK(opinion("B24", "B27").at_most == Verdict::does_not_fit);
    CHECK(opinion("B24", "B24C").at_most == Verdict::check_first);
    CHECK(opinion("NUT-A", "NUT-B").at_most == Verdict::fits);  // nothing of this domain's is known of nuts
}

TEST_CASE("orders of links wait for a ball joint, and for a clunk that is no link's until play is felt") {
    FakeVehicle nothing, both, joint, felt, heard;
    both.tell("clunk_when", "both_wheels");
    joint.tell("ball_joint_play", "yes").tell("link_play", "front_left");
    felt.tell("clunk_when", "both_wheels").tell("link_play", "front_left");
    heard.tell("clunk_when", "one_wheel");
    CHECK(holds_of(nothing).empty());
    for (const auto* role : {"link-front-left", "link-front-right", "link-rear-left", "link-rear-right",
                             "bar-bushes-front", "bar-bushes-rear"}) {
        CHECK_THAT(why_held(both, role), Contains("speaks against the bar"));
        CHECK_THAT(why_held(joint, role), Contains("ball joint"));
    }
    CHECK(why_held(felt, "link-front-left") == "");
    CHECK(why_held(felt, "link-front-right") == "");
    CHECK_THAT(why_held(heard, "link-front-left"), Contains("nobody has felt a link"));
    CHECK_THAT(why_held(heard, "bar-bushes-front"), Contains("nobody has seen the bar move"));
}

TEST_CASE("a link or bush that was found sound is not ordered, nor one of the other axle") {
    FakeVehicle sound, rear, torn, pushed, loose;
    sound.tell("link_play", "none");
    rear.tell("link_play", "rear_left");
    torn.tell("link_play", "rear_left").tell("link_boot_torn", "front_right");
    pushed.tell("bar_bush_play", "none");
    loose.tell("bar_bush_play", "rear").tell("link_play", "none");
    CHECK_THAT(why_held(sound, "link-front-left"), Contains("each link was felt, and none has play"));
    CHECK_THAT(why_held(rear, "link-front-left"), Contains("of the other axle"));
    CHECK(why_held(rear, "link-rear-right") == "");
    CHECK(why_held(torn, "link-front-left") == "");
    CHECK_THAT(why_held(pushed, "bar-bushes-rear"), Contains("moves in no bush"));
    CHECK(why_held(pushed, "link-front-left") == "");
    CHECK_THAT(why_held(loose, "bar-bushes-front"), Contains("at the other axle"));
    CHECK(why_held(loose, "bar-bushes-rear") == "");
    CHECK_THAT(why_held(loose, "link-rear-left"), Contains("no link is said to have play"));
}

TEST_CASE("what is told already is not asked again") {
    FakeVehicle vehicle;
    vehicle.tell("link_play", "none").tell("strut_top_play", "no");
    const auto holds = holds_of(vehicle);
    REQUIRE_FALSE(holds.empty());
    CHECK(holds[0].attributes == std::vector<std::string>{"bar_bush_play", "quiet_with_links_off"});
}

TEST_CASE("wheels told as alternatives decide nothing") {
    FakeVehicle vehicle;
    vehicle.tell("clunk_when", "both_wheels").tell("link_play", "front_left|front_right");
    CHECK_THAT(why_held(vehicle, "link-front-left"), Contains("speaks against the bar"));
}

TEST_CASE("findings that speak of trouble are said, none and sound ones are not") {
    static const auto facts = fleet();
    const Engine engine;
    FakeVehicle vehicle;
    vehicle.tell("clunk_at", "front_left+rear_right").tell("link_play", "none").tell("bar_bush_play", "front");
    const auto troubles = instance().findings({facts, engine, &vehicle}).troubles;
    REQUIRE(troubles.size() == 3);
    CHECK(troubles[2].attribute == "bar_bush_play");
}

TEST_CASE("a torque that is recorded is shown; without one it is computed and no firmer than common practice") {
    static const auto facts = fleet();
    const Engine engine;
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"4wd"});
    const auto all = instance().tightening("link-front-left", {facts, engine, &vehicle}).fasteners;
    REQUIRE(all.size() == 2);
    CHECK(all[0].tightening == "45 N·m; new each time");
    // M12x1.75 of 8.8, 70 %, K 0.20: 82 N m; public design texts.
    CHECK_THAT(all[1].tightening, Contains("about 82 N·m, computed from thread and class, not the maker's"));
    CHECK(all[1].source.evidence >= Evidence::common_practice);
    const auto clamp = instance().tightening("bar-bushes-front", {facts, engine, &vehicle}).fasteners;
    REQUIRE(clamp.size() == 1);
    CHECK_THAT(clamp[0].tightening, Contains("not stated"));
    CHECK(instance().tightening("link-nuts-front", {facts, engine, &vehicle}).none_here);
}

TEST_CASE("the check names what cannot be in one row, and what one source says twice") {
    FakeFacts facts;
    facts.table("stabilisers_links",
                "group_key,axle,side,ends,thread_mm,pitch_mm,length_mm,angle_deg,nuts_in_box\n"
                "A,front,left,two_studs,10,3,280,0,no\nB,front,left,two_eyes,10,1.5,280,90,no\nC,rear,left,two_studs,,"
                "1.5,280,,\n");
    facts.table("applications", "line,role,says,group_key,condition,withdrawn\ntest-line,link-front-left,fits,C,,\n");
    facts.table("stabilisers_joints",
                "line,condition,axle,place,fastener,count,thread_mm,pitch_mm,property_class,torque_nm,angle_deg,reuse,"
                "at_ride_height\ntest-line,,front,clamp,bolt,2,,,,,90,never,no\n");
    facts.table("stabilisers_threads", "thread_mm,pitch_mm,stress_area_mm2\n10,1.5,85\n12,1.75,84.3\n");
    facts.table("stand_ins", "offered,relation,wanted,condition,withdrawn\nA,supersedes,C,,\nA,excludes,C,,\n");
    facts.table("stabilisers_classes",
                "property_class,over_mm,up_to_mm,proof_mpa,source\n8.8,1.5,16,580,one\n8.8,12,39,600,one\n");
    facts.table("stabilisers_both_sides",
                "line,condition,axle,rule,words,source\ntest-line,,front,no,,one\ntest-line,,front,required,,one\n");
    std::vector<std::string> columns;
    for (const auto& fault : instance().check(facts, "test-pack"))
        columns.push_back(fault.origin.file + " " + fault.column);
    const std::vector<std::string> wanted{"stabilisers_links.csv pitch_mm",   "stabilisers_links.csv angle_deg",
                                          "stabilisers_links.csv pitch_mm",   "applications.csv role",
                                          "stabilisers_joints.csv angle_deg", "stabilisers_threads.csv stress_area_mm2",
                                          "stand_ins.csv relation",           "stabilisers_classes.csv proof_mpa",
                                          "stabilisers_both_sides.csv rule"};
    CHECK(columns == wanted);
    CHECK(instance().check(facts, "another-pack").empty());
}
