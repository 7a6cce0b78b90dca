// The solenoids domain as core meets it: the other inquiries, examination, substitution and the check of a pack.
#include <catch2/catch.hpp>

#include <random>

#include "core/ground/error.h"
#include "tests/solenoids/asked.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

// ---------------------------------------------------------------- the other inquiries

TEST_CASE("the apply table shows what each fault gives and what driving cannot tell apart") {
    const auto answer = asked("apply-table", {{"gearbox", "ash-4"}});
    CHECK_THAT(line_text(answer, "driving cannot tell apart"), Contains("feed lost, plug lost"));
    CHECK(answer.grids[0].rows.size() == 2 + 4 + 2);
    const auto six = asked("apply-table", {{"gearbox", "birch-6"}});
    // Derived: A lost leaves 5 6 R, E lost leaves 1 2 4 6.
    CHECK(line_text(six, "left when A cannot apply") == "5 6 R");
    CHECK(line_text(six, "left when E cannot apply") == "1 2 4 6");
    CHECK(asked("apply-table", {{"gearbox", "elm"}}).verdict == Verdict::not_recorded);
}

TEST_CASE("Birch-4 loses top gear by the hydraulics and third by the controller") {
    // A published service text describes both.
    const auto before = asked("apply-table", {{"gearbox", "birch-4"}});
    const auto in = asked("apply-table", {{"gearbox", "birch-4"}, {"phase", "in_fail_safe"}});
    CHECK(before.grids[0].rows[2] == std::vector<std::string>{"No1 held off", "4", "3", "3", "4"});
    CHECK(in.grids[0].rows[2] == std::vector<std::string>{"No1 held off", "3", "3", "3", "3"});
}

TEST_CASE("the gear really engaged follows from speeds, and a slipping converter keeps it open") {
    CHECK(line_text(asked("gear-ratio", {{"gearbox", "ash-4"}, {"input-speed", "2000"}, {"output-speed", "2857"}}),
                    "gear that fits") == "4");
    // 2000 rpm, 2.0 m, 80 km/h, final 3.5: 0.857.
    const auto road = asked("gear-ratio", {{"ratios", "3=1.0, 4=0.85"},
                                           {"engine-speed", "2000"},
                                           {"tyre", "2"},
                                           {"road-speed", "80"},
                                           {"final-drive", "3.5"}});
    CHECK(line_text(road, "measured ratio") == "0.857");
    CHECK(road.verdict == Verdict::check_first);
    CHECK(asked("gear-ratio", {{"ratios", "3=1.0, 4=0.85"},
                               {"engine-speed", "2000"},
                               {"tyre", "2"},
                               {"road-speed", "80"},
                               {"final-drive", "3.5"},
                               {"converter", "locked"}})
              .verdict == Verdict::fits);
    CHECK(asked("gear-ratio", {{"gearbox", "ash-4"}, {"input-speed", "2000"}, {"output-speed", "1600"}}).verdict ==
          Verdict::does_not_fit);
    CHECK(asked("gear-ratio", {{"input-speed", "2000"}, {"output-speed", "1600"}}).verdict == Verdict::not_recorded);
    CHECK_THROWS_WITH(asked("gear-ratio", {{"input-speed", "2000"}}), Contains("input-speed with output-speed"));
}

TEST_CASE("fail-safe is told from a held gear by the ignition, and the record is shown") {
    const auto given_up = asked("fail-safe", {{"gearbox", "ash-4"}, {"high-gear-start", "yes"}, {"gears-back", "yes"}});
    CHECK_THAT(given_up.headline, Contains("controller has given up"));
    CHECK(line_text(given_up, "default gear") == "3");
    CHECK_THAT(asked("fail-safe", {{"high-gear-start", "yes"}, {"gears-back", "no"}}).headline,
               Contains("Held hydraulically"));
    CHECK(asked("fail-safe", {}).verdict == Verdict::check_first);
}

TEST_CASE("a coil: corrected to 20 degC, its current, and the bad joint that an ohmmeter hides") {
    const auto answer = asked("coil", {{"ohm", "18.4"}, {"temp", "75"}, {"low", "11"}, {"high", "16"}});
    CHECK(line_text(answer, "at 20 °C") == "15.1 ohm");
    CHECK(answer.verdict == Verdict::fits);
    CHECK_FALSE(answer.series.empty());
    // 17.1 ohm at 5 degC is 18.2 at 20: too high, and to be repeated at 20 °C.
    const auto cold = asked("coil", {{"ohm", "17.1"}, {"temp", "5"}, {"low", "11"}, {"high", "16"}});
    CHECK(line_text(cold, "at 20 °C") == "18.2 ohm");
    CHECK(cold.verdict == Verdict::check_first);
    CHECK_THAT(cold.headline, Contains("Too high") && Contains("repeat at 20 °C"));
    CHECK(asked("coil", {{"ohm", "18.2"}, {"temp", "20"}, {"low", "11"}, {"high", "16"}}).verdict ==
          Verdict::does_not_fit);
    // 4 ohm in series with 13.5 at 12.6 V: 2.9 V lost, 0.72 A left, 17.5 ohm read.
    const auto joint = asked("coil", {{"ohm", "13.5"}, {"temp", "20"}, {"low", "11"}, {"high", "16"}, {"joint", "4"}});
    CHECK(line_text(joint, "current at 20 °C") == "0.93 A");
    CHECK(line_text(joint, "lost across the bad joint") == "2.9 V");
    CHECK(line_text(joint, "current left with the bad joint") == "0.72 A");
    CHECK(line_text(joint, "an ohmmeter would read") == "17.5 ohm");
}

TEST_CASE("a coil's limits, wires and current limit come from the family's row") {
    const auto answer = asked("coil", {{"gearbox", "ash-4"},
                                       {"element", "A"},
                                       {"ohm", "13.5"},
                                       {"temp", "20"},
                                       {"bench-feed", "yes"},
                                       {"pin-to-case", "13"}});
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(answer.headline, Contains("In limits") && Contains("Do not feed it at the bench"));
    CHECK_THAT(line_text(answer, "feed it at the bench"), Contains("0.93 A, more than its limit of 0.75 A"));
    CHECK_THAT(line_text(answer, "pin to case"), Contains("grounded by design"));
    const auto lockup = asked(
        "coil", {{"gearbox", "ash-4"}, {"element", "L"}, {"ohm", "13.5"}, {"temp", "20"}, {"bench-feed", "yes"}});
    CHECK_THAT(line_text(lockup, "feed it at the bench"), Contains("no permission"));
}

TEST_CASE("a coil without limits is corrected but not judged") {
    const auto answer = asked("coil", {{"ohm", "18.4"}, {"temp", "75"}});
    CHECK(answer.verdict == Verdict::not_recorded);
    CHECK_THAT(answer.headline, Contains("15.1 ohm at 20 °C"));
    CHECK_THROWS_WITH(asked("coil", {{"temp", "75"}}), Contains("ohm, or open=yes"));
    CHECK_THROWS_WITH(asked("coil", {{"ohm", "1"}, {"temp", "20"}, {"leads", "2"}}), Contains("leads: got 2 ohm"));
    CHECK_THROWS_WITH(asked("coil", {{"ohm", "1"}, {"temp", "20"}, {"low", "2"}}), Contains("both together"));
}

TEST_CASE("the gearbox's own sensor checks a claimed temperature and is never extrapolated") {
    const auto agrees = asked("temperature-sensor", {{"gearbox", "ash-4"}, {"ohm", "3500"}, {"claimed", "25"}});
    CHECK(agrees.verdict == Verdict::fits);
    CHECK(asked("temperature-sensor", {{"gearbox", "ash-4"}, {"ohm", "3500"}, {"claimed", "60"}}).verdict ==
          Verdict::check_first);
    CHECK_THAT(asked("temperature-sensor", {{"gearbox", "ash-4"}, {"ohm", "100"}}).headline,
               Contains("nothing is extrapolated"));
    CHECK(asked("temperature-sensor", {{"gearbox", "birch-4"}, {"ohm", "3500"}}).verdict == Verdict::not_recorded);
}

TEST_CASE("codes are read by number, and several circuits at once name what they run through") {
    const auto answer = asked("codes", {{"gearbox", "ash-4"}, {"codes", "p0753, P0758"}});
    CHECK_THAT(line_text(answer, "P0753"), Contains("shift solenoid A, electrical"));
    CHECK_THAT(line_text(answer, "they share"), Contains("2 of 2 run through it, 1 on it reported nothing"));
    CHECK_THAT(answer.headline, Contains("Do not order solenoids"));
    const auto one = asked("codes", {{"codes", "P0751"}});
    CHECK_THAT(one.headline, Contains("not a part"));
    CHECK_THROWS_AS(asked("codes", {{"codes", "hello"}}), Error);
}

TEST_CASE("two functions of one part may be swapped, and the codes afterwards say where the fault is") {
    const auto before = asked("swap-test",
                              {{"gearbox", "ash-4"}, {"element", "A"}, {"with", "B"}, {"code-before", "P0751"}});
    CHECK(before.verdict == Verdict::fits);
    CHECK_THAT(line_text(before, "if it moves with the part, expect"), Contains("P0756"));
    CHECK_THAT(
        asked(
            "swap-test",
            {{"gearbox", "ash-4"}, {"element", "A"}, {"with", "B"}, {"code-before", "P0751"}, {"codes-after", "P0756"}})
            .headline,
        Contains("moved with the part"));
    CHECK_THAT(
        asked(
            "swap-test",
            {{"gearbox", "ash-4"}, {"element", "A"}, {"with", "B"}, {"code-before", "P0751"}, {"codes-after", "P0751"}})
            .headline,
        Contains("stayed"));
    CHECK(asked("swap-test", {{"gearbox", "ash-4"}, {"element", "A"}, {"with", "L"}}).verdict == Verdict::does_not_fit);
    CHECK(asked("swap-test", {{"gearbox", "birch-6"}, {"element", "A"}, {"with", "B"}}).verdict ==
          Verdict::does_not_fit);
    CHECK(asked("swap-test", {{"element", "A"}, {"with", "B"}}).verdict == Verdict::check_first);
    CHECK(asked("swap-test", {{"element", "A"}, {"with", "B"}, {"same-part", "yes"}, {"in-block", "no"}}).verdict ==
          Verdict::fits);
    CHECK(
        asked("swap-test", {{"element", "A"}, {"with", "B"}, {"same-part", "yes"}, {"in-block", "no"}, {"grade", "3"}})
            .verdict == Verdict::check_first);
    CHECK_THROWS_WITH(asked("swap-test", {{"gearbox", "ash-4"}, {"element", "A"}, {"with", "Q"}}),
                      Contains("elements of Ash-4: A, B, L"));
    CHECK_THROWS_WITH(asked("swap-test", {{"element", "A"}, {"with", "A"}}), Contains("another element"));
}

TEST_CASE("how an element is sold: single, or a block whose code is read first and whose loading costs") {
    const auto single = asked("service", {{"gearbox", "ash-4"},
                                          {"element", "A"},
                                          {"price", "60"},
                                          {"hours", "2"},
                                          {"hour-rate", "30"},
                                          {"consumables", "40"}});
    CHECK(single.verdict == Verdict::fits);
    CHECK(line_text(single, "cost, as sold here") == "160.00");
    const auto block = asked("service",
                             {{"gearbox", "birch-6"}, {"element", "A"}, {"price", "400"}, {"calibration-price", "90"}});
    CHECK(block.verdict == Verdict::check_first);
    CHECK(line_text(block, "cost, as sold here") == "490.00");
    CHECK_THAT(block.next.front(), Contains("read the calibration code"));
    CHECK(asked("service", {{"gearbox", "birch-6"}, {"element", "A"}, {"block-code", "7F3"}}).verdict == Verdict::fits);
    CHECK(asked("service", {{"gearbox", "birch-6"}, {"element", "E"}}).verdict == Verdict::not_recorded);
    CHECK(asked("service", {{"element", "A"}, {"serviced-as", "set"}, {"calibration", "none"}}).verdict ==
          Verdict::fits);
    CHECK(asked("service", {{"element", "A"}, {"serviced-as", "set"}}).verdict ==
          Verdict::check_first);  // a code or grade may be on it
}

// ---------------------------------------------------------------- examine

TEST_CASE("a single solenoid where only the block is sold is in doubt, and the block and its calibration come along") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"birch-6"});
    const auto examination = examined("SOL-LIN", "clutch-solenoid-a", vehicle);
    CHECK_THAT(reasons(examination), Contains("[] solenoid A is sold as block_with_plate: order the solenoid-block") &&
                                         Contains("calibration code"));
    REQUIRE(examination.companions.size() >= 2);
    CHECK(examination.companions[0].role == "solenoid-block");
    CHECK(examination.companions[1].role == "block-calibration");
    CHECK(examination.questions == std::vector<std::string>{"block_code"});
}

TEST_CASE("where the family is open, objections carry the family as their condition") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"ash-4", "birch-4"});
    const auto examination = examined("SOL-7", "shift-solenoid-a", vehicle);
    // 11 to 16 ohm against 20 to 40 ohm.
    REQUIRE(examination.objections.size() == 1);
    CHECK(examination.objections[0].condition == "gearbox=birch-4");
    CHECK(examination.objections[0].at_most == Verdict::does_not_fit);
    CHECK_THAT(examination.objections[0].reason, Contains("11 to 16 ohm") && Contains("20 to 40 ohm"));
    FakeVehicle ash;
    ash.may_be("gearbox", {"ash-4"});
    CHECK(examined("SOL-7", "shift-solenoid-a", ash).objections.empty());
    CHECK_THAT(reasons(examined("SOL-LIN", "shift-solenoid-a", ash)), Contains("linear"));
    CHECK_THAT(texts(examined("SOL-7", "shift-solenoid-a", ash).cautions), Contains("screen may stay in the bore"));
}

TEST_CASE("a block of another pin count is ruled out by the pins counted, and asked about while they are open") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"birch-6"}).may_be("case_connector_pins", {"14", "16"}).tell("block_code", "7F3");
    const auto examination = examined("BLK-16", "solenoid-block", vehicle);
    REQUIRE(examination.objections.size() == 1);
    CHECK(examination.objections[0].condition == "not case_connector_pins=16");
    CHECK(examination.questions == std::vector<std::string>{"case_connector_pins"});
    CHECK(examination.companions.at(0).role == "block-calibration");
}

TEST_CASE("a block code that is not read keeps the block in doubt; once told it does not") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"birch-6"});
    const auto open = examined("BLK-16", "solenoid-block", vehicle);
    REQUIRE(open.objections.size() == 1);
    CHECK(open.objections[0].at_most == Verdict::check_first);
    vehicle.tell("block_code", "7F3");
    CHECK(examined("BLK-16", "solenoid-block", vehicle).objections.empty());
}

TEST_CASE("a block code told as unreadable, none or one of two keeps the block in doubt as one that nobody told") {
    for (const auto& [code, evidence] :
         std::vector<std::pair<std::string, TellEvidence>>{{"unreadable", TellEvidence::read},
                                                           {"none", TellEvidence::read},
                                                           {"7F3|7F4", TellEvidence::read},
                                                           {"7F3", TellEvidence::assumed}}) {
        FakeVehicle vehicle;
        vehicle.may_be("gearbox", {"birch-6"}).tell("block_code", code, evidence);
        INFO(code);
        const auto examination = examined("BLK-16", "solenoid-block", vehicle);
        REQUIRE(examination.objections.size() == 1);
        CHECK(examination.objections[0].at_most == Verdict::check_first);
        CHECK(asked("service", {{"element", "A"}}, &vehicle).verdict == Verdict::check_first);
    }
    static const auto facts = gearbox_facts();
    const Engine engine;
    for (const char* text : {"Unreadable", "illegible", "unknown"})
        CHECK(instance().telling("block_code", text, {facts, engine, nullptr}).text == "unreadable");
}

TEST_CASE("several circuits told at once put every solenoid in doubt until what they share is tested, and warn after") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"ash-4"}).tell("codes", "P0753+P0758+P0743");
    const auto examination = examined("SOL-7", "shift-solenoid-a", vehicle);
    CHECK_THAT(texts(examination.cautions),
               Contains("do not order solenoids yet: 3 circuits report at once (A, B, L)"));
    REQUIRE(examination.objections.size() == 1);
    CHECK(examination.objections[0].at_most == Verdict::check_first);
    CHECK(examination.questions == std::vector<std::string>{"feed_under_load", "connector_state"});
    FakeVehicle assumed = vehicle;
    assumed.tell("feed_under_load", "12.4 V", TellEvidence::assumed)
        .tell("connector_state", "clean", TellEvidence::assumed);
    CHECK(examined("SOL-7", "shift-solenoid-a", assumed).objections.size() == 1);
    vehicle.tell("feed_under_load", "12.4 V").tell("connector_state", "clean");
    CHECK(examined("SOL-7", "shift-solenoid-a", vehicle).objections.empty());
    CHECK_THAT(texts(examined("SOL-7", "shift-solenoid-a", vehicle).cautions), Contains("do not order solenoids yet"));
}

TEST_CASE("what nobody recorded is no objection") {
    FakeVehicle vehicle;
    CHECK(examined("NOBODY", "shift-solenoid-a", vehicle).objections.empty());
    vehicle.may_be("gearbox", {"elm-5"});
    CHECK(examined("NOBODY", "shift-solenoid-a", vehicle).objections.empty());
}

// ---------------------------------------------------------------- stand-ins

TEST_CASE("the same function is not the same part: drive, resistance and body decide") {
    CHECK(opinion("SOL-7", "SOL-7").at_most == Verdict::fits);
    CHECK(opinion("SOL-7", "SOL-7B").at_most == Verdict::fits);
    CHECK(opinion("SOL-7", "SOL-20").at_most == Verdict::does_not_fit);
    CHECK(opinion("SOL-7", "SOL-LIN").at_most == Verdict::does_not_fit);
    CHECK(opinion("SOL-7", "SOL-PWM").at_most == Verdict::does_not_fit);  // same ohm, pulsed for on/off
    CHECK(opinion("SOL-7", "SOL-3O").at_most == Verdict::check_first);
    const auto wide = opinion("SOL-7", "SOL-WIDE");
    CHECK(wide.at_most == Verdict::check_first);
    CHECK_THAT(joined(wide.conditions), Contains("it must lie within 11 to 16 ohm"));
    CHECK(opinion("SOL-WIDE", "SOL-7").at_most == Verdict::fits);
    CHECK(opinion("SOL-7", "NOBODY").at_most == Verdict::check_first);
    CHECK(opinion("NOBODY", "SOL-7").at_most == Verdict::check_first);
}

TEST_CASE("a solenoid's substitution never gets better by losing evidence") {
    const std::vector<std::string> columns{"kind",   "ohm_20_low", "ohm_20_high",   "o_rings",
                                           "screen", "nose_mm",    "connector_pins"};
    std::mt19937 random(17);
    const auto pick = [&](const std::vector<std::string>& from) { return from[random() % from.size()]; };
    const auto row = [&] {
        return std::vector<std::string>{
            pick({"on_off", "linear"}), pick({"11", "20"}), pick({"21", "40"}), pick({"2", "3"}),
            pick({"yes", "no"}),        pick({"24", "26"}), pick({"1", "2"})};
    };
    const auto facts_of = [&](const std::vector<std::string>& a, const std::vector<std::string>& b) {
        std::string text = "group_key,grade", first = "A,", second = "B,";
        for (std::size_t i = 0; i < columns.size(); ++i) {
            text += "," + columns[i];
            first += "," + a[i];
            second += "," + b[i];
        }
        FakeFacts facts;
        facts.table("solenoids_parts", text + "\n" + first + "\n" + second + "\n");
        return facts;
    };
    const Engine engine;
    const auto allowed = [&](const std::vector<std::string>& a, const std::vector<std::string>& b) {
        const auto facts = facts_of(a, b);
        return instance().may_stand_in({"A", "", "B", "", "", false}, {facts, engine, nullptr}).at_most;
    };
    int compared = 0;
    for (int round = 0; round < 500; ++round) {
        const auto a = row(), b = row();
        const auto before = allowed(a, b);
        if (before == Verdict::does_not_fit) continue;  // a veto rests on a known difference
        for (std::size_t i = 0; i < columns.size(); ++i) {
            auto less_offered = b, less_wanted = a;
            less_offered[i] = less_wanted[i] = "";
            compared += 2;
            CHECK(allowed(a, less_offered) >= before);
            CHECK(allowed(less_wanted, b) >= before);
        }
    }
    CHECK(compared > 100);
}

// ---------------------------------------------------------------- check

TEST_CASE("the invented gearbox families have no fault") {
    CHECK(instance().check(gearbox_facts(), "test-pack").empty());
}

TEST_CASE("every fault of the solenoid rows of a pack is reported with its row and what to do") {
    auto facts = gearbox_facts();
    facts.table("solenoids_nodes",
                "gearbox,node,title,element,state_when_lost,check_by\nash-4,feed,x,Q,off\nash-4,feed,x,B,on\n");
    facts.table("solenoids_failsafe",
                "gearbox,fault,subject,detected,commands\nash-4,stuck_off,Z,,A=off\nash-4,,,,A "
                "off\nash-4,,,,Y=on\nash-4,,A,,A=on\n");
    facts.table("solenoids_levers", "gearbox,lever,commanded,obtained\nash-4,2,,9\n");
    facts.table("solenoids_published_failures",
                "gearbox,fault,subject,commanded,obtained,phase,lever\nash-4,node_lost,A,1,8,before_fail_safe\n");
    facts.table("solenoids_service",
                "gearbox,element,serviced_as,order_role,calibration,calibration_words,access\nash-4,L,block_with_plate,"
                ",block_code,,pan_off\n");
    facts.table("solenoids_ratios", "gearbox,gear,ratio\nash-4,7,0.5\n");
    facts.table("solenoids_temperatures", "gearbox,temp_c,low_ohm,high_ohm\nash-4,130,230,250\n");
    facts.table(
        "solenoids_functions",
        "gearbox,element,function,role,kind,rest,ohm_20_low,ohm_20_high,wires,max_current_a,pin,group_key\nash-4,P,"
        "line_pressure,pressure-solenoid,linear,,5,6,,,,SOL-7\n");
    facts.table("solenoids_codes",
                "code,gearbox,element,class,words,source\nP0751,,,electrical,x,s\nP1234,,,circuit,x,s\nP0750,,A,"
                "circuit,x,s\nP0781,,,shift,45689 Shift,s\nP1751,nowhere,,circuit,x,s\nP1752,ash-4,Q,circuit,x,s\n");
    std::string all;
    for (const auto& one : instance().check(facts, "test-pack"))
        all += one.origin.file + " " + one.column + ": " + one.what + "\n";
    for (const char* expected :
         {"solenoids_nodes.csv element: Q is no element of ash-4: its elements are A, B, L, P",
          "solenoids_nodes.csv state_when_lost: node feed",
          "solenoids_failsafe.csv subject: Z is no element",
          "solenoids_failsafe.csv commands: not a list of commands",
          "solenoids_failsafe.csv commands: Y is no element",
          "solenoids_failsafe.csv fault: a subject without a fault",
          "solenoids_levers.csv obtained: 9 is no gear",
          "solenoids_published_failures.csv subject: A is no node",
          "solenoids_published_failures.csv obtained: 8 is no gear",
          "solenoids_service.csv order_role: L is sold as block_with_plate",
          "solenoids_service.csv calibration_words",
          "solenoids_ratios.csv gear: 7 is no gear",
          "solenoids_temperatures.csv low_ohm: does not fall",
          "solenoids_functions.csv group_key: SOL-7 has 11 to 16 ohm, P needs 5 to 6 ohm",
          "SOL-7 is on_off, P is driven linear",
          "solenoids_codes.csv class: P0751 is performance or stuck off by its number, not electrical",
          "P1234 is the maker's own code",
          "solenoids_codes.csv element: an element without its gearbox family",
          "solenoids_codes.csv words: begins with a five-digit number",
          "nowhere is no family",
          "Q is no element of ash-4"})
        CHECK_THAT(all, Contains(expected));
    CHECK(instance().check(facts, "another-pack").empty());
}

TEST_CASE("an apply table with two gears alike, and a rest gear that is not at rest, are faults of the family") {
    FakeFacts facts;
    facts.table("solenoids_gearboxes",
                "gearbox,title,elements,default_gear,default_reason,reverse_without_current,low_by_lever,lockup_off,"
                "pressure_high,ratio_window\nelm,Elm,solenoid_states,1,hydraulic_rest\n");
    facts.table("solenoids_apply", "gearbox,gear,lever,element,state\nelm,1,,A,on\nelm,2,,A,on\nelm,3,,A,off\n");
    std::string all;
    for (const auto& one : instance().check(facts, "test-pack"))
        all += std::string(one.column) + ": " + one.what + "\n";
    CHECK_THAT(all, Contains("gears 1 and 2: same states in one range") &&
                        Contains("default_gear: default gear: 1 recorded as hydraulic rest, but gear 3"));
}

TEST_CASE("a code list shifted by one row is recognised and refused") {
    FakeFacts facts;
    facts.table("solenoids_codes",
                "code,gearbox,element,class,words,source\nP0751,,,stuck_off,Shift Solenoid A "
                "Malfunction,s\nP0752,,,stuck_on,Shift Solenoid A Performance or Stuck Off,s\n"
                "P0753,,,electrical,Shift Solenoid A Stuck On,s\nP0754,,,intermittent,Shift Solenoid A "
                "Electrical,s\nP0755,,,circuit,Shift Solenoid A Intermittent,s\nP0756,,,stuck_off,Shift Solenoid B "
                "Malfunction,s\n");
    std::string all;
    for (const auto& one : instance().check(facts, "test-pack")) all += one.what + "\n";
    CHECK_THAT(all, Contains("the list is shifted by a row"));
}

TEST_CASE("no inquiry about solenoids promises more than it knows") {
    for (const auto& inquiry : instance().inquiries()) {
        Inputs inputs{{"gearbox", "ash-4"}};
        for (const auto& input : inquiry.inputs)
            if (input.required)
                inputs.emplace_back(input.name, input.name == "codes"     ? "P0753"
                                                : input.name == "element" ? "A"
                                                : input.name == "with"    ? "B"
                                                                          : "20");
        std::string text;
        try {
            text = all_text(asked(inquiry.name.c_str(), inputs));
        } catch (const Error& refusal) {
            text = refusal.what();
            CHECK_THAT(text, Contains("valid range"));
        }
        for (const char* word : {"guaranteed", "universal", "compatible", "definitely"})
            CHECK_THAT(text, !Contains(word));
    }
}
