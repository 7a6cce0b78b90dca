// Over every inquiry of mounts: what is left out never makes an answer firm. The vehicles and numbers are invented.
#include <catch2/catch.hpp>

#include "tests/firmness.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;

TEST_CASE("in every inquiry on mounts, leaving an input out never makes a firm answer that it would decide") {
    FakeFacts facts;
    facts.table("mounts_pairs",
                "line,condition,position,with_position,rule,words\ntest-line,,left,right,required,both\n");
    const FakeVehicle vehicle;
    FirmnessOf test{instance(), facts, &vehicle};
    test.own_question = {{"replacement wanted-connection", "a mount switched by a plug has one by its kind"},
                         {"replacement offered-connection", "a mount switched by a plug has one by its kind"},
                         {"shake kind", "fluid at a mount with neither hose nor plug: it is a plain hydraulic one"},
                         {"natural-frequency dynamic-ratio", "1.2 to 2 is shown as assumed, from memory"},
                         {"sag figure", "that both have not sagged alike is shown as assumed"}};
    test.run(
        {{"replacement",
          {{"wanted-position", "left"},
           {"wanted-kind", "hydraulic"},
           {"wanted-connection", "none"},
           {"wanted-bracket", "separate"},
           {"wanted-stud", "12"},
           {"wanted-stud-length", "40"},
           {"wanted-pin", "no"},
           {"offered-position", "left"},
           {"offered-kind", "hydraulic"},
           {"offered-connection", "none"},
           {"offered-bracket", "separate"},
           {"offered-stud", "12"},
           {"offered-stud-length", "40"},
           {"offered-pin", "no"}}},
         {"replacement",
          {{"wanted-position", "left"},
           {"wanted-kind", "switched_electric"},
           {"wanted-connection", "plug"},
           {"wanted-pins", "2"},
           {"wanted-bracket", "separate"},
           {"wanted-stud", "12"},
           {"wanted-stud-length", "40"},
           {"wanted-pin", "no"},
           {"offered-position", "left"},
           {"offered-kind", "switched_electric"},
           {"offered-connection", "plug"},
           {"offered-pins", "2"},
           {"offered-bracket", "separate"},
           {"offered-stud", "12"},
           {"offered-stud-length", "40"},
           {"offered-pin", "no"}}},
         {"replacement",
          {{"wanted-position", "left"},
           {"wanted-kind", "switched_vacuum"},
           {"wanted-connection", "hose"},
           {"wanted-hose", "5"},
           {"offered-position", "right"},
           {"offered-kind", "solid"}}},
         {"pair",
          {{"broken", "left"},
           {"same-age", "yes"},
           {"chance", "30"},
           {"price", "45"},
           {"hours-now", "0.2"},
           {"hours-later", "2"},
           {"hour-rate", "30"},
           {"consumables-later", "5"},
           {"comeback", "0"}}},
         {"shake",
          {{"shake", "in_gear"},
           {"clunk", "yes"},
           {"leak", "left"},
           {"rubber", "sound"},
           {"idle-speed", "700"},
           {"misfire", "no"},
           {"exhaust", "no"},
           {"cylinders", "4"},
           {"idle", "700"},
           {"kind", "hydraulic"},
           {"hose", "no"},
           {"plug", "no"},
           {"same-age", "yes"},
           {"offered", "hydraulic"}}},
         {"natural-frequency",
          {{"deflection", "2.5"}, {"dynamic-ratio", "1.4"}, {"damping", "0.05"}, {"cylinders", "4"}, {"idle", "700"}}},
         {"natural-frequency",
          {{"carried", "220"},
           {"stiffness", "869"},
           {"dynamic-ratio", "1.4"},
           {"damping", "0.05"},
           {"cylinders", "4"},
           {"idle", "700"}}},
         {"isolation",
          {{"isolation", "80"}, {"cylinders", "4"}, {"idle", "700"}, {"dynamic-ratio", "1.4"}, {"carried", "220"}}},
         {"solid-for-hydraulic", {{"cylinders", "4"}, {"idle", "700"}, {"hydraulic-hz", "10"}}},
         {"lift", {{"stud-engagement", "20"}, {"room", "fan to shroud=40"}}},
         {"lifting-point", {{"point", "lifting eye"}, {"says", "lifting eye=allowed"}}},
         {"sag", {{"left", "100"}, {"right", "99"}, {"figure", "100"}, {"look", "5"}, {"suspect", "10"}}},
         {"tightening", {{"stages", "27 N m + 60 deg"}}}});
    CHECK(test.faults == std::vector<std::string>{});
    CHECK(test.too_wide == std::set<std::string>{});
    CHECK(test.not_asked() == std::set<std::string>{});
    CHECK(test.never_firm() ==
          std::set<std::string>{"isolation", "lift", "solid-for-hydraulic",
                                "tightening"});  // figures; one clearance is not all; a comparison; figures
    CHECK(test.hinged.size() == test.own_question.size());
}
