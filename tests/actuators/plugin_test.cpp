// The domain of actuators as core meets it: examination, substitution, check, telling, findings, holds, inquiries.
#include <catch2/catch.hpp>

#include <algorithm>
#include <stdexcept>

#include "tests/fakes.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

FakeFacts fleet() {
    FakeFacts facts;
    facts.table("actuators_door_motors",
                "group_key,function,side,cavities,shaft,plug_code,travel_deg,drive,feedback,turns\n"
                "L7,temperature,left,7,d_shaft,A,90,dc,potentiometer,left\n"
                "R7,temperature,right,7,d_shaft,A,90,dc,potentiometer,right\n"
                "L5,temperature,left,5,d_shaft,A,90,dc,potentiometer,left\n"
                "L98,temperature,left,7,d_shaft,A,98,dc,potentiometer,left\n"
                "E7,temperature,either,7,d_shaft,A,90,stepper,none,\n"
                "BARE,temperature,left,,,,,,,\n");
    facts.table("actuators_ways_in",
                "line,condition,function,side,step,comes_off,minutes,beside_airbag,place\n"
                "test-line,,temperature,left,1,trim under the dashboard,8,yes,\n"
                "test-line,,temperature,left,2,foot duct,6,no,left end of the housing\n"
                "test-line,,recirculation,only,1,glove box,5,no,\n"
                "test-line,drive=4wd,recirculation,only,2,brace,4,no,\n");
    facts.table("actuators_airbag_waits",
                "line,condition,minutes,words\ntest-line,,3,three\ntest-line,drive=4wd,10,ten\n");
    facts.table("actuators_teachings",
                "line,condition,function,method,words,minutes\ntest-line,,,by_buttons,hold two buttons,2\n");
    facts.table("actuators_makers_rules",
                "line,condition,function,rule,words\ntest-line,,recirculation,exact_part_only,only\n");
    facts.table("actuators_end_stops",
                "line,condition,function,side,first_stop,first_pct,last_stop,last_pct,reference_v\n"
                "test-line,,temperature,left,cold,10,hot,90,5\n");
    facts.table("actuators_windings", "group_key,low_ohm,high_ohm,running_a,stall_a,running_v\nL7,36,44,0.1,0.3,12\n");
    facts.table("actuators_failure_types", "failure_type,words,points_at\n71,actuator stuck,door_or_gear\n",
                Evidence::standard);
    return facts;
}

Examination examined(const std::string& group, const std::string& role, const FakeVehicle& vehicle) {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().examine({role, group, ""}, {facts, engine, &vehicle});
}

Opinion opinion(const std::string& wanted, const std::string& offered, const std::string& role = "") {
    static const auto facts = fleet();
    static const Engine engine;
    static const FakeVehicle vehicle;
    return instance().may_stand_in({wanted, "", offered, "", role, false}, {facts, engine, &vehicle});
}

std::vector<Hold> holds_of(const FakeVehicle& vehicle) {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().holds({facts, engine, &vehicle});
}

Answer asked(const std::string& inquiry, const std::vector<std::pair<std::string, std::string>>& inputs,
             const FakeVehicle& vehicle = {}) {
    return ask(instance(), inquiry, inputs, fleet(), &vehicle);
}

bool objects(const Examination& examination, const std::string& condition, Verdict at_most) {
    return std::any_of(examination.objections.begin(), examination.objections.end(),
                       [&](const Objection& one) { return one.condition == condition && one.at_most == at_most; });
}

}  // namespace

TEST_CASE("an actuator of another side or function never fits, one that is either fits left and right") {
    const FakeVehicle vehicle;
    CHECK(objects(examined("R7", "temperature-actuator-left", vehicle), "", Verdict::does_not_fit));
    CHECK(objects(examined("L7", "recirculation-actuator", vehicle), "", Verdict::does_not_fit));
    CHECK(examined("L7", "temperature-actuator-left", vehicle).objections.empty());
    CHECK(examined("E7", "temperature-actuator-right", vehicle).objections.empty());
    CHECK(objects(examined("E7", "temperature-actuator-rear", vehicle), "", Verdict::does_not_fit));
}

TEST_CASE("cavities, shaft and travel that were told refute what is recorded") {
    FakeVehicle vehicle;
    vehicle.tell("temperature_left_cavities", "5").tell("temperature_left_shaft", "spline");
    vehicle.tell("temperature_left_travel", "100 deg");
    const auto examination = examined("L7", "temperature-actuator-left", vehicle);
    CHECK(objects(examination, "not temperature_left_cavities=7", Verdict::does_not_fit));
    CHECK(objects(examination, "not temperature_left_shaft=d_shaft", Verdict::does_not_fit));
    CHECK(objects(examination, "temperature_left_travel>95.0", Verdict::check_first));
    CHECK(objects(examination, "temperature_left_travel>105.0", Verdict::does_not_fit));
}

TEST_CASE("the airbag's waiting time is the longest that may hold, and said where a way in lies beside one") {
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    const auto left = joined(texts_of(examined("L7", "temperature-actuator-left", vehicle).cautions));
    CHECK_THAT(left, Contains("wait 10 min"));
    CHECK_THAT(left, Contains("hold two buttons"));
    CHECK_THAT(joined(texts_of(examined("L7", "recirculation-actuator", vehicle).cautions)), !Contains("airbag"));
    FakeVehicle driven_by_two;
    driven_by_two.may_be("drive", {"2wd"});
    CHECK_THAT(joined(texts_of(examined("L7", "temperature-actuator-left", driven_by_two).cautions)),
               Contains("wait 3 min"));
}

TEST_CASE("an actuator of which nothing is recorded gets no objection, only what to compare") {
    const FakeVehicle vehicle;
    const auto examination = examined("NOBODY", "temperature-actuator-left", vehicle);
    CHECK(examination.objections.empty());
    CHECK_THAT(joined(texts_of(examination.cautions)), Contains("hold it beside the old one"));
}

TEST_CASE("a stand-in of another plug is vetoed, a longer travel is conditional, an unknown one waits for the bench") {
    CHECK(opinion("L7", "L5").at_most == Verdict::does_not_fit);
    CHECK(opinion("L7", "R7").at_most == Verdict::does_not_fit);
    const auto longer = opinion("L7", "L98");
    CHECK(longer.at_most == Verdict::check_first);
    CHECK_THAT(joined(longer.conditions), Contains("learns the stops"));
    CHECK(opinion("L7", "BARE").at_most == Verdict::check_first);
    CHECK(opinion("L7", "NOBODY").at_most == Verdict::check_first);
    CHECK(opinion("L7", "L7").at_most == Verdict::fits);
    CHECK(opinion("LEVER-A", "LEVER-B").at_most == Verdict::fits);  // nothing of this domain's is known of levers
}

TEST_CASE("where the source names one part and no other, nothing stands in") {
    FakeFacts facts = fleet();
    facts.table("actuators_door_motors",
                "group_key,function,side,cavities,shaft,plug_code,travel_deg,drive,feedback,turns\n"
                "C1,recirculation,only,5,lever,B,60,dc,potentiometer,left\n"
                "C2,recirculation,only,5,lever,B,60,dc,potentiometer,left\n");
    const Engine engine;
    const FakeVehicle vehicle;
    const auto here = instance().may_stand_in({"C1", "", "C2", "", "recirculation-actuator", false},
                                              {facts, engine, &vehicle});
    CHECK(here.at_most == Verdict::does_not_fit);
    CHECK_THAT(joined(here.reasons), Contains("this part and no other"));
    const auto nowhere = instance().may_stand_in({"C1", "", "C2", "", "", false}, {facts, engine, nullptr});
    CHECK(nowhere.at_most == Verdict::fits);
}

TEST_CASE("an order waits until the door was turned and the motor was seen to fail; of the one looked at alone") {
    FakeVehicle quiet, clicks, stuck, free_and_still, here, taught;
    clicks.tell("actuator_noise_at", "temperature_left");
    stuck.tell("door_by_hand", "stuck").tell("actuator_on_bench", "still");
    free_and_still.tell("actuator_noise_at", "temperature_left");
    free_and_still.tell("door_by_hand", "moves_freely").tell("actuator_on_bench", "still");
    here.tell("actuator_suspected", "temperature_left").tell("actuator_sound", "clicks");
    taught.tell("actuator_after_battery", "yes").tell("door_by_hand", "moves_freely");
    CHECK(holds_of(quiet).empty());
    REQUIRE(holds_of(clicks).size() == 1);
    CHECK(holds_of(clicks)[0].roles.size() == 9);
    CHECK_THAT(holds_of(clicks)[0].reason, Contains("nobody has turned the door by hand"));
    REQUIRE(holds_of(stuck).size() == 1);
    CHECK_THAT(holds_of(stuck)[0].reason, Contains("the door comes first"));
    for (const auto& hold : holds_of(free_and_still))
        CHECK(std::find(hold.roles.begin(), hold.roles.end(), "temperature-actuator-left") == hold.roles.end());
    REQUIRE(holds_of(here).size() == 1);
    CHECK(holds_of(here)[0].roles == std::vector<std::string>{"temperature-actuator-left"});
    REQUIRE(holds_of(taught).size() == 1);
    CHECK_THAT(holds_of(taught)[0].reason, Contains("taught"));
}

TEST_CASE("an actuator that was run is not run again, and one that was not heard is not ordered") {
    FakeVehicle turns, slips;
    turns.tell("actuator_noise_at", "temperature_left").tell("door_by_hand", "moves_freely");
    turns.tell("actuator_on_bench", "turns");
    REQUIRE(holds_of(turns).size() == 1);
    CHECK_THAT(holds_of(turns)[0].reason, Contains("nobody has looked whether its feedback follows"));
    CHECK(holds_of(turns)[0].attributes[0] == "actuator_feedback_follows");
    slips.tell("actuator_noise_at", "temperature_left").tell("door_by_hand", "moves_freely");
    slips.tell("actuator_on_bench", "slips");
    REQUIRE(holds_of(slips).size() == 1);
    const auto roles = holds_of(slips)[0].roles;
    CHECK(roles.size() == 8);  // all nine but the one that clicks
    CHECK(std::find(roles.begin(), roles.end(), "temperature-actuator-left") == roles.end());
    slips.tell("air_wrong", "never_recirculates");
    CHECK(holds_of(slips).empty());
}

TEST_CASE("what is said to be sound holds nothing up") {
    FakeVehicle vehicle;
    vehicle.tell("actuator_noise_at", "none").tell("air_wrong", "none");
    CHECK(holds_of(vehicle).empty());
}

TEST_CASE("findings that speak of trouble are said, sound ones are not") {
    static const auto facts = fleet();
    const Engine engine;
    FakeVehicle vehicle;
    vehicle.tell("air_wrong", "one_side_wrong+never_warm").tell("door_by_hand", "moves_freely");
    vehicle.tell("actuator_noise_at", "recirculation");
    CHECK(instance().findings({facts, engine, &vehicle}).troubles.size() == 3);
}

TEST_CASE("a code is kept in one form, and what is none is refused") {
    static const auto facts = fleet();
    const Engine engine;
    const Services services{facts, engine, nullptr};
    CHECK(instance().telling("actuator_code", "b1081 71", services).text == "B1081-71");
    CHECK(instance().telling("actuator_code", "b1081", services).text == "B1081");
    CHECK(instance().telling("actuator_code", "B9081", services).faults.size() == 1);
    CHECK(instance().telling("actuator_code", "B108", services).faults.size() == 1);
    CHECK(instance().telling("air_wrong", "never_warm", services).faults.empty());
}

TEST_CASE("trouble is told apart by hand, and what is told of the vehicle fills in") {
    FakeVehicle vehicle;
    vehicle.tell("door_by_hand", "moves_freely").tell("actuator_on_bench", "slips");
    vehicle.tell("actuator_suspected", "temperature_left");
    const auto answer = asked("trouble", {}, vehicle);
    CHECK(answer.verdict == Verdict::fits);
    CHECK_THAT(answer.headline, Contains("its gear slips"));
    CHECK_THAT(joined(answer.cautions), Contains("beside an airbag"));
    CHECK(asked("trouble", {{"door", "stuck"}}, vehicle).verdict == Verdict::check_first);
}

TEST_CASE("the feedback is met with the stops on record, and says so when there are none") {
    const auto stands = asked(
        "feedback", {{"place", "temperature_left"}, {"signal", "2.5 V"}, {"reference", "5 V"}, {"command", "50"}});
    CHECK(stands.verdict == Verdict::fits);
    CHECK(line_text(stands, "position between the stops") == "50.0 %");
    const auto behind = asked(
        "feedback", {{"place", "temperature_left"}, {"signal", "2.5 V"}, {"reference", "5 V"}, {"command", "100"}});
    CHECK(behind.verdict == Verdict::check_first);
    CHECK_THAT(behind.headline, Contains("short of where it was commanded"));
    const auto bare = asked("feedback", {{"place", "defrost"}, {"signal", "2.5 V"}, {"reference", "5 V"}});
    CHECK(bare.verdict == Verdict::not_recorded);
    const auto dead = asked("feedback", {{"place", "defrost"}, {"signal", "0.02 V"}, {"reference", "5 V"}});
    CHECK_THAT(dead.headline, Contains("broken or shorted"));
}

TEST_CASE("stops that are short, past, or as they should be") {
    const auto with = [](const char* first, const char* last) {
        return asked("end-stops", {{"place", "temperature_left"},
                                   {"first", first},
                                   {"last", last},
                                   {"reference", "5 V"},
                                   {"travel", "90 deg"}});
    };
    CHECK(with("0.5 V", "4.5 V").verdict == Verdict::fits);
    const auto stopped = with("0.5 V", "3.5 V");
    CHECK(stopped.verdict == Verdict::check_first);
    CHECK(line_text(stopped, "travel now") == "67.5 deg");
    CHECK_THAT(with("0.1 V", "4.5 V").headline, Contains("past a recorded stop"));
}

TEST_CASE("a motor by volts, ohms and amperes, against the readings on record") {
    const auto held = asked("motor", {{"actuator", "L7"}, {"volts", "12 V"}, {"ohm", "40 ohm"}, {"amps", "0.29 A"}});
    CHECK(held.verdict == Verdict::check_first);
    CHECK_THAT(held.headline, Contains("held still"));
    CHECK(line_text(held, "the winding") == "within what is recorded");
    const auto turning = asked("motor", {{"volts", "12 V"}, {"ohm", "40 ohm"}, {"amps", "0.1 A"}});
    CHECK(turning.verdict == Verdict::fits);
    CHECK(line_text(turning, "it generates against the supply") == "8.0 V");
    CHECK_FALSE(asked("motor", {{"volts", "12 V"}, {"ohm", "40 ohm"}}).verdict);
    CHECK(asked("motor", {{"actuator", "L7"}, {"volts", "12 V"}, {"ohm", "20 ohm"}}).verdict == Verdict::check_first);
}

TEST_CASE("the way in adds up what comes off, the waiting time and the teaching") {
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    const auto left = asked("way-in", {{"place", "temperature_left"}}, vehicle);
    CHECK(line_text(left, "in all") == "26 min");  // 8 + 6, 10 waiting, 2 teaching
    const auto middle = asked("way-in", {{"place", "recirculation"}}, vehicle);
    CHECK(middle.verdict == Verdict::check_first);
    CHECK_THAT(middle.headline, Contains("if every step is needed"));
    CHECK(asked("way-in", {{"place", "defrost"}}, vehicle).verdict == Verdict::not_recorded);
}

TEST_CASE("a code names no part, and its failure type is looked up") {
    const auto answer = asked("code", {{"code", "b1081-71"}});
    CHECK_THAT(answer.headline, Contains("actuator stuck"));
    CHECK_THAT(joined(answer.cautions), Contains("never a part"));
    CHECK(asked("code", {{"code", "B1081-7E"}}).verdict == Verdict::not_recorded);
    CHECK_THROWS_WITH(asked("code", {{"code", "X1081"}}), Contains("valid range is a code"));
}

TEST_CASE("two are compared as recorded, by hand, and with what the vehicle shows") {
    CHECK(asked("compare", {{"old", "L7"}, {"new", "R7"}}).verdict == Verdict::does_not_fit);
    CHECK(asked("compare", {{"old", "L7"}, {"new", "L7"}}).verdict == Verdict::fits);
    CHECK(asked("compare", {{"old", "L7"}, {"new", "L7"}, {"new-cavities", "5"}}).verdict == Verdict::does_not_fit);
    FakeVehicle vehicle;
    vehicle.tell("temperature_left_cavities", "9");
    const auto answer = asked("compare", {{"old", "BARE"}, {"new", "L7"}}, vehicle);
    CHECK_THAT(answer.headline, Contains("cavities of the plug"));
}

TEST_CASE("the check names what cannot be in one row, and what one source says twice") {
    FakeFacts facts;
    facts.table("actuators_door_motors",
                "group_key,function,side,cavities,shaft,plug_code,travel_deg,drive,feedback,turns\n"
                "A,temperature,left,4,d_shaft,A,90,dc,potentiometer,left\n"
                "B,temperature,left,3,d_shaft,A,90,stepper,none,right\n"
                "C,recirculation,only,2,lever,A,60,vacuum,none,\n");
    facts.table("applications",
                "line,role,says,group_key,condition,withdrawn\n"
                "test-line,temperature-actuator-right,fits,A,,\n");
    facts.table("actuators_end_stops",
                "line,condition,function,side,first_stop,first_pct,last_stop,last_pct,reference_v\n"
                "test-line,,defrost,left,shut,10,open,12,5\n");
    facts.table("actuators_windings",
                "group_key,low_ohm,high_ohm,running_a,stall_a,running_v\nA,36,44,0.1,3,12\nB,36,44,0.4,0.3,12\nC,36,44,"
                "0.1,,\n");
    facts.table("actuators_failure_types", "failure_type,words,points_at\n0x71,stuck,door_or_gear\n");
    facts.table("actuators_ways_in",
                "line,condition,function,side,step,comes_off,minutes,beside_airbag,place,source\n"
                "test-line,,temperature,left,1,trim,8,yes,,one\ntest-line,,temperature,left,1,duct,8,yes,,one\n");
    facts.table("actuators_airbag_waits",
                "line,condition,minutes,words,source\ntest-line,,3,,one\ntest-line,,10,,one\n");
    facts.table("stand_ins", "offered,relation,wanted,condition,withdrawn\nA,supersedes,B,,\nA,excludes,B,,\n");
    std::vector<std::string> columns;
    for (const auto& fault : instance().check(facts, "test-pack"))
        columns.push_back(fault.origin.file + " " + fault.column);
    const std::vector<std::string> wanted{"actuators_door_motors.csv cavities",
                                          "applications.csv role",
                                          "actuators_door_motors.csv cavities",
                                          "actuators_door_motors.csv turns",
                                          "actuators_door_motors.csv cavities",
                                          "actuators_end_stops.csv last_pct",
                                          "actuators_windings.csv stall_a",
                                          "actuators_windings.csv running_a",
                                          "actuators_windings.csv running_v",
                                          "actuators_failure_types.csv failure_type",
                                          "actuators_end_stops.csv side",
                                          "stand_ins.csv relation",
                                          "stand_ins.csv relation",
                                          "stand_ins.csv relation",
                                          "stand_ins.csv relation",
                                          "actuators_ways_in.csv step",
                                          "actuators_airbag_waits.csv minutes"};
    CHECK(columns == wanted);
    CHECK(instance().check(facts, "another-pack").empty());
}

TEST_CASE("air that never gets warm asks for the heater before the door, unless the motor was seen to fail") {
    FakeFacts facts = fleet();
    facts.table("imitators",
                "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
                "cold air,a blocked core,feel the pipes,8,temperature-actuator-left,air_wrong=never_warm,"
                "heater_pipes=outlet_cool,heater_pipes=both_hot\n");
    facts.table("job_roles", "job,role,reach\nchange,temperature-actuator-left,needs\n");
    const Engine engine;
    const auto holds = [&](const FakeVehicle& vehicle) { return instance().holds({facts, engine, &vehicle}); };
    FakeVehicle cold, blocked, hot, slips;
    cold.tell("air_wrong", "wrong_outlet+never_warm");
    REQUIRE(holds(cold).size() == 2);
    CHECK_THAT(holds(cold)[0].reason, Contains("cold air may be a blocked core instead"));
    CHECK_THAT(holds(cold)[1].reason, Contains("door"));
    blocked.tell("heater_pipes", "outlet_cool");
    REQUIRE(holds(blocked).size() == 1);
    CHECK_THAT(holds(blocked)[0].reason, Contains("speaks for a blocked core"));
    hot.tell("air_wrong", "never_warm").tell("heater_pipes", "both_hot");
    REQUIRE(holds(hot).size() == 1);
    CHECK_THAT(holds(hot)[0].reason, Contains("door"));
    slips.tell("air_wrong", "never_warm").tell("door_by_hand", "moves_freely").tell("actuator_on_bench", "slips");
    CHECK(holds(slips).empty());
    CHECK_THAT(joined(ask(instance(), "trouble", {}, facts, &cold).next), Contains("feel the pipes"));
    CHECK_THAT(joined(ask(instance(), "trouble", {}, facts, &slips).next), !Contains("feel the pipes"));
}
