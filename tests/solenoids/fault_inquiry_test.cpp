// `fault`, asked as on the command line: what speaks for which cause, and what is not to be ordered.
#include <catch2/catch.hpp>

#include "tests/solenoids/asked.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

TEST_CASE("stuck in third with three electrical codes: do not order solenoids, test what they share") {
    const auto answer = fault({{"gearbox", "ash-4"}, {"gears", "3 3 3 3"}, {"codes", "P0753+P0758+P0743"}});
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(answer.headline, Contains("Do not order solenoids: 3 circuits report at once (A, B, L)"));
    CHECK_THAT(answer.headline,
               Contains("feed fuse") && Contains("case connector") && Contains("internal harness or plate"));
    CHECK_THAT(line_text(answer, "so the gears"), Contains("cannot tell these apart"));
    CHECK_THAT(line_text(answer, "shared feed or connector"), Contains("likely"));
    CHECK(line_text(answer, "coil") == "unlikely");
    CHECK_THAT(line_text(answer, "have ready"), Contains("seal of the case connector: likely"));
    CHECK_THAT(line_text(answer, "do not order yet"), Contains("solenoids A, B, L"));
    // Fuse and feed under load, then the connector, then the coils.
    const auto fuse = place_of(answer.next, "fuse"), feed = place_of(answer.next, "Load the feed"),
               plug = place_of(answer.next, "Unplug it");
    CHECK(fuse < feed);
    CHECK(feed < plug);
    CHECK(plug < place_of(answer.next, "Coil of"));
    CHECK(line_text(answer, "look first").find("fuse") == 0);
}

TEST_CASE(
    "2-2-3-3 before fail-safe, stuck-off code of A, a coil that is right when corrected: A's valve, not all "
    "solenoids") {
    // 18.4 ohm at 75 degC is 15.1 ohm at 20 degC: IEC 60028, 0.00393 per K. A tool that fails it is wrong.
    const auto answer = fault({{"gearbox", "ash-4"},
                               {"gears", "2 2 3 3"},
                               {"phase", "before_fail_safe"},
                               {"codes", "P0751"},
                               {"coils", "A=18.4"},
                               {"coil-temp", "75"}});
    CHECK(line_text(answer, "single faults that give them") == "A held off");
    CHECK(rows_marked(answer) == std::vector<std::string>{"A held off"});
    CHECK_THAT(line_text(answer, "coil of A"),
               Contains("15.1 ohm at 20 °C: in limits, 11 to 16 ohm") && Contains("indicative"));
    CHECK_THAT(line_text(answer, "valve or debris"), Contains("likely: A held off"));
    CHECK(line_text(answer, "coil") == "unlikely");
    CHECK_THAT(line_text(answer, "have ready"), Contains("solenoid A with its O-rings: likely"));
    CHECK(line_text(answer, "do not order") == "solenoids B, L: nothing points at them");
    CHECK_THAT(line_text(answer, "look first"), Contains("fluid level"));
    CHECK_THAT(joined(answer.next), Contains("Swap test possible: A and B are the same part"));
    CHECK_THAT(line_text(answer, "A is serviced as"), Contains("single"));
    CHECK_THAT(joined(answer.cautions), Contains("good resistance never clears a circuit"));
}

TEST_CASE("what was told of the vehicle counts as what is given by hand") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"ash-4"});
    vehicle.tell("gears_obtained", "2-2-3-3")
        .tell("gears_phase", "before_fail_safe")
        .tell("codes", "P0751")
        .tell("coil_a", "18.4 ohm")
        .tell("coil_temp", "75 degC");
    const auto told = fault({}, &vehicle);
    const auto by_hand = fault({{"gearbox", "ash-4"},
                                {"gears", "2 2 3 3"},
                                {"phase", "before_fail_safe"},
                                {"codes", "P0751"},
                                {"coils", "A=18.4"},
                                {"coil-temp", "75"}});
    CHECK(told.headline == by_hand.headline);
    CHECK(line_text(told, "coil of A") == line_text(by_hand, "coil of A"));
    CHECK(joined(told.next) == joined(by_hand.next));
}

TEST_CASE("slip in exactly the gears of one clutch points to that clutch once its circuit is sound") {
    const auto answer = fault({{"gearbox", "birch-6"},
                               {"slips", "2 6"},
                               {"codes", "none"},
                               {"coils", "C=5.3"},
                               {"coil-temp", "20"},
                               {"fluid-level", "right"}});
    CHECK(line_text(answer, "single faults that give them") == "C cannot apply");
    CHECK(line_text(answer, "in exactly these gears and no other") == "C");
    CHECK_THAT(line_text(answer, "clutch or seal"), Contains("clutch C or its seal"));
    CHECK(line_text(answer, "have ready").empty());
    CHECK_THAT(answer.headline, Contains("exactly the gears of C") && Contains("the clutch, its seal or its valve"));
}

TEST_CASE("without codes, gears and readings nothing is concluded, and the first steps are named") {
    const auto answer = fault({{"gearbox", "ash-4"}});
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(answer.headline, Contains("Nothing is observed yet"));
    CHECK_THAT(line_text(answer, "do not order yet"), Contains("A, B, L"));
    CHECK_FALSE(answer.next.empty());
}

TEST_CASE("no gear pattern of the table is said to be none of it") {
    const auto answer = fault({{"gearbox", "ash-4"}, {"gears", "4 1 2 3"}, {"phase", "before_fail_safe"}});
    CHECK(line_text(answer, "single faults that give them") == "none of the apply table");
    CHECK_THAT(line_text(answer, "so the gears"), Contains("two faults at once"));
    CHECK(rows_marked(answer).empty());
}

TEST_CASE("gears noted in fail-safe separate nothing, and the better observation is asked for") {
    const auto answer = fault({{"gearbox", "ash-4"}, {"gears", "3 3 3 3"}, {"phase", "in_fail_safe"}});
    CHECK_THAT(line_text(answer, "single faults that give them"),
               Contains("A held off") && Contains("B held off") && Contains("feed lost"));
    CHECK_THAT(joined(answer.next), Contains("before the gears go") && !Contains("before or in fail-safe"));
    const auto untold = fault({{"gearbox", "ash-4"}, {"gears", "3 3 3 3"}});
    CHECK_THAT(joined(untold.next), Contains("before or in fail-safe"));
    const auto before = fault({{"gearbox", "ash-4"}, {"gears", "2 2 3 3"}, {"phase", "before_fail_safe"}});
    CHECK_THAT(joined(before.next), !Contains("before the gears go"));
}

TEST_CASE("a coil without temperature says nothing yet, one that is open or off says so") {
    CHECK_THAT(line_text(fault({{"gearbox", "ash-4"}, {"coils", "A=18.4"}}), "coil of A"),
               Contains("no temperature told"));
    const auto open = fault(
        {{"gearbox", "ash-4"}, {"codes", "P0753"}, {"coils", "A=open"}, {"coil-temp", "20"}, {"feed", "12.5"}});
    CHECK_THAT(line_text(open, "coil of A"), Contains("open"));
    CHECK_THAT(line_text(open, "coil"), Contains("likely: coil of A"));
    CHECK_THAT(line_text(open, "have ready"), !Contains("nothing"));
    const auto borderline = fault({{"gearbox", "ash-4"}, {"coils", "A=15.9"}, {"coil-temp", "20"}});
    CHECK_THAT(line_text(borderline, "coil of A"), Contains("borderline"));
}

TEST_CASE("a reading that differs between case connector and part points into the internal harness") {
    const auto answer = fault({{"gearbox", "ash-4"},
                               {"codes", "P0753"},
                               {"coils", "A=open"},
                               {"coils-at-part", "A=13.5"},
                               {"coil-temp", "20"},
                               {"feed", "12.5"}});
    CHECK_THAT(line_text(answer, "internal harness or plate"), Contains("internal wire or track of A"));
    CHECK_THAT(line_text(answer, "internal harness or plate"), !Contains("unlikely:"));
    CHECK(line_text(answer, "coil").find("likely") != 0);
}

TEST_CASE("a feed that falls under load makes what is shared likelier, one that holds less likely") {
    const Inputs codes{{"gearbox", "ash-4"}, {"codes", "P0753+P0758"}};
    auto falls = codes, holds = codes;
    falls.emplace_back("feed", "9");
    holds.emplace_back("feed", "12.5");
    CHECK_THAT(line_text(fault(falls), "shared feed or connector"), Contains("likely"));
    CHECK(line_text(fault(falls), "shared feed or connector").find("likely") == 0);
    CHECK(line_text(fault(holds), "shared feed or connector").find("likely") != 0);
    CHECK_THAT(line_text(fault(falls), "feed under load"), Contains("falls"));
}

TEST_CASE("the supply reported open counts as all circuits at once") {
    const auto answer = fault({{"gearbox", "ash-4"}, {"codes", "P0657"}});
    CHECK_THAT(answer.headline, Contains("Do not order solenoids") && Contains("supply"));
    CHECK(line_text(answer, "shared feed or connector").find("likely") == 0);
}

TEST_CASE("several circuits at once keep every solenoid off the order, even where the gears point at one") {
    const auto answer = fault(
        {{"gearbox", "ash-4"}, {"gears", "2 2 3 3"}, {"phase", "before_fail_safe"}, {"codes", "P0753+P0758"}});
    CHECK_THAT(line_text(answer, "have ready"), Contains("seal of the case connector"));
    CHECK_THAT(joined({line_text(answer, "do not order yet")}), Contains("A, B, L"));
    CHECK_THAT(all_text(answer), !Contains("have ready: solenoid"));
}

TEST_CASE("a maker's own code is read by its number from the family's rows, and never guessed without them") {
    const auto own = fault({{"gearbox", "ash-4"}, {"codes", "P1750"}});
    CHECK_THAT(line_text(own, "P1750"), Contains("B held off as the maker words it"));
    CHECK_THAT(own.headline, Contains("at B"));
    const auto other = asked("codes", {{"gearbox", "birch-4"}, {"codes", "P1750"}});
    CHECK_THAT(line_text(other, "P1750"), Contains("the maker's own"));
    CHECK(other.verdict == Verdict::not_recorded);
}

TEST_CASE("a family that is not settled is asked for, and codes alone still stop the order") {
    FakeVehicle vehicle;
    vehicle.may_be("gearbox", {"ash-4", "birch-4"});
    const auto open = fault({{"gears", "3 3 3 3"}}, &vehicle);
    CHECK(open.verdict == Verdict::check_first);
    CHECK_THAT(open.headline, Contains("which gearbox family") && Contains("ash-4, birch-4"));
    const auto codes = fault({{"codes", "P0753+P0758"}}, &vehicle);
    CHECK_THAT(codes.headline, Contains("Do not order solenoids: 2 circuits"));
    CHECK_THAT(joined(codes.next), Contains("Read the gearbox tag"));
    CHECK(fault({{"gearbox", "elm-5"}, {"gears", "1 2"}}).verdict == Verdict::not_recorded);
    CHECK(fault({}).verdict == Verdict::not_recorded);
}

TEST_CASE("a gearbox in no catalog is reasoned about from an apply table by hand") {
    const FakeFacts nothing;
    const auto answer = ask(instance(), "fault",
                            {{"apply", "1:A+B 2:B 3:- 4:A"},
                             {"gears", "4 3 3 4"},
                             {"coils", "B=2"},
                             {"coil-temp", "20"},
                             {"ohm-low", "11"},
                             {"ohm-high", "16"}},
                            nothing);
    CHECK(line_text(answer, "single faults that give them") == "B held off");
    CHECK(line_text(answer, "coil").find("likely: coil of B") == 0);
    CHECK_THAT(joined(answer.assumptions), Contains("no shared feed is recorded"));
    CHECK_THROWS_WITH(ask(instance(), "fault", {{"apply", "1 A+B"}}, nothing), Contains("1:A+B 2:B 3:- 4:A"));
}

TEST_CASE("every single fault of Ash-4 by its gears is named, and only that one") {
    // Derived from the table; 1-2-2-1 and 2-2-3-3 equal two rows of a maker's published failure chart.
    for (const auto& [gears, name] : std::vector<std::pair<std::string, std::string>>{{"2 2 3 3", "A held off"},
                                                                                      {"1 1 4 4", "A held on"},
                                                                                      {"4 3 3 4", "B held off"},
                                                                                      {"1 2 2 1", "B held on"}}) {
        const auto answer = fault({{"gearbox", "ash-4"}, {"gears", gears}, {"phase", "before_fail_safe"}});
        CHECK(line_text(answer, "single faults that give them") == name);
        CHECK(rows_marked(answer) == std::vector<std::string>{name});
    }
}

TEST_CASE("gears, codes and coils that cannot be read are refused with what is valid") {
    CHECK_THROWS_WITH(fault({{"gearbox", "ash-4"}, {"gears", "2 2 7 3"}}),
                      Contains("gears: got 7") && Contains("1, 2, 3, 4, slip, bind or ?"));
    CHECK_THROWS_WITH(fault({{"gearbox", "ash-4"}, {"gears", "1 2 3 4 1"}}), Contains("at most 4"));
    CHECK_THROWS_WITH(fault({{"gearbox", "ash-4"}, {"codes", "P07531"}}), Contains("codes: got P07531"));
    CHECK_THROWS_WITH(fault({{"gearbox", "ash-4"}, {"coils", "Z=3"}}), Contains("elements of the gearbox: A, B, L"));
    CHECK_THROWS_WITH(fault({{"gearbox", "ash-4"}, {"coils", "A"}}), Contains("A=18.4 B=open"));
    CHECK_THROWS_WITH(fault({{"gearbox", "ash-4"}, {"gears", "1 2"}, {"commanded", "1"}}),
                      Contains("one for each gear obtained"));
}

TEST_CASE("evidence read after clearing is marked as lost, not as absent") {
    CHECK_THAT(joined(fault({{"gearbox", "ash-4"}, {"codes", "none"}, {"codes-before-clearing", "no"}}).cautions),
               Contains("cleared before they were read"));
    CHECK_THAT(joined(fault({{"gearbox", "ash-4"}, {"codes", "P0753"}}).next), Contains("read before clearing"));
}

TEST_CASE("recorded things to look at first come before the common list") {
    auto facts = gearbox_facts();
    facts.table("solenoids_look_first",
                "what,how,minutes,cause\nloose earth behind the battery tray,Pull at it.,3,shared_feed\n");
    const auto answer = ask(instance(), "fault", {{"gearbox", "ash-4"}, {"codes", "P0753+P0758"}}, facts);
    CHECK_THAT(line_text(answer, "look first"), Contains("loose earth behind the battery tray, 3 min"));
}

TEST_CASE("a block with a calibration code is a question before the order") {
    const auto answer = fault({{"gearbox", "birch-6"},
                               {"codes", "P0753"},
                               {"coils", "A=open"},
                               {"coil-temp", "20"},
                               {"feed", "12.5"},
                               {"connector", "clean"}});
    CHECK_THAT(line_text(answer, "A is serviced as"), Contains("block_with_plate") && Contains("solenoid-block"));
    CHECK_THAT(joined(answer.next), Contains("read the calibration code"));
}

TEST_CASE("whatever is left out, the fault inquiry never gives a firm verdict") {
    const Inputs all{{"gears", "2 2 3 3"},       {"phase", "before_fail_safe"},
                     {"codes", "P0751"},         {"coils", "A=18.4"},
                     {"coil-temp", "75"},        {"fuse", "sound"},
                     {"connector", "clean"},     {"feed", "12.5"},
                     {"swap", "moves_with_part"}};
    for (unsigned subset = 0; subset < (1u << all.size()); subset += 7) {
        Inputs some{{"gearbox", "ash-4"}};
        for (std::size_t i = 0; i < all.size(); ++i)
            if (subset >> i & 1u) some.push_back(all[i]);
        const auto answer = fault(some);
        CHECK(answer.verdict == Verdict::check_first);
        CHECK_THAT(all_text(answer), !Contains("guaranteed") && !Contains("definitely") && !Contains("compatible"));
    }
}
