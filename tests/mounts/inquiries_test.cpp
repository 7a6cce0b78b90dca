// The inquiries of mounts, asked as on the command line.
#include <catch2/catch.hpp>

#include "core/ground/error.h"
#include "tests/mounts/fleet.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

TEST_CASE("a leaking left hydraulic mount, a solid one offered: the whole advice") {
    // Four cylinders, 700 rpm, model values from memory: .30 to .42, x2.7 to x10.
    const auto answer = shake({{"shake", "in_gear"},
                               {"leak", "left"},
                               {"cylinders", "4"},
                               {"idle", "700"},
                               {"offered", "hydraulic, solid"},
                               {"same-age", "yes"}});
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(answer.headline,
               Contains("Replace the left engine mount with a hydraulic one; look for a hose or plug before ordering"));
    CHECK(line_text(answer, "firing frequency at idle") == "23.3 Hz");
    CHECK(line_text(answer, "passed on at idle, hydraulic to solid") == "0.30 to 0.42, 40 % more");
    CHECK(line_text(answer, "bounce, hydraulic to solid") == "x2.7 to x10.0");
    CHECK_THAT(line_text(answer, "offered: solid"), Contains("bolts up, but differs"));
    CHECK_THAT(line_text(answer, "offered: hydraulic"), Contains("cannot tell yet"));
    CHECK_THAT(line_text(answer, "right mount"), Contains("consider"));
    CHECK_THAT(line_text(answer, "transmission mount"), Contains("inspect"));
    CHECK_THAT(answer.next.front(), Contains("hose or a plug"));
    CHECK_THAT(joined(answer.next), Contains("idle speed") && Contains("misfire"));
    CHECK_THAT(joined(answer.cautions), Contains("do not assume the oil pan"));
}

TEST_CASE("with hose and plug looked for, and idle, misfire and exhaust right, the hydraulic mount is a firm answer") {
    const auto answer = shake({{"leak", "left"},
                               {"hose", "no"},
                               {"plug", "no"},
                               {"misfire", "no"},
                               {"exhaust", "no"},
                               {"idle-speed", "700"},
                               {"idle", "700"},
                               {"offered", "hydraulic"}});
    CHECK(answer.verdict == Verdict::fits);
    CHECK_THAT(line_text(answer, "offered: hydraulic"), Contains("same kind"));
}

TEST_CASE("a misfire that is told comes before any mount") {
    CHECK_THAT(shake({{"shake", "always"}, {"misfire", "yes"}}).headline, Contains("correct what imitates it first"));
    const auto both = shake({{"leak", "left"}, {"misfire", "yes"}, {"hose", "no"}, {"plug", "no"}});
    CHECK(both.verdict == Verdict::check_first);
    CHECK_THAT(both.headline, Contains("correct what imitates it first"));
}

TEST_CASE("an exhaust that touches the body comes before any mount") {
    CHECK_THAT(shake({{"shake", "always"}, {"exhaust", "yes"}}).headline, Contains("correct what imitates it first"));
    const auto unseen = shake(
        {{"leak", "left"}, {"hose", "no"}, {"plug", "no"}, {"misfire", "no"}, {"idle-speed", "700"}, {"idle", "700"}});
    CHECK(unseen.verdict == Verdict::check_first);
    CHECK_THAT(joined(unseen.next), Contains("an exhaust that touches the body"));
}

TEST_CASE("a hose found at the leaking mount makes it a switched one, and a plain one only bolts up") {
    const auto answer = shake({{"leak", "left"}, {"hose", "yes"}, {"offered", "hydraulic, solid, switched_vacuum"}});
    CHECK_THAT(line_text(answer, "offered: hydraulic"), Contains("bolts up, but differs"));
    CHECK_THAT(line_text(answer, "offered: solid"), Contains("bolts up, but differs"));
    CHECK_THAT(line_text(answer, "offered: switched_vacuum"), Contains("cannot tell yet"));
    CHECK(answer.verdict == Verdict::check_first);
}

TEST_CASE("findings told of the vehicle feed the inquiry like inputs given by hand") {
    FakeVehicle vehicle;
    vehicle.tell("mount_leak", "left").tell("idle_speed", "640 rpm").tell("misfire", "no");
    const auto answer = shake({}, &vehicle);
    CHECK_THAT(line_text(answer, "idle speed"), Contains("640 rpm") && Contains("700 rpm") && Contains("low"));
    CHECK_THAT(line_text(answer, "fluid at a mount"), Contains("left"));
}

TEST_CASE("natural frequency from deflection, and whether it isolates at idle") {
    // 25 mm and 25 Hz at damping 0.05: 3.15 Hz, passed on 0.0206 without the stiffening of rubber; System Dynamics, 4th ed., ISBN 0-13-142462-9, eq. 9-14.
    const auto answer = ask(instance(), "natural-frequency",
                            {{"deflection", "25 mm"}, {"dynamic-ratio", "1"}, {"cylinders", "4"}, {"idle", "750"}},
                            fleet());
    CHECK(line_text(answer, "natural frequency, from deflection") == "3.2 Hz");
    CHECK(line_text(answer, "firing frequency") == "25.0 Hz");
    CHECK(line_text(answer, "passed on at idle, most") == "0.02");
    CHECK(answer.verdict == Verdict::fits);
    CHECK(answer.series.front().marks.front().first == Approx(25.0));
}

TEST_CASE("load and stiffness give the frequency, and an open idle keeps the verdict open") {
    // 220 kg at 869 N/mm: 10 Hz (k = m (2 pi f)^2).
    const auto answer = ask(instance(), "natural-frequency", {{"carried", "220"}, {"stiffness", "869"}}, fleet());
    CHECK(line_text(answer, "natural frequency, from load and stiffness") == "10.0 Hz");
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(joined(answer.next), Contains("cylinders and idle"));
}

TEST_CASE("a firing frequency inside the assumed band is not called isolated") {
    const auto straddle = ask(instance(), "natural-frequency",
                              {{"deflection", "1"}, {"cylinders", "4"}, {"idle", "750"}}, fleet());
    CHECK(straddle.verdict == Verdict::check_first);
    const auto below = ask(instance(), "natural-frequency",
                           {{"deflection", "0.5"}, {"cylinders", "4"}, {"idle", "750"}}, fleet());
    CHECK(below.verdict == Verdict::does_not_fit);
    CHECK(line_text(below, "passed on at idle, most") ==
          "10.05");  // resonance lies in the band: sqrt(1 + 4 z^2) / 2 z at z 0.05
}

TEST_CASE("too little for a natural frequency says what is needed") {
    CHECK_THROWS_WITH(ask(instance(), "natural-frequency", {{"carried", "220"}}, fleet()),
                      Contains("deflection, or carried and stiffness together"));
}

TEST_CASE("solid against hydraulic shows numbers, the range of assumptions and the firing mark") {
    const auto answer = ask(instance(), "solid-for-hydraulic", {{"cylinders", "4"}, {"idle", "700"}}, fleet());
    CHECK(answer.verdict == Verdict::check_first);
    CHECK(line_text(answer, "hydraulic passes on at idle") == "0.30");
    CHECK(line_text(answer, "solid passes on at idle") == "0.42");
    CHECK(line_text(answer, "solid more than hydraulic at idle") == "40 %");
    CHECK_THAT(line_text(answer, "assumptions in which hydraulic passes on less at idle"), Contains(" of 625"));
    CHECK(answer.series.front().curves.size() == 2);
    CHECK(answer.series.front().marks.front().first == Approx(23.333).margin(0.001));
    CHECK_THAT(joined(answer.assumptions), Contains("from memory") && Contains("compares mounts"));
}

TEST_CASE("recorded values of a group beat assumed ones, and values given by hand beat both") {
    const auto recorded = ask(instance(), "solid-for-hydraulic",
                              {{"cylinders", "4"}, {"idle", "700"}, {"hydraulic-mount", "BARE-L"}}, fleet());
    CHECK(line_text(recorded, "hydraulic-hz") == "9.00");
    const auto by_hand = ask(
        instance(), "solid-for-hydraulic",
        {{"cylinders", "4"}, {"idle", "700"}, {"hydraulic-mount", "BARE-L"}, {"hydraulic-hz", "12"}}, fleet());
    CHECK(line_text(by_hand, "hydraulic-hz").empty());
}

TEST_CASE("cylinders and idle come from the row of the vehicle's line, with the row as source") {
    FakeVehicle vehicle;
    const auto answer = ask(instance(), "solid-for-hydraulic", {}, fleet(), &vehicle);
    CHECK(line_text(answer, "firing frequency") == "23.3 Hz");
    CHECK_THAT(all_text(answer), Contains("test-pack, mounts_loads.csv:2"));
}

TEST_CASE("engine heights: 6 mm look closer, 12 mm suspect, and never condemned") {
    const auto closer = ask(instance(), "sag", {{"left", "294"}, {"right", "300"}}, fleet());
    CHECK(closer.verdict == Verdict::check_first);
    CHECK_THAT(closer.headline, Contains("left side hangs 6.0 mm lower") && Contains("look closer"));
    CHECK_THAT(ask(instance(), "sag", {{"left", "300"}, {"right", "288"}}, fleet()).headline,
               Contains("right mount is suspect"));
    CHECK(ask(instance(), "sag", {{"left", "300"}, {"right", "299"}}, fleet()).verdict == Verdict::fits);
    const auto figure = ask(instance(), "sag", {{"left", "300"}, {"right", "299"}, {"figure", "315"}}, fleet());
    CHECK(figure.verdict == Verdict::check_first);
    CHECK_THAT(figure.headline, Contains("not against the maker's figure"));
    CHECK_THROWS_WITH(ask(instance(), "sag", {{"left", "300"}}, fleet()), Contains("left and right together"));
}

TEST_CASE("the shared labour decides from which chance on the second mount pays now") {
    // (90 + 0.5 h x 30) / (90 + 2 h x 30) = 105 / 150 = 70 %.
    const auto answer = ask(instance(), "pair",
                            {{"broken", "left"},
                             {"price", "90"},
                             {"hours-now", "0.5"},
                             {"hours-later", "2"},
                             {"hour-rate", "30"},
                             {"chance", "80"}},
                            fleet());
    CHECK(line_text(answer, "pays now from a chance of") == "70 %");
    CHECK(line_text(answer, "the other mount now, labour shared") == "105.00");
    CHECK(line_text(answer, "the other mount later, opened again") == "150.00");
    CHECK_THAT(line_text(answer, "right mount"), Contains("consider") && Contains("labour is shared"));
    const auto seldom = ask(instance(), "pair",
                            {{"broken", "left"},
                             {"price", "90"},
                             {"hours-now", "0.5"},
                             {"hours-later", "2"},
                             {"hour-rate", "30"},
                             {"chance", "60"}},
                            fleet());
    CHECK_THAT(line_text(seldom, "right mount"), Contains("inspect"));
}

TEST_CASE("a pair rule on record wins and shows its row, from either side") {
    FakeVehicle vehicle;
    const auto answer = ask(instance(), "pair", {{"broken", "right"}}, fleet(), &vehicle);
    CHECK_THAT(line_text(answer, "left mount"), Contains("consider") && Contains("maker recommends both"));
    CHECK_THAT(line_text(answer, "on record for right and left"), Contains("recommended: change both"));
}

TEST_CASE("the lift is met with the smallest clearance, and one that is not measured keeps it open") {
    // Stud engagement plus 5 to 10 mm: common practice, no source.
    const auto open = ask(instance(), "lift",
                          {{"stud-engagement", "20"}, {"room", "fan to shroud=40, upper hose=35 mm"}}, fleet());
    CHECK(open.verdict == Verdict::check_first);
    CHECK_THAT(joined(open.next), Contains("exhaust joints"));
    FakeVehicle vehicle;
    const auto roomy = ask(instance(), "lift", {{"stud-engagement", "20"}, {"room", "fan to shroud=40, upper hose=35"}},
                           fleet(), &vehicle);
    CHECK(roomy.verdict == Verdict::fits);
    CHECK(line_text(roomy, "lift needed, least") == "25.0 mm");
    CHECK(line_text(roomy, "lift needed, comfortable") == "30.0 mm");
    const auto tight = ask(instance(), "lift", {{"stud-engagement", "20"}, {"room", "fan to shroud=27"}}, fleet(),
                           &vehicle);
    CHECK(tight.verdict == Verdict::check_first);
    const auto small = ask(instance(), "lift", {{"stud-engagement", "20"}, {"room", "fan to shroud=12"}}, fleet(),
                           &vehicle);
    CHECK(small.verdict == Verdict::does_not_fit);
    CHECK_THAT(small.headline, Contains("release fan to shroud"));
    CHECK(small.grids.front().marked_rows == std::vector<std::size_t>{0});
}

TEST_CASE("a recorded clearance is a hint to measure, never a measurement") {
    FakeVehicle vehicle;
    const auto answer = ask(instance(), "lift", {{"stud-engagement", "5"}}, fleet(), &vehicle);
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(line_text(answer, "in the way: fan to shroud"),
               Contains("20 mm usual; measure it") && Contains("upper shroud"));
}

TEST_CASE("a clearance that cannot be read is refused with an example") {
    CHECK_THROWS_WITH(ask(instance(), "lift", {{"stud-engagement", "20"}, {"room", "fan 40"}}, fleet()),
                      Contains("fan to shroud=18"));
    CHECK_THROWS_WITH(ask(instance(), "lift", {{"stud-engagement", "20"}, {"room", "fan=40 cm"}}, fleet()),
                      Contains("valid range"));
}

TEST_CASE("conflicting lifting instructions stand side by side and nothing is concluded") {
    FakeVehicle vehicle;
    const auto answer = ask(instance(), "lifting-point", {}, fleet(), &vehicle);
    CHECK(answer.verdict == Verdict::sources_disagree);
    CHECK(line_text(answer, "oil pan") == "cannot tell: find the maker's");
    CHECK_THAT(all_text(answer), Contains("no jack under the pan") && Contains("wood block under the pan"));
    CHECK_THAT(all_text(answer), !Contains("not ours"));
    CHECK(ask(instance(), "lifting-point", {{"point", "lifting eye"}}, fleet(), &vehicle).verdict == Verdict::fits);
    const auto silent = ask(instance(), "lifting-point", {{"point", "crank pulley"}}, fleet(), &vehicle);
    CHECK(silent.verdict == Verdict::not_recorded);
    CHECK_THAT(silent.headline, Contains("do not assume"));
}

TEST_CASE("lifting instructions found by hand work without any catalog") {
    const FakeFacts nothing;
    CHECK(ask(instance(), "lifting-point", {{"point", "oil pan"}, {"says", "oil pan=forbidden"}}, nothing).verdict ==
          Verdict::does_not_fit);
    CHECK(ask(instance(), "lifting-point", {{"says", "oil pan=forbidden, oil pan=allowed"}}, nothing).verdict ==
          Verdict::sources_disagree);
    CHECK(ask(instance(), "lifting-point", {}, nothing).verdict == Verdict::not_recorded);
    CHECK_THROWS_WITH(ask(instance(), "lifting-point", {{"says", "oil pan=maybe"}}, nothing),
                      Contains("allowed or forbidden"));
}

TEST_CASE("an instruction that holds on some configurations is no firm permission") {
    FakeFacts facts;
    facts.table("mounts_lifting", "line,condition,point,says,words\ntest-line,drive=2wd,lifting eye,allowed,use it\n");
    FakeVehicle vehicle;
    vehicle.may_be("drive", {"2wd", "4wd"});
    CHECK(ask(instance(), "lifting-point", {}, facts, &vehicle).verdict == Verdict::check_first);
    FakeVehicle told;
    told.may_be("drive", {"2wd"});
    CHECK(ask(instance(), "lifting-point", {}, facts, &told).verdict == Verdict::fits);
    FakeVehicle other;
    other.may_be("drive", {"4wd"});
    CHECK(ask(instance(), "lifting-point", {}, facts, &other).verdict == Verdict::not_recorded);
}

TEST_CASE("stages keep their order, are converted and never added up") {
    const auto answer = ask(instance(), "tightening", {{"stages", "27 N m + 60 deg + 30 deg"}}, fleet());
    CHECK_THAT(answer.headline, Contains("27 N·m + 60° + 30°"));
    CHECK(line_text(answer, "stage 2") == "60 deg");
    CHECK_THAT(joined(answer.cautions), Contains("new bolts") && Contains("not added up"));
    const auto inch = ask(instance(), "tightening", {{"stages", "65 lbf in"}}, fleet());
    CHECK(line_text(inch, "stage 1") == "7.3 N m");  // 65 x 0.1129848 exact
    CHECK_THAT(joined(inch.cautions), Contains("differ by 12"));
    CHECK_THROWS_WITH(ask(instance(), "tightening", {{"stages", "65"}}, fleet()),
                      Contains("each number with its unit"));
    CHECK(ask(instance(), "tightening", {}, FakeFacts{}).verdict == Verdict::not_recorded);
}

TEST_CASE("a replacement given by hand: left is not right, solid for hydraulic only bolts up") {
    const auto run = [](const std::vector<std::pair<std::string, std::string>>& inputs) {
        return ask(instance(), "replacement", inputs, fleet());
    };
    CHECK(run({{"wanted", "HYD-L"}, {"offered", "HYD-R"}}).verdict == Verdict::does_not_fit);
    const auto solid = run({{"wanted", "HYD-L"}, {"offered", "SOLID-L"}});
    CHECK(solid.verdict == Verdict::check_first);
    CHECK_THAT(solid.headline, Contains("differs in function"));
    const auto switched = run({{"wanted", "VAC-L"}, {"offered", "HYD-L"}});
    CHECK(switched.verdict == Verdict::check_first);
    CHECK_THAT(joined(switched.cautions), Contains("job record"));
    const auto unseen = run({{"wanted-position", "left"},
                             {"wanted-kind", "hydraulic"},
                             {"offered-position", "left"},
                             {"offered-kind", "hydraulic"}});
    CHECK(unseen.verdict == Verdict::check_first);
    CHECK_THAT(joined(unseen.next), Contains("hose or plug"));
    CHECK(run({}).verdict == Verdict::check_first);
    CHECK_THROWS_WITH(run({{"wanted", "NOBODY"}, {"offered", "HYD-L"}}),
                      Contains("nothing is recorded of NOBODY") && Contains("by hand"));
}

TEST_CASE("no inquiry about mounts promises more than it knows") {
    FakeVehicle vehicle;
    for (const auto& inquiry : instance().inquiries()) {
        std::vector<std::pair<std::string, std::string>> inputs;
        for (const auto& input : inquiry.inputs)
            if (input.required)
                inputs.emplace_back(input.name, input.kind == Input::Kind::choice ? input.choices.front() : "20");
        std::string text;
        try {
            text = all_text(ask(instance(), inquiry.name, inputs, fleet(), &vehicle));
        } catch (const Error& refusal) {
            text = refusal.what();
            CHECK_THAT(text, Contains("valid range"));
        }
        for (const char* word : {"guaranteed", "universal", "compatible", "definitely"})
            CHECK_THAT(text, !Contains(word));
    }
}

TEST_CASE("fluid at a mount and the kinds a line was built with leave one kind") {
    FakeVehicle vehicle;
    vehicle.may_be("mount_kind", {"solid", "hydraulic"})
        .tell("mount_leak", "left")
        .tell("misfire", "no")
        .tell("exhaust_touches", "no")
        .tell("idle_speed", "700 rpm");
    const auto answer = shake({{"offered", "hydraulic, solid"}}, &vehicle);
    CHECK(line_text(answer, "kind on the vehicle") == "hydraulic");
    CHECK_THAT(line_text(answer, "offered: hydraulic"), Contains("same kind"));
    CHECK(answer.verdict == Verdict::fits);
    FakeVehicle open;
    open.may_be("mount_kind", {"hydraulic", "switched_vacuum"}).tell("mount_leak", "left");
    CHECK_THAT(line_text(shake({}, &open), "kind on the vehicle"), Contains("switched or not is not known"));
}

TEST_CASE("a pair that is required on some configurations only is found out first, and on those it is firm") {
    FakeFacts facts;
    facts.table("mounts_pairs",
                "line,condition,position,with_position,rule,words\ntest-line,mount_kind=hydraulic,left,right,required,"
                "as a pair\ntest-line,mount_kind=hydraulic,right,left,required,as a pair\n");
    FakeVehicle open;
    open.may_be("mount_kind", {"solid", "hydraulic"});
    const auto unsettled = ask(instance(), "pair", {{"broken", "left"}}, facts, &open);
    CHECK(unsettled.verdict == Verdict::check_first);
    CHECK_THAT(line_text(unsettled, "right mount"), Contains("consider"));
    CHECK_THAT(joined(unsettled.next), Contains("Find out whether the pair is required: mount_kind=hydraulic"));
    FakeVehicle told;
    told.may_be("mount_kind", {"hydraulic"});
    const auto firm = ask(instance(), "pair", {{"broken", "left"}}, facts, &told);
    CHECK(firm.verdict == Verdict::fits);
    CHECK_THAT(firm.headline, Contains("left and the right mount together"));
    CHECK_THAT(all_text(firm), Contains("mounts_pairs.csv:2"));
}

TEST_CASE("what was only assumed of a shake is never reported as measured") {
    FakeVehicle vehicle;
    vehicle.tell("mount_leak", "left", TellEvidence::assumed)
        .tell("mount_rubber", "split", TellEvidence::assumed)
        .tell("mount_kind", "hydraulic", TellEvidence::assumed)
        .tell("idle_shake", "in_gear", TellEvidence::seller_said);
    const auto answer = ask(instance(), "shake", {{"offered", "hydraulic, solid"}}, FakeFacts{}, &vehicle);
    REQUIRE(answer.lines.size() > 5);
    for (const auto& line : answer.lines) {
        INFO(line.label);
        CHECK(line.source.evidence == Evidence::memory);
    }
}

TEST_CASE("a mount compared with what was only assumed of the vehicle rests on memory") {
    FakeVehicle vehicle;
    vehicle.tell("mount_kind", "hydraulic", TellEvidence::assumed);
    const auto answer = ask(instance(), "replacement",
                            {{"wanted-position", "left"}, {"offered-position", "left"}, {"offered-kind", "solid"}},
                            FakeFacts{}, &vehicle);
    CHECK_THAT(line_text(answer, "wanted"), Contains("hydraulic"));
    CHECK(answer.lines.front().source.evidence == Evidence::memory);
}

TEST_CASE("how soft the mounts must be is the natural frequency the other way round") {
    // 80 % kept out: ratio sqrt(1 + 1/0.2) = 2.449; 23.33 Hz / 2.449 = 9.53 Hz; System Dynamics, 4th ed., ISBN 0-13-142462-9,
    // eq. 9-14 without damping.
    const auto answer = ask(
        instance(), "isolation",
        {{"isolation", "80"}, {"cylinders", "4"}, {"idle", "700"}, {"dynamic-ratio", "1"}, {"carried", "220"}},
        FakeFacts{});
    CHECK_FALSE(answer.verdict.has_value());
    CHECK(line_text(answer, "frequency ratio at least") == "2.45");
    CHECK(line_text(answer, "natural frequency in motion, at most") == "9.5 Hz");
    CHECK(line_text(answer, "static deflection, at least") == "2.7 mm");                           // (15.76 / 9.53)^2
    CHECK(line_text(answer, "static stiffness of those mounts together, at most") == "788 N/mm");  // m (2 pi f)^2
    const auto open = ask(instance(), "isolation", {{"isolation", "80"}, {"cylinders", "4"}}, FakeFacts{});
    CHECK(open.verdict == Verdict::check_first);
}

TEST_CASE("the maker's height is looked up for the mount that is named, and for no other") {
    const FakeVehicle vehicle;
    const auto named = ask(instance(), "sag", {{"left", "288"}, {"right", "288"}, {"position", "left"}}, fleet(),
                           &vehicle);
    CHECK(line_text(named, "left below the maker's figure") == "12.0 mm");
    CHECK(named.verdict == Verdict::check_first);
    const auto other = ask(instance(), "sag", {{"left", "288"}, {"right", "288"}, {"position", "right"}}, fleet(),
                           &vehicle);
    CHECK(other.verdict == Verdict::fits);
}
