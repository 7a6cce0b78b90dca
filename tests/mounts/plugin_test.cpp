// The mounts domain as core meets it: examination, substitution, the check of a pack, what it holds and tightens.
#include <catch2/catch.hpp>

#include <random>

#include "tests/mounts/fleet.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

TEST_CASE("a right mount offered for the left role does not fit, whatever else agrees") {
    FakeVehicle vehicle;
    vehicle.may_be("mount_kind", {"hydraulic"});
    const auto examination = examined("HYD-R", "engine-mount-left", vehicle);
    REQUIRE(objection_on(examination, ""));
    CHECK(objection_on(examination, "")->at_most == Verdict::does_not_fit);
    CHECK_THAT(objection_on(examination, "")->reason, Contains("right is not left"));
    CHECK(examined("HYD-L", "engine-mount-left", vehicle).objections.empty());
}

TEST_CASE("a plain mount is in doubt exactly where the vehicle may have a hose") {
    FakeVehicle vehicle;
    vehicle.may_be("mount_hose", {"yes", "no"}).may_be("mount_plug", {"no"});
    const auto examination = examined("HYD-L", "engine-mount-left", vehicle);
    REQUIRE(examination.objections.size() == 1);
    CHECK(examination.objections[0].condition == "mount_hose=yes");
    CHECK(examination.objections[0].at_most == Verdict::check_first);
    CHECK_THAT(examination.objections[0].reason, Contains("bolts up, but differs"));
    CHECK(examination.questions == std::vector<std::string>{"mount_hose"});
    const auto vacuum = examined("VAC-L", "engine-mount-left", vehicle);
    REQUIRE(objection_on(vacuum, "mount_hose=no"));
    CHECK_THAT(objection_on(vacuum, "mount_hose=no")->reason, Contains("nothing drives it"));
}

TEST_CASE("a hose that was told counts even where the line knows no such attribute") {
    FakeVehicle vehicle;
    vehicle.tell("mount_hose", "yes");
    const auto examination = examined("HYD-L", "engine-mount-left", vehicle);
    REQUIRE(objection_on(examination, "mount_hose=yes"));
    CHECK(objection_on(examination, "mount_hose=yes")->at_most == Verdict::check_first);
}

TEST_CASE("a stud of another thread is ruled out by the measured thread, within the bench's 0.2 mm") {
    FakeVehicle vehicle;
    vehicle.may_be("mount_stud", {"10 mm", "12 mm"});
    const auto examination = examined("HYD-L", "engine-mount-left", vehicle);
    REQUIRE(objection_on(examination, "mount_stud<11.80mm"));
    CHECK(objection_on(examination, "mount_stud<11.80mm")->at_most == Verdict::does_not_fit);
    CHECK(objection_on(examination, "mount_stud>12.20mm"));
    FakeVehicle unknown;
    CHECK(examined("HYD-L", "engine-mount-left", unknown).objections.empty());
}

TEST_CASE("a bracket and a locating pin are looked at where the vehicle may differ") {
    FakeVehicle vehicle;
    vehicle.may_be("mount_bracket", {"integral", "separate"}).may_be("mount_pin", {"yes", "no"});
    const auto examination = examined("HYD-L", "engine-mount-left", vehicle);
    REQUIRE(objection_on(examination, "mount_bracket=integral"));
    REQUIRE(objection_on(examination, "mount_pin=no"));
    CHECK(objection_on(examination, "mount_pin=no")->at_most == Verdict::check_first);
}

TEST_CASE("fasteners that are new each time come along; a conditional one is a caution until it is settled") {
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    const auto examination = examined("HYD-L", "engine-mount-left", vehicle);
    REQUIRE(examination.companions.size() == 1);
    CHECK(examination.companions[0].role == "engine-mount-nuts");
    CHECK_THAT(joined(texts_of(examination.cautions)), Contains("M10 bolt: new each time, where drive=4wd") &&
                                                           Contains("recommends left and right mount together") &&
                                                           Contains("settled"));
    CHECK_THAT(joined(texts_of(examination.cautions)),
               Contains("sources disagree about lifting at the oil pan: cannot tell, find the maker's"));
    FakeVehicle front;
    front.may_be("drive", {"4wd"});
    CHECK(examined("HYD-L", "engine-mount-left", front).companions.size() == 2);
}

TEST_CASE("a fastener whose form is not stated is named, and no part is ordered for it") {
    FakeFacts facts;
    facts.table("mounts_fasteners",
                "line,condition,position,fastener,form,count,tightening,reuse,settle_first\n"
                "test-line,,left,M12,,1,45 N m,never,no\n");
    const Engine engine;
    const FakeVehicle vehicle;
    const auto examination = instance().examine({"engine-mount-left", "NOBODY", ""}, {facts, engine, &vehicle});
    CHECK(examination.companions.empty());
    CHECK_THAT(joined(texts_of(examination.cautions)), Contains("1 x M12: new each time"));
}

TEST_CASE("a mount of which nothing is recorded gets no objection, only what to compare") {
    FakeVehicle vehicle;
    vehicle.may_be("mount_kind", {"solid", "hydraulic"});
    const auto examination = examined("NOBODY", "engine-mount-left", vehicle);
    CHECK(examination.objections.empty());
    CHECK_THAT(joined(texts_of(examination.cautions)), Contains("not recorded"));
    CHECK(examined("HYD-L", "engine-mount-bolts", vehicle).objections.empty());
}

TEST_CASE(
    "a substitution across sides is vetoed, a solid mount is at most conditional, a plain one for a switched one needs "
    "a note") {
    CHECK(opinion("HYD-L", "HYD-R").at_most == Verdict::does_not_fit);
    const auto solid = opinion("HYD-L", "SOLID-L");
    CHECK(solid.at_most == Verdict::check_first);
    CHECK_THAT(joined(solid.reasons), Contains("bolts up, but differs"));
    CHECK_FALSE(solid.conditions.empty());
    const auto plain = opinion("VAC-L", "HYD-L");
    CHECK_THAT(joined(plain.conditions), Contains("write in the job record"));
    CHECK(opinion("VAC-L", "ELE-L").at_most == Verdict::check_first);
    CHECK(opinion("HYD-L", "HYD-L").at_most == Verdict::fits);
}

TEST_CASE("what is not recorded, and a hose seen on the vehicle, never leave a substitution free") {
    CHECK(opinion("HYD-L", "NOBODY").at_most == Verdict::check_first);
    CHECK(opinion("NOBODY", "HYD-L").at_most == Verdict::check_first);
    FakeVehicle vehicle;
    vehicle.tell("mount_hose", "yes");
    const auto switched = opinion("HYD-L", "SOLID-L", &vehicle);
    CHECK_THAT(joined(switched.conditions), Contains("write in the job record"));
    CHECK(opinion("HYD-L", "SOLID-L", nullptr, "engine-mount-right").at_most == Verdict::does_not_fit);
}

TEST_CASE("a substitution never gets better by losing evidence") {
    // Generated records: blanking any one cell of either mount never raises what is allowed.
    const std::vector<std::string> columns{"position", "kind",           "connection",     "hose_mm",     "pins",
                                           "bracket",  "stud_thread_mm", "stud_length_mm", "locating_pin"};
    std::mt19937 random(7);
    const auto pick = [&](const std::vector<std::string>& from) { return from[random() % from.size()]; };
    const auto row = [&] {
        // Only kinds whose connection agrees: the check of a pack refuses the others.
        const auto [kind, connection] = std::vector<std::pair<std::string, std::string>>{
            {"solid", "none"},
            {"hydraulic", "none"},
            {"switched_vacuum", "hose"},
            {"switched_electric", "plug"}}[random() % 4];
        return std::vector<std::string>{pick({"left", "right"}),
                                        kind,
                                        connection,
                                        pick({"5", "6"}),
                                        pick({"2", "3"}),
                                        pick({"integral", "separate"}),
                                        pick({"10", "12"}),
                                        pick({"20", "30"}),
                                        pick({"yes", "no"})};
    };
    const auto csv = [&](const std::vector<std::string>& a, const std::vector<std::string>& b) {
        std::string text = "group_key", first = "A", second = "B";
        for (std::size_t i = 0; i < columns.size(); ++i) {
            text += "," + columns[i];
            first += "," + a[i];
            second += "," + b[i];
        }
        return text + ",natural_hz,damping_ratio\n" + first + "\n" + second + "\n";
    };
    const Engine engine;
    const auto allowed = [&](const std::string& text) {
        FakeFacts facts;
        facts.table("mounts_mounts", text);
        return instance().may_stand_in({"A", "", "B", "", "", false}, {facts, engine, nullptr});
    };
    int compared = 0;
    for (int round = 0; round < 400; ++round) {
        const auto a = row(), b = row();
        const auto before = allowed(csv(a, b));
        if (before.at_most == Verdict::does_not_fit) continue;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            auto less = b;
            less[i] = "";
            ++compared;
            CHECK(allowed(csv(a, less)).at_most >= before.at_most);
        }
    }
    CHECK(compared > 100);
}

TEST_CASE("a pack that lets a solid mount supersede a hydraulic one is faulted at its row") {
    auto facts = fleet();
    facts.table("stand_ins",
                "offered,relation,wanted,condition,withdrawn\nSOLID-L,supersedes,HYD-L,,\nHYD-R,stands_in_if,HYD-L,,"
                "\nSOLID-L,bolts_up_but,HYD-L,,\nSOLID-L,supersedes,HYD-L,,wrong since 2020\n");
    const auto faults = instance().check(facts, "test-pack");
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].origin.line == 2);
    CHECK(faults[0].column == "relation");
    CHECK_THAT(faults[0].what, Contains("write bolts_up_but"));
    CHECK_THAT(faults[1].what, Contains("right is not left"));
    CHECK(instance().check(facts, "another-pack").empty());
}

TEST_CASE("the invented fleet itself has no fault") { CHECK(instance().check(fleet(), "test-pack").empty()); }

TEST_CASE("every fault of the mounts of a pack is reported with what to do") {
    FakeFacts facts;
    facts.table("mounts_mounts",
                "group_key,position,kind,connection,hose_mm,pins,bracket,stud_thread_mm,stud_length_mm,locating_pin,"
                "natural_hz,damping_ratio\nA,left,hydraulic,hose,6,\nB,left,switched_vacuum,"
                "plug,,2\nC,left,solid,none,6,2\nD,right,solid,none,,\n");
    facts.table("applications",
                "role,says,group_key,withdrawn\nengine-mount-left,fits,D,\nengine-mount-left,does_not_fit,D,\n");
    facts.table(
        "mounts_fasteners",
        "line,position,tightening\nx,left,45\nx,left,60 deg + 45 N m\nx,left,9000 N m\nx,left,45 N m + 90 deg\n");
    facts.table(
        "mounts_lifting",
        "line,condition,point,says,source\nx,,oil pan,allowed,s1\nx,,oil pan,forbidden,s1\nx,,oil pan,forbidden,s2\n");
    facts.table("mounts_pairs",
                "line,condition,position,with_position,rule,source\nx,,left,right,required,s1\nx,,right,left,no,s1\n");
    std::string all;
    for (const auto& fault : instance().check(facts, "test-pack"))
        all += fault.origin.file + ":" + std::to_string(fault.origin.line) + " " + fault.column + " " + fault.what +
               "\n";
    for (const char* expected :
         {"mounts_mounts.csv:2 kind A: hydraulic with a hose is a switched mount", "mounts_mounts.csv:3 connection B",
          "mounts_mounts.csv:4 hose_mm C", "mounts_mounts.csv:4 pins C",
          "applications.csv:2 role D is recorded as the right mount", "mounts_fasteners.csv:2 tightening",
          "mounts_fasteners.csv:3 tightening", "mounts_fasteners.csv:4 tightening", "mounts_lifting.csv:3 says oil pan",
          "mounts_pairs.csv:3 rule"})
        CHECK_THAT(all, Contains(expected));
    CHECK_THAT(all, !Contains("mounts_fasteners.csv:5") && !Contains("mounts_lifting.csv:4") &&
                        !Contains("applications.csv:3"));
}

TEST_CASE("a tightening recorded by a range of years is given where the years left lie in it") {
    FakeFacts facts;
    facts.table("mounts_fasteners",
                "line,condition,position,fastener,count,tightening,reuse,settle_first\n"
                "test-line,year=2003..2006,left,M12 nut,1,45 N m,never,yes\n"
                "test-line,year=2007..,left,M12 nut,1,60 N m,never,yes\n"
                "test-line,year=2005..2008,left,M10 bolt,2,40 N m + 60 deg,if_undamaged,no\n");
    const Engine engine;
    FakeVehicle vehicle;
    vehicle.may_be("year", {"2004", "2005"});
    const auto hook = instance().tightening("engine-mount-left", {facts, engine, &vehicle});
    REQUIRE(hook.fasteners.size() == 2);
    CHECK(hook.fasteners[0].what == "1 x M12 nut");
    CHECK(hook.fasteners[0].tightening == "45 N\u00b7m; new each time; loose until the engine has settled");
    CHECK(hook.fasteners[1].tightening == "40 N\u00b7m + 60\u00b0 where year=2005..2008");
    CHECK(hook.fasteners[0].source.row.line == 2);
    const auto asked = ask(instance(), "tightening", {{"position", "left"}}, facts, &vehicle);
    CHECK(asked.verdict == Verdict::check_first);
    CHECK_THAT(all_text(asked), Contains("45 N\u00b7m") && !Contains("60 N\u00b7m"));
}

TEST_CASE("bolts are tightened with their mount, and a mount without a row is not recorded") {
    const auto facts = fleet();
    const Engine engine;
    const FakeVehicle vehicle;
    const Services services{facts, engine, &vehicle};
    CHECK(instance().tightening("engine-mount-bolts", services).none_here);
    CHECK_FALSE(instance().tightening("engine-mount-right", services).none_here);
    CHECK(instance().tightening("engine-mount-right", services).fasteners.empty());
}

TEST_CASE("findings told of the mounts speak of trouble only where they do") {
    const auto facts = fleet();
    const Engine engine;
    FakeVehicle vehicle;
    vehicle.tell("mount_leak", "dry").tell("mount_rubber", "cracked").tell("misfire", "yes");
    const auto found = instance().findings({facts, engine, &vehicle});
    REQUIRE(found.troubles.size() == 2);
    CHECK(found.troubles[0].attribute == "mount_rubber");
    CHECK(found.troubles[1].title == "misfire");
}

TEST_CASE("no engine mount is ordered against a misfire or a low idle, unless something speaks for a mount") {
    const auto facts = fleet();
    const Engine engine;
    const auto holds = [&](const FakeVehicle& vehicle) { return instance().holds({facts, engine, &vehicle}); };
    FakeVehicle misfires;
    misfires.tell("misfire", "yes").tell("mount_leak", "dry");
    REQUIRE(holds(misfires).size() == 1);
    CHECK_THAT(joined(holds(misfires)[0].roles), Contains("engine-mount-left") && !Contains("gearbox"));
    CHECK_THAT(holds(misfires)[0].reason, Contains("a misfire is told"));
    CHECK(holds(misfires)[0].source.evidence == Evidence::measured);
    FakeVehicle low;
    low.tell("idle_speed", "640 rpm");
    REQUIRE(holds(low).size() == 1);
    CHECK_THAT(holds(low)[0].reason, Contains("640 rpm") && Contains("700 rpm"));
    CHECK(holds(low)[0].source.evidence == Evidence::memory);
    FakeVehicle right;
    right.tell("idle_speed", "660 rpm").tell("misfire", "no").tell("idle_shake", "in_gear");
    CHECK(holds(right).empty());
    FakeVehicle leaks;
    leaks.tell("misfire", "yes").tell("mount_leak", "left");
    CHECK(holds(leaks).empty());
    FakeVehicle torn;
    torn.tell("misfire", "yes").tell("mount_rubber", "split");
    CHECK(holds(torn).empty());
}

TEST_CASE("engine mounts that were looked at and are sound are not ordered") {
    const auto facts = fleet();
    const Engine engine;
    const auto holds = [&](const FakeVehicle& vehicle) { return instance().holds({facts, engine, &vehicle}); };
    FakeVehicle sound, dry, leaks;
    sound.tell("mount_rubber", "sound");
    REQUIRE(holds(sound).size() == 1);
    CHECK_THAT(holds(sound)[0].reason, Contains("nobody has looked for fluid"));
    CHECK(holds(sound)[0].attributes == std::vector<std::string>{"mount_leak"});
    sound.tell("mount_leak", "dry");
    REQUIRE(holds(sound).size() == 1);
    CHECK_THAT(holds(sound)[0].reason, Contains("sound and no fluid is seen"));
    dry.tell("mount_leak", "dry");  // a solid one has none to lose
    CHECK(holds(dry).empty());
    leaks.tell("mount_rubber", "sound").tell("mount_leak", "left");
    CHECK(holds(leaks).empty());
}

TEST_CASE(
    "a shake that is told asks idle, misfire and exhaust before a mount, and what is ruled out is not asked again") {
    auto facts = fleet();
    facts.table("imitators",
                "seen,rival,test,minutes,parts,blames_condition,rival_condition,cleared_condition\n"
                "a shake,a low idle,read it,4,engine-mount-left,idle_shake=in_gear|always,idle_against_maker=low,"
                "idle_against_maker=right\n"
                "a shake,a misfire,count,5,engine-mount-left,idle_shake=in_gear|always,misfire=yes,misfire=no\n"
                "a shake,an exhaust that touches,pry,6,engine-mount-left|gearbox-mount,idle_shake=in_gear|always,"
                "exhaust_touches=yes,exhaust_touches=no\n");
    facts.table("job_roles", "job,role,reach\nengine-mounts,engine-mount-left,needs\n");
    const Engine engine;
    const auto holds = [&](const FakeVehicle& vehicle) { return instance().holds({facts, engine, &vehicle}); };
    const auto with = [](const std::vector<std::pair<std::string, std::string>>& told) {
        FakeVehicle vehicle;
        vehicle.tell("idle_shake", "in_gear");
        for (const auto& [attribute, text] : told) vehicle.tell(attribute, text);
        return vehicle;
    };
    REQUIRE(holds(with({})).size() == 3);
    CHECK(holds(with({}))[0].attributes == std::vector<std::string>{"idle_against_maker"});
    CHECK(holds(with({{"misfire", "no"}, {"exhaust_touches", "no"}, {"idle_against_maker", "right"}})).empty());
    // The fleet records 700 rpm; a reading within 20 rpm is the same, and 50 rpm below is low, from memory: between them
    // the person says it.
    const std::vector<std::pair<std::string, std::string>> rest{{"misfire", "no"}, {"exhaust_touches", "no"}};
    const auto idle = [&](const char* rpm) {
        auto told = rest;
        told.emplace_back("idle_speed", rpm);
        return holds(with(told));
    };
    CHECK(idle("700 rpm").empty());
    CHECK(idle("680 rpm").empty());
    REQUIRE(idle("670 rpm").size() == 1);
    CHECK(idle("670 rpm")[0].attributes == std::vector<std::string>{"idle_against_maker"});
    REQUIRE(idle("640 rpm").size() == 1);
    CHECK_THAT(idle("640 rpm")[0].reason, Contains("an idle of 640 rpm is told"));
    REQUIRE(holds(with({{"exhaust_touches", "yes"}})).size() == 1);
    CHECK_THAT(holds(with({{"exhaust_touches", "yes"}}))[0].reason, Contains("speaks for an exhaust that touches"));
    CHECK(holds(with({{"exhaust_touches", "yes"}, {"mount_leak", "left"}})).empty());
    CHECK(holds(with({{"misfire", "yes"}})).size() == 1);  // said once
    FakeVehicle hearsay = with(rest);
    hearsay.tell("idle_speed", "700 rpm", TellEvidence::seller_said);
    CHECK(holds(hearsay).size() == 1);
    const auto vehicle = with({});
    CHECK_THAT(joined(texts_of(instance().findings({facts, engine, &vehicle}).cautions)),
               Contains("a misfire instead"));
    CHECK(instance().check(facts, "test-pack").empty());
}
