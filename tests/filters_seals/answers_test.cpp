// Gland, press fit, rubber, gasket, debris and bolt as asked on the command line. Check values beside their source.
#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/filters_seals/parts.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Contains;

// ---------------------------------------------------------------- inquiries: gland, press fit, rubber

TEST_CASE("the worked piston gland: ring 214 in a 32 mm bore on 26 mm, squeeze 13.6 % of the stretched section") {
    const auto answer = asked("oring-gland",
                              {{"number", "214"}, {"inner", "26"}, {"outer", "32"}, {"width", "4.8"}, {"off_by", "0"}});
    CHECK_THAT(line_text(answer, "squeeze"), Contains("13.6"));
    CHECK_THAT(line_text(answer, "stretch"), Contains("stretch 4 % (3 to 5.1)"));
    REQUIRE(answer.grids.size() == 1);
    CHECK(answer.grids[0].rows.size() == 4);  // every published range for a static radial ring, agreeing or not
    REQUIRE(answer.series.size() == 1);
    CHECK(answer.series[0].curves.size() == 3);
    CHECK_THAT(joined(answer.assumptions), Contains("torus volume kept"));
}

TEST_CASE("a ring that does not touch is a no, one not fully measured is never firm") {
    const auto leak = asked("oring-gland",
                            {{"id", "24.5"}, {"section", "3.53"}, {"inner", "25"}, {"outer", "32.2"}});  // gland 3.6 mm
    CHECK(leak.verdict == Verdict::does_not_fit);
    CHECK_THAT(leak.headline, Contains("leaks air"));
    for (const auto* missing : {"id", "section", "inner", "outer"}) {
        std::vector<std::pair<std::string, std::string>> inputs{
            {"id", "24.5"}, {"section", "3.53"}, {"inner", "25"}, {"outer", "30"}, {"width", "4.8"}};
        std::erase_if(inputs, [&](const auto& input) { return input.first == missing; });
        INFO(missing);
        CHECK_FALSE(firm(asked("oring-gland", inputs)));
    }
    CHECK_THAT(refusal_of("oring-gland", {{"number", "999"}}), Contains("number: got 999"));
}

TEST_CASE("a face groove 1.5 mm deep squeezes a 2 mm ring by 25 %, which both published face ranges accept") {
    const auto answer = asked("oring-gland",
                              {{"section", "2"}, {"groove_depth", "1.5"}, {"use", "static_face"}, {"off_by", "0"}});
    CHECK(answer.verdict == Verdict::fits);
    CHECK(line_text(answer, "squeeze") == "25.0 %");
}

TEST_CASE("a 50 mm bore wants a rubber covered seal of 50.15 to 50.3 mm (ISO 6194-1)") {
    const auto answer = asked("press-fit", {{"bore", "50"}, {"width", "8"}, {"shaft", "35"}});
    CHECK(line_text(answer, "seal outside wanted") == "50.15 to 50.3 mm");
    CHECK(line_text(answer, "bore depth to the shoulder, at least") == "8.30 mm");
    CHECK(answer.verdict == Verdict::check_first);
    CHECK(asked("press-fit", {{"bore", "50"}, {"seal_od", "50.22"}}).verdict == Verdict::fits);
    CHECK(asked("press-fit", {{"bore", "50"}, {"seal_od", "49.9"}}).verdict == Verdict::does_not_fit);
    CHECK(asked("press-fit", {{"bore", "50"}, {"seal_od", "50.3"}}).verdict ==
          Verdict::check_first);  // at the edge, each off by 0.02
    // The bore itself may be 0.039 mm over its nominal (ISO 286-2, H8): 0.13 mm measured over it is still inside.
    CHECK(asked("press-fit", {{"bore", "50"}, {"seal_od", "50.13"}, {"off_by", "0.005"}}).verdict == Verdict::fits);
    CHECK(asked("press-fit", {}).verdict == Verdict::check_first);
}

TEST_CASE("a hat seal loose in its bore is a no; tight ones stay open, for how tight is known from memory only") {
    const auto facts = parts();
    CHECK(asked("hat-seal", {{"seal", "seal-hat-loose"}, {"bore", "30"}}, facts).verdict == Verdict::does_not_fit);
    CHECK(asked("hat-seal", {{"seal", "seal-hat"}, {"bore", "30"}, {"neck", "22"}}, facts).verdict ==
          Verdict::check_first);
    CHECK(asked("hat-seal", {}).verdict == Verdict::check_first);
}

TEST_CASE("nitrile in gearbox fluid from -20 to 110 degC is published; EPDM never; HNBR and an unknown code ask") {
    const auto nbr = asked("rubber-and-fluid", {{"rubber", "NBR"}, {"coldest", "-20"}, {"hottest", "110"}});
    CHECK(nbr.verdict == Verdict::fits);
    CHECK_THAT(line_text(nbr, "ranking"), Contains("heat test 100 to 125 degC"));
    const auto epdm = asked("rubber-and-fluid", {{"rubber", "EPDM"}});
    CHECK(epdm.verdict == Verdict::does_not_fit);
    CHECK_THAT(epdm.headline, Contains("never"));
    CHECK_THAT(all_text(epdm), Contains("49 CFR 571.116, S4"));
    CHECK(asked("rubber-and-fluid", {{"rubber", "HNBR"}, {"coldest", "0"}, {"hottest", "90"}}).verdict ==
          Verdict::check_first);
    CHECK(asked("rubber-and-fluid", {{"coldest", "0"}, {"hottest", "90"}}).verdict == Verdict::check_first);
    CHECK(asked("rubber-and-fluid", {{"rubber", "NBR"}, {"coldest", "-20"}}).verdict ==
          Verdict::check_first);  // hot end not said
    CHECK_THAT(refusal_of("rubber-and-fluid", {{"rubber", "NBR"}, {"coldest", "50"}, {"hottest", "20"}}),
               Contains("hottest service temperature: got 20 degC: valid range is 50 to 350 degC"));
}

TEST_CASE("a pack's cell outranks memory, and contradicts what is published only as a question") {
    PartFacts maker, against, memory;
    const char* header = "elastomer,fluid,rating,status\n";
    maker.table("filters_seals_elastomers", std::string(header) + "HNBR,mineral_oil_atf,good,seen\n", Evidence::maker);
    against.table("filters_seals_elastomers", std::string(header) + "NBR,mineral_oil_atf,not_suitable,seen\n",
                  Evidence::maker);
    memory.table("filters_seals_elastomers", std::string(header) + "NBR,mineral_oil_atf,not_suitable,from_memory\n",
                 Evidence::memory);
    CHECK_THAT(line_text(asked("rubber-and-fluid", {{"rubber", "HNBR"}}, maker), "fluid"),
               Contains("HNBR in mineral oil or gearbox fluid: good") && !Contains("ask"));
    const std::vector<std::pair<std::string, std::string>> nbr{{"rubber", "NBR"}, {"coldest", "0"}, {"hottest", "90"}};
    CHECK(asked("rubber-and-fluid", nbr, against).verdict == Verdict::check_first);
    CHECK_THAT(line_text(asked("rubber-and-fluid", nbr, against), "fluid"), Contains("sources disagree"));
    CHECK(asked("rubber-and-fluid", nbr, memory).verdict == Verdict::fits);
    PartFacts said;  // a firm source, but the cell itself says from memory
    said.table("filters_seals_elastomers", std::string(header) + "NBR,mineral_oil_atf,not_suitable,from_memory\n",
               Evidence::maker);
    CHECK(asked("rubber-and-fluid", nbr, said).verdict == Verdict::fits);
}

TEST_CASE("an old seal swollen by more than 25 % has failed, whatever its rubber") {
    const auto answer = asked("rubber-and-fluid",
                              {{"rubber", "NBR"}, {"coldest", "0"}, {"hottest", "90"}, {"volume_change", "30"}});
    CHECK(answer.verdict == Verdict::does_not_fit);
    CHECK_THAT(answer.headline, Contains("failed"));
}

TEST_CASE("rubbers ranked by heat: FKM first, and natural rubber never in oil") {
    const auto answer = asked("rubber-ranking", {});
    REQUIRE(answer.grids.size() == 1);
    CHECK(answer.grids[0].rows.front()[0] == "FKM");
    for (const auto& row : answer.grids[0].rows)
        if (row[0] == "NR") CHECK(row.back() == "never");
    CHECK_FALSE(answer.verdict);  // it computes, and judges no rubber
}

// ---------------------------------------------------------------- inquiries: gasket, debris, bolt

TEST_CASE("cork on a flat rail is listed, on a rib it is a question; the rail unknown is looked at") {
    CHECK(asked("gasket-and-flange", {{"material", "cork"}, {"flange", "flat"}}).verdict == Verdict::fits);
    CHECK(asked("gasket-and-flange", {{"material", "cork"}, {"flange", "continuous_rib"}}).verdict ==
          Verdict::check_first);
    const auto unknown = asked("gasket-and-flange", {{"material", "cork"}});
    CHECK(unknown.verdict == Verdict::check_first);
    CHECK_THAT(joined(unknown.next), Contains("straightedge"));
    CHECK(unknown.grids[0].rows.size() == 8);
}

TEST_CASE("a rigid carrier is asked after until some source names it for this pan") {
    const std::vector<std::pair<std::string, std::string>> rigid{{"material", "rigid_carrier"}, {"flange", "flat"}};
    CHECK(asked("gasket-and-flange", rigid).verdict == Verdict::check_first);
    auto named = rigid;
    named.emplace_back("named_for_this_pan", "yes");
    CHECK(asked("gasket-and-flange", named).verdict == Verdict::fits);
    PartFacts facts = parts();
    facts.table("applications",
                "line,role,says,group_key,condition,withdrawn\ntest-line,pan-gasket,fits,gasket-rigid,,\n");
    facts.table("configurations", "line,attribute_values\ntest-line,pan_flange=flat\n", Evidence::maker);
    const FakeVehicle vehicle = FakeVehicle().may_be("pan_flange", {"flat"});
    CHECK(asked("gasket-and-flange", {{"gasket", "gasket-rigid"}}, facts, &vehicle).verdict == Verdict::fits);
}

TEST_CASE("two sources that disagree on a gasket and a rail settle nothing, and both are named") {
    PartFacts facts;
    facts.table("filters_seals_gasket_flanges", "material,flange,says\ncork,flat,listed\n", Evidence::maker,
                "test-pack", "first list");
    facts.table("filters_seals_gasket_flanges", "material,flange,says\ncork,flat,not_listed\n", Evidence::maker,
                "test-pack", "second list");
    const auto answer = asked("gasket-and-flange", {{"material", "cork"}, {"flange", "flat"}}, facts);
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(answer.headline, Contains("first list") && Contains("second list"));
}

TEST_CASE("single use is not assumed: a design that says nothing is asked, a rigid carrier goes back if sound") {
    CHECK(asked("gasket-reuse", {{"material", "nitrile"}}).verdict == Verdict::check_first);
    CHECK(asked("gasket-reuse", {{"material", "rigid_carrier"}}).verdict == Verdict::check_first);
    CHECK(asked("gasket-reuse", {{"material", "rigid_carrier"}, {"old_state", "sound"}}).verdict == Verdict::fits);
    CHECK(asked("gasket-reuse", {{"material", "rigid_carrier"}, {"old_state", "damaged"}}).verdict ==
          Verdict::does_not_fit);
    const auto facts = parts();
    CHECK(asked("gasket-reuse", {{"gasket", "gasket-cork"}, {"old_state", "sound"}}, facts).verdict ==
          Verdict::does_not_fit);
    CHECK_THAT(
        joined(asked("gasket-reuse", {{"gasket", "gasket-rigid"}, {"sealant_meant", "bead_only"}}, facts).cautions),
        Contains("The design asks for no sealant"));
}

TEST_CASE("steel pieces move a chance of 50 % to 11 % and stop the order; nothing found moves nothing") {
    const auto steel = asked("pan-debris", {{"found", "steel_pieces"}});
    CHECK(line_text(steel, "chance after") == "11 %");  // odds 1 / 2^3
    CHECK_THAT(steel.headline, Contains("Stop and decide again") && Contains("unlikely"));
    CHECK(steel.verdict == Verdict::check_first);
    CHECK(line_text(asked("pan-debris", {}), "chance after") == "50 %");
    CHECK_THAT(refusal_of("pan-debris", {{"found", "gold"}}),
               Contains("found: got gold: valid range is grey_paste_thin"));
}

TEST_CASE("what lies in the pan is weighed as a pack says, and the usual weights stay from memory") {
    PartFacts facts;
    facts.table(
        "filters_seals_debris",
        "debris,reads_as,steps,stop,next\nbrass_flakes,bushings here are soft,-1,no,\nsteel_pieces,gears,-3,yes,\n",
        Evidence::maker);
    CHECK(line_text(asked("pan-debris", {{"found", "brass_flakes"}}, facts), "chance after") == "33 %");
    for (const auto& line : asked("pan-debris", {{"found", "steel_pieces"}, {"prior", "60 %"}}, facts).lines)
        if (line.label == "chance after") CHECK(line.source.evidence == Evidence::memory);
}

TEST_CASE("65 ft lb on an M6 pan bolt asks whether inch pounds were meant; 65 in lb is sensible") {
    const auto wrong = asked("pan-bolt", {{"torque", "65 ft lb"}, {"diameter", "6"}, {"tightening", "8 N m"}});
    CHECK_THAT(joined(wrong.cautions), Contains("in·lb?"));
    CHECK(wrong.verdict == Verdict::check_first);
    CHECK(asked("pan-bolt", {{"torque", "65 ft lb"}, {"diameter", "6"}, {"data_allow_reuse", "yes"}}).verdict ==
          Verdict::check_first);
    CHECK_THAT(line_text(asked("pan-bolt", {{"torque", "65 in lbf"}, {"diameter", "6"}}), "sensible"),
               Contains("7.3") && Contains("sensible for this thread"));
}

TEST_CASE("torque and angle on a loosened pan bolt means a new bolt, unless the service data say reuse") {
    const auto stretched = asked("pan-bolt", {{"tightening", "5 N m + 60 deg"}});
    CHECK(stretched.verdict == Verdict::does_not_fit);
    CHECK_THAT(stretched.headline, Contains("new bolt unless the data say reuse"));
    CHECK(asked("pan-bolt", {{"tightening", "5 N m + 60 deg"}, {"data_allow_reuse", "yes"}}).verdict == Verdict::fits);
    CHECK(asked("pan-bolt", {{"tightening", "8 N m"}}).verdict == Verdict::check_first);
    CHECK(asked("pan-bolt", {}).verdict == Verdict::check_first);
    CHECK_THAT(refusal_of("pan-bolt", {{"tightening", "8"}}),
               Contains("tightening: got 8: valid range is stages with their units"));
}

TEST_CASE("the clamp force of a pan bolt carries the 25 % scatter of tightening by torque") {
    // 9.6 N m on M6, K 0.20: 9.6 / (0.20 x 6) = 8 kN, 6 to 10 kN.
    const auto answer = asked("pan-bolt", {{"torque", "9.6 N m"}, {"diameter", "6"}});
    REQUIRE(answer.grids.size() == 1);
    CHECK(answer.grids[0].rows[1] == std::vector<std::string>{"as received steel", "0.2", "6", "8", "10"});
}

TEST_CASE("the vehicle's own flange gives torque, thread, stages and sequence") {
    PartFacts facts = parts();
    facts.table("filters_seals_flanges",
                "line,condition,flange,bolt_count,bolt,tightening,sequence\ntest-line,,flat,16,M6x20,5 N m + 60 "
                "deg,from the middle outwards\n");
    const FakeVehicle vehicle;
    const auto answer = asked("pan-bolt", {}, facts, &vehicle);
    CHECK(line_text(answer, "tightening, stages in order") == "5 N m + 60 deg");
    CHECK(line_text(answer, "torque") == "5.0 N m");
    CHECK(line_text(answer, "thread") == "6.0 mm");
    CHECK(line_text(answer, "order of the bolts") == "from the middle outwards");
    CHECK_THAT(joined(answer.cautions), Contains("two angles are not one of their sum"));
}
