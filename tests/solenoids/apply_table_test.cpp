// Gears predicted from an apply table under single faults.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

#include "plugins/solenoids/science/fail_safe.h"
#include "plugins/solenoids/science/fault_patterns.h"
#include "tests/solenoids/families.h"

using namespace casebound::solenoids;
using namespace casebound::tests;
using Catch::Matchers::Contains;

namespace {

const std::vector<std::string> one_to_four{"1", "2", "3", "4"};

std::string gears(const ApplyTable& table, const Fault& fault, const GearboxState& gearbox = {}) {
    std::string text;
    for (const std::string& commanded : one_to_four)
        text += outcome_text(predict(table, fault, commanded, gearbox)) + " ";
    text.pop_back();
    return text;
}

Fault off(const char* element) { return {FaultKind::stuck_off, element}; }
Fault on(const char* element) { return {FaultKind::stuck_on, element}; }
Fault lost(const char* node) { return {FaultKind::node_lost, node}; }

std::vector<Observation> driven(const std::vector<std::string>& obtained, Phase phase) {
    std::vector<Observation> all;
    for (std::size_t i = 0; i < obtained.size(); ++i)
        all.push_back({one_to_four[i], Obtained::gear, obtained[i], {phase, "", {}}});
    return all;
}

std::vector<Fault> agreeing(const std::vector<Explanation>& explanations) {
    std::vector<Fault> faults;
    for (const auto& one : explanations)
        if (one.agreement == Agreement::agrees) faults.push_back(one.fault);
    return faults;
}

}  // namespace

TEST_CASE("Ash-4: each single fault gives its own gears for commanded 1-2-3-4") {
    // Derived from the table; 1-2-2-1 and 2-2-3-3 equal two rows of a maker's
    // published failure chart for another four-speed.
    CHECK(gears(ash_4(), off("A")) == "2 2 3 3");
    CHECK(gears(ash_4(), on("A")) == "1 1 4 4");
    CHECK(gears(ash_4(), off("B")) == "4 3 3 4");
    CHECK(gears(ash_4(), on("B")) == "1 2 2 1");
    CHECK(gears(ash_4(), lost("feed")) == "3 3 3 3");
    CHECK(gears(ash_4(), {}) == "1 2 3 4");
}

TEST_CASE("Ash-4: before fail-safe no two faults look alike") {
    const auto table = ash_4();
    const auto all = patterns(table, single_faults(table), one_to_four);
    CHECK(all.size() == 5);
    CHECK(look_alikes(all).size() == 5);
}

TEST_CASE("Ash-4: in fail-safe every electrical loss looks the same") {
    const auto table = ash_4();
    const GearboxState in_fail_safe{Phase::in_fail_safe, "", {}};
    const auto groups = look_alikes(
        patterns(table, {off("A"), off("B"), lost("feed"), Fault{}}, one_to_four, in_fail_safe));
    REQUIRE(groups.size() == 1);
    CHECK(groups.front().size() == 4);
    CHECK(gears(table, off("A"), in_fail_safe) == "3 3 3 3");
    // A valve held on stays on with its power gone.
    CHECK(gears(table, on("A"), in_fail_safe) == "4 4 4 4");
}

TEST_CASE("nobody said before or in fail-safe: cannot tell, unless both give the same") {
    const GearboxState untold{Phase::not_told, "", {}};
    CHECK(gears(ash_4(), off("A"), untold) == "cannot tell cannot tell 3 3");
    CHECK(gears(ash_4(), lost("feed"), untold) == "3 3 3 3");
}

TEST_CASE("2-2-3-3 before fail-safe means A held off and nothing else") {
    const auto explained = explain(ash_4(), driven({"2", "2", "3", "3"}, Phase::before_fail_safe));
    CHECK(agreeing(explained) == std::vector<Fault>{off("A")});
    CHECK(explained.front().fault == off("A"));
    CHECK(fault_text(ash_4(), explained.front().fault) == "A held off");
}

TEST_CASE("stuck in third cannot tell the faults apart once in fail-safe") {
    const auto explained = explain(ash_4(), driven({"3", "3", "3", "3"}, Phase::in_fail_safe));
    CHECK(agreeing(explained) == std::vector<Fault>{off("A"), off("B"), lost("feed"), Fault{}});
    CHECK(agreeing(explain(ash_4(), driven({"3", "3", "3", "3"}, Phase::not_told))) ==
          std::vector<Fault>{off("A"), off("B"), lost("feed"), Fault{}});
}

TEST_CASE("gears that still change show the state they were noted in, told or not") {
    // In fail-safe every fault of Ash-4 gives one gear throughout, so 2-2-3-3 was noted before it.
    const auto explained = explain(ash_4(), driven({"2", "2", "3", "3"}, Phase::not_told));
    CHECK(agreeing(explained) == std::vector<Fault>{off("A")});
    for (const auto& one : explained)
        if (one.fault != off("A")) CHECK(one.agreement == Agreement::contradicts);
}

TEST_CASE("Birch-4: without fail-safe the first solenoid's loss gives top gear in first") {
    CHECK(gears(birch_4(), off("No.1")) == "4 3 3 4");
    CHECK(gears(birch_4(), lost("feed")) == "4 4 4 4");
}

TEST_CASE("Birch-4: with fail-safe the second is switched on and gives third") {
    const GearboxState in_fail_safe{Phase::in_fail_safe, "", {}};
    CHECK(gears(birch_4(), off("No.1"), in_fail_safe) == "3 3 3 3");
    const auto predicted = predict(birch_4(), off("No.1"), "1", in_fail_safe);
    CHECK(predicted.layer == Layer::fail_safe);
    CHECK(predicted.source == "invented");
    CHECK(predict(birch_4(), off("No.2"), "1", in_fail_safe).obtained == Obtained::not_recorded);
}

TEST_CASE("a reaction may depend on how the controller noticed") {
    auto table = birch_4();
    table.reactions.front().detected = CodeClass::electrical;
    GearboxState noticed{Phase::in_fail_safe, "", CodeClass::electrical};
    CHECK(predict(table, off("No.1"), "1", noticed).gear == "3");
    noticed.detected = CodeClass::stuck_off;
    CHECK(predict(table, off("No.1"), "1", noticed).obtained == Obtained::not_recorded);
}

TEST_CASE("Birch-6: gears left when one element cannot apply") {
    // Derived: each gear needs two of five elements.
    using Names = std::vector<std::string>;
    CHECK(gears_left(birch_6(), "A") == Names{"5", "6", "R"});
    CHECK(gears_left(birch_6(), "B") == Names{"1", "2", "3", "R"});
    CHECK(gears_left(birch_6(), "C") == Names{"1", "3", "4", "5", "R"});
    CHECK(gears_left(birch_6(), "D") == Names{"2", "3", "4", "5", "6"});
    CHECK(gears_left(birch_6(), "E") == Names{"1", "2", "4", "6"});
    std::set<Names> distinct;
    for (const auto& element : birch_6().elements) distinct.insert(gears_left(birch_6(), element));
    CHECK(distinct.size() == 5);
}

TEST_CASE("Birch-6: prediction and gears left agree for every element and gear") {
    const auto table = birch_6();
    for (const auto& element : table.elements) {
        const auto left = gears_left(table, element);
        for (const auto& gear : table.gears) {
            const auto predicted = predict(table, {FaultKind::stuck_off, element}, gear.name);
            const bool is_left = std::find(left.begin(), left.end(), gear.name) != left.end();
            CHECK((predicted.obtained == Obtained::gear) == is_left);
            if (!is_left) CHECK(predicted.obtained == Obtained::slips);
        }
    }
}

TEST_CASE("slip in exactly the gears of one element is the sign of that element") {
    using Names = std::vector<std::string>;
    CHECK(shared_by_exactly(birch_6(), {"2", "6"}) == Names{"C"});
    CHECK(shared_by_exactly(birch_6(), {"3", "5", "R"}) == Names{"E"});
    CHECK(shared_by_exactly(birch_6(), {"2"}).empty());
    CHECK(shared_by_exactly(birch_6(), {}).empty());
    CHECK_THROWS_AS(shared_by_exactly(birch_6(), {"9"}), std::domain_error);
}

TEST_CASE("a third friction element binds, and is worded so") {
    const auto predicted = predict(birch_6(), on("C"), "1");
    CHECK(predicted.obtained == Obtained::binds);
    CHECK(fault_text(birch_6(), on("C")) == "C cannot release");
    CHECK(fault_text(birch_6(), off("C")) == "C cannot apply");
}

TEST_CASE("slip seen where slip is predicted agrees, a gear seen there contradicts") {
    const auto table = birch_6();
    CHECK(agreement(table, off("C"), {"2", Obtained::slips, "", {}}) == Agreement::agrees);
    CHECK(agreement(table, off("C"), {"2", Obtained::gear, "2", {}}) == Agreement::contradicts);
    CHECK(agreement(table, off("C"), {"2", Obtained::binds, "", {}}) == Agreement::contradicts);
    CHECK(agreement(table, off("C"), {"1", Obtained::slips, "", {}}) == Agreement::contradicts);
    CHECK(agreement(table, off("C"), {"1", Obtained::cannot_tell, "", {}}) == Agreement::cannot_tell);
}

TEST_CASE("states that belong to no gear are between gears and prove nothing") {
    auto table = ash_4();
    table.gears.pop_back();  // no fourth
    CHECK(predict(table, off("B"), "1").obtained == Obtained::between_gears);
    CHECK(agreement(table, off("B"), {"1", Obtained::gear, "2", {}}) == Agreement::cannot_tell);
    CHECK(agreement(table, off("B"), {"1", Obtained::slips, "", {}}) == Agreement::agrees);
}

TEST_CASE("the lever may override the elements") {
    auto table = ash_4();
    table.lever_rules = {{"1", {}, "1", "invented"}};
    const auto predicted = predict(table, lost("feed"), "1", {Phase::before_fail_safe, "1", {}});
    CHECK(predicted.gear == "1");
    CHECK(predicted.layer == Layer::lever);
    CHECK(predict(table, lost("feed"), "1").gear == "3");
}

TEST_CASE("a published failure chart overrides algebra and lever, in its own phase only") {
    auto table = ash_4();
    table.lever_rules = {{"D", {}, "4", "invented"}};
    table.chart = {{off("A"), "1", "3", Phase::before_fail_safe, "", "published chart, invented"},
                   {off("A"), "2", "1", Phase::before_fail_safe, "D", "published chart, invented"}};
    const auto predicted = predict(table, off("A"), "1");
    CHECK(predicted.gear == "3");
    CHECK(predicted.layer == Layer::chart);
    CHECK(predicted.source == "published chart, invented");
    CHECK(predict(table, off("A"), "2").gear == "2");
    CHECK(predict(table, off("A"), "2", {Phase::before_fail_safe, "D", {}}).gear == "1");
    CHECK(predict(table, off("A"), "3", {Phase::before_fail_safe, "D", {}}).gear == "4");
    CHECK(predict(table, off("A"), "1", {Phase::in_fail_safe, "", {}}).layer == Layer::fail_safe);
}

TEST_CASE("one set of states may serve two lever ranges") {
    auto table = ash_4();
    table.gears.push_back({"R", {true, true}, "R"});
    CHECK(table_faults(table).empty());
    CHECK(predict(table, {}, "R").gear == "R");
    CHECK(predict(table, {}, "1").gear == "1");
    CHECK(predict(table, off("A"), "R").obtained == Obtained::between_gears);
}

TEST_CASE("every fault of a table is reported") {
    auto table = ash_4();
    table.elements.push_back("A");
    table.gears.push_back({"1", {true}, ""});
    table.nodes.push_back({"ground", {"Z"}, false});
    table.lever_rules = {{"", "9", "8", ""}};
    table.chart = {{off("Q"), "1", "7", Phase::not_told, "", ""}};
    table.reactions.push_back({off("Y"), {}, {{"X", true}}, ""});
    const auto faults = table_faults(table);
    std::string all;
    for (const auto& fault : faults) all += fault + "\n";
    for (const char* expected : {"element A: given twice", "gear 1: got 1 states: the table has 3 elements",
                                 "gear 1: given twice", "node ground: unknown element Z", "lever rule: no lever given",
                                 "lever : unknown gear 8", "lever : unknown gear 9", "failure chart: unknown subject Q",
                                 "failure chart: unknown gear 7", "failure chart: say before or in fail-safe",
                                 "fail-safe reaction: unknown subject Y", "fail-safe reaction: unknown element X"})
        CHECK_THAT(all, Contains(expected));
    CHECK_THROWS_AS(predict(table, {}, "1"), std::domain_error);
    auto twins = ash_4();
    twins.gears.push_back({"5", {true, true}, ""});
    CHECK(table_faults(twins) == std::vector<std::string>{"gears 1 and 5: same states in one range"});
    CHECK(table_faults({}).size() == 2);
}

TEST_CASE("unknown gears and elements are refused by name") {
    CHECK_THROWS_WITH(predict(ash_4(), {}, "7"), "gear: got 7: valid range is the gears of the apply table");
    CHECK_THROWS_WITH(predict(ash_4(), off("C"), "1"),
                      "fault subject: got C: valid range is the elements and nodes of the apply table");
    CHECK_THROWS_AS(gears_left(ash_4(), "C"), std::domain_error);
}

TEST_CASE("in generated families the true fault always agrees with what it gives") {
    std::mt19937 random(41);
    for (int round = 0; round < 200; ++round) {
        ApplyTable table;
        table.kind = round % 2 == 0 ? TableKind::solenoid_states : TableKind::friction_elements;
        table.elements = {"A", "B", "C"};
        std::vector<unsigned> states{0, 1, 2, 3, 4, 5, 6, 7};
        std::shuffle(states.begin(), states.end(), random);
        for (std::size_t g = 0; g < 4; ++g) {
            const unsigned s = states[g];
            table.gears.push_back({one_to_four[g], {(s & 1) != 0, (s & 2) != 0, (s & 4) != 0}, ""});
        }
        table.nodes = {{"feed", {"A", "C"}, false}};
        for (const Fault& fault : single_faults(table)) {
            std::vector<Observation> seen;
            for (const auto& gear : one_to_four) {
                const auto predicted = predict(table, fault, gear);
                seen.push_back({gear, predicted.obtained, predicted.gear, {}});
            }
            const auto faults = agreeing(explain(table, seen));
            CHECK(std::find(faults.begin(), faults.end(), fault) != faults.end());
        }
    }
}

TEST_CASE("a hydraulic default gear must be the one with every solenoid off") {
    FailSafe record{"3", DefaultReason::hydraulic_rest, true, true, true, true, "invented"};
    CHECK(fail_safe_faults(ash_4(), record).empty());
    CHECK(fail_safe_faults(birch_4(), record).size() == 1);
    record.default_gear = "4";
    CHECK(fail_safe_faults(birch_4(), record).empty());
    record.reason = DefaultReason::controller_choice;
    record.default_gear = "3";
    CHECK(fail_safe_faults(birch_4(), record).empty());
    record.default_gear = "9";
    CHECK(fail_safe_faults(birch_4(), record).size() == 1);
    CHECK(fail_safe_faults(birch_4(), {}).empty());
}

TEST_CASE("the ignition test separates the controller's choice from a held gear") {
    CHECK(read_signs({true, {}, true}).reading == FailSafeReading::in_fail_safe);
    CHECK(read_signs({true, {}, true}).phase == Phase::in_fail_safe);
    CHECK(read_signs({true, {}, false}).reading == FailSafeReading::hydraulic_or_constant);
    CHECK(read_signs({false, {}, {}}).reading == FailSafeReading::no_sign_of_it);
    CHECK(read_signs({true, {}, {}}).reading == FailSafeReading::cannot_tell);
    const auto nothing = read_signs({});
    CHECK(nothing.reading == FailSafeReading::cannot_tell);
    CHECK(nothing.ask.size() == 3);
}
