// A candidate examined, and one group in place of another, as core asks the domain. Arithmetic by hand beside each check.
#include <catch2/catch.hpp>

#include <algorithm>

#include "rows/triple.h"
#include "tests/filters_seals/parts.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Contains;
namespace fs = casebound::filters_seals;

// ---------------------------------------------------------------- examine

TEST_CASE("a filter too high for one of the possible pans is excluded there, with the arithmetic") {
    const auto facts = parts();
    const auto result = examine(facts, "pan-filter", "filter-52",
                                FakeVehicle().may_be("pan_depth", {"38 mm", "58 mm"}));
    const auto* shallow = objection_where(result, "pan_depth=38 mm");
    REQUIRE(shallow);
    CHECK(shallow->at_most == Verdict::does_not_fit);
    CHECK_THAT(shallow->reason, Contains("pan 38 mm - filter 52 mm = gap -14 mm") && Contains("will not close"));
    CHECK(shallow->source.title == "test-pack, filters_seals_filters.csv:3");
    CHECK_FALSE(objection_where(result, "pan_depth=58 mm"));
}

TEST_CASE("a shallow filter in a deep pan is a question, not a no: the window is from memory or the old pair's") {
    const auto facts = parts();
    const auto result = examine(facts, "pan-filter", "filter-33",
                                FakeVehicle().may_be("pan_depth", {"38 mm", "58 mm"}));
    const auto* deep = objection_where(result, "pan_depth=58 mm");
    REQUIRE(deep);
    CHECK(deep->at_most == Verdict::check_first);
    CHECK_THAT(deep->reason, Contains("pan 58 mm - filter 33 mm = gap 25 mm") && Contains("made for a pan of 38 mm"));
    CHECK_FALSE(objection_where(result, "pan_depth=38 mm"));
}

TEST_CASE("a gap inside or a little under the window raises no objection, or every filter would end as check first") {
    PartFacts facts = parts();
    facts.table("filters_seals_filters", "group_key,type,height_mm,pan_depth_mm\nfilter-plain,pan_with_neck,33,\n");
    facts.table("groups", "group_key,kind,title\nfilter-plain,pan-filter,\n");
    CHECK(
        examine(facts, "pan-filter", "filter-plain", FakeVehicle().may_be("pan_depth", {"38 mm"})).objections.empty());
    const auto close = examine(facts, "pan-filter", "filter-plain", FakeVehicle().may_be("pan_depth", {"35 mm"}));
    CHECK(close.objections.empty());
    CHECK_THAT(joined(texts_of(close.cautions)), Contains("pan 35 mm - filter 33 mm = gap 2 mm"));
    const auto negative = examine(facts, "pan-filter", "filter-plain", FakeVehicle().may_be("pan_depth", {"32.5 mm"}));
    REQUIRE(negative.objections.size() == 1);
    CHECK(negative.objections[0].at_most == Verdict::check_first);  // -0.5 mm: within a ruler's millimetre of closing
}

TEST_CASE("a filter recorded for a pan it could not sit in is met with the usual window instead") {
    const auto under = fs::filter_under_pan(38, 33, 30);
    CHECK_FALSE(under.much_room);
    CHECK_THAT(under.finding.reason, Contains("window 3 to 10 mm"));
    CHECK_THAT(fs::filter_under_pan(38, 33, 38).finding.reason, Contains("window 2 to 8 mm"));
}

TEST_CASE("a filter made for a hat seal does not go where an O-ring sits on the neck") {
    const auto facts = parts();
    const auto result = examine(
        facts, "pan-filter", "filter-33",
        FakeVehicle().may_be("neck_seal_form", {"hat_in_bore", "oring_on_neck", "moulded_to_filter"}));
    REQUIRE(objection_where(result, "neck_seal_form=oring_on_neck"));
    CHECK(objection_where(result, "neck_seal_form=oring_on_neck")->at_most == Verdict::does_not_fit);
    CHECK(objection_where(result, "neck_seal_form=moulded_to_filter")->at_most == Verdict::check_first);
    CHECK_FALSE(objection_where(result, "neck_seal_form=hat_in_bore"));
}

TEST_CASE("a filter with a separate neck seal asks for it, and warns of the one that stays and of the ball above") {
    const auto facts = parts();
    const auto result = examine(facts, "pan-filter", "filter-52", FakeVehicle());
    REQUIRE(result.companions.size() == 1);
    CHECK(result.companions[0].role == "filter-neck-seal");
    CHECK_THAT(result.companions[0].reason, Contains("seals out, seals in"));
    CHECK_THAT(joined(texts_of(result.cautions)), Contains("stay up the bore") && Contains("one steel ball"));
    CHECK(result.questions == std::vector<std::string>{"pan_depth"});
}

TEST_CASE("a kit that holds the filter with a seal of another form is named") {
    PartFacts facts = parts();
    facts.table("kit_contents",
                "kit,group_key,quantity\nK-1,filter-33,1\nK-1,seal-band,1\nK-2,filter-33,1\nK-2,seal-hat,1\n");
    const auto cautions = joined(texts_of(examine(facts, "pan-filter", "filter-33", FakeVehicle()).cautions));
    CHECK_THAT(cautions, Contains("Kit K-1") && !Contains("Kit K-2"));
}

TEST_CASE("a neck as wide as the bore, or too short for the seal, is a no where that bore is") {
    PartFacts facts = parts();
    facts.table("filters_seals_filters",
                "group_key,type,neck_od_mm,neck_length_mm\nfilter-wide,pan_with_neck,30,38\nfilter-short,pan_with_neck,"
                "22,10\n");
    facts.table("groups", "group_key,kind,title\nfilter-wide,pan-filter,\nfilter-short,pan-filter,\n");
    const auto wide = examine(facts, "pan-filter", "filter-wide", FakeVehicle());
    REQUIRE(wide.objections.size() == 1);
    CHECK_THAT(wide.objections[0].reason, Contains("30 mm does not enter the bore of 30 mm"));
    const auto shorter = examine(facts, "pan-filter", "filter-short", FakeVehicle());  // 10 - 12 = -2 mm
    REQUIRE(shorter.objections.size() == 1);
    CHECK(shorter.objections[0].at_most == Verdict::does_not_fit);
    CHECK_THAT(shorter.objections[0].reason, Contains("= -2 mm"));
}

TEST_CASE("a neck seal of the other form, loose in its bore, or of a rubber the law keeps from oil is a no") {
    const auto facts = parts();
    const FakeVehicle vehicle = FakeVehicle().may_be("neck_seal_form", {"hat_in_bore"});
    const auto band = examine(facts, "filter-neck-seal", "seal-band", vehicle);
    REQUIRE(objection_where(band, "neck_seal_form=hat_in_bore"));
    CHECK(objection_where(band, "neck_seal_form=hat_in_bore")->at_most == Verdict::does_not_fit);
    const auto loose = examine(facts, "filter-neck-seal", "seal-hat-loose", vehicle);  // 29.9 - 30 < 0
    REQUIRE(loose.objections.size() == 1);
    CHECK_THAT(loose.objections[0].reason, Contains("drop out"));
    const auto epdm = examine(facts, "filter-neck-seal", "seal-hat-epdm", vehicle);
    REQUIRE(epdm.objections.size() == 1);
    CHECK(epdm.objections[0].at_most == Verdict::does_not_fit);
    CHECK_THAT(epdm.objections[0].reason, Contains("never"));
    CHECK(examine(facts, "filter-neck-seal", "seal-hat", vehicle).objections.empty());
}

TEST_CASE("a rubber known from memory only is asked about and excludes nothing") {
    const auto facts = parts();
    const auto result = examine(facts, "filter-neck-seal", "seal-hat-hnbr", FakeVehicle());
    CHECK(result.objections.empty());
    CHECK_THAT(joined(texts_of(result.cautions)), Contains("HNBR") && Contains("from memory only: ask"));
}

TEST_CASE("an O-ring that touches no wall on any recorded neck is a no in that bore, and one that seals is not") {
    PartFacts facts = parts();
    facts.table("filters_seals_seals",
                "group_key,form,id_mm,od_mm,section_mm,height_mm\nseal-thin,oring_on_neck,21.82,,2.62,\nseal-thick,"
                "oring_on_neck,21.82,,4.5,\n");
    facts.table("groups", "group_key,kind,title\nseal-thin,neck-seal,\nseal-thick,neck-seal,\n");
    const auto thin = examine(facts, "filter-neck-seal", "seal-thin", FakeVehicle());  // gland (30 - 22.2) / 2 = 3.9 mm
    REQUIRE(thin.objections.size() == 1);
    CHECK(thin.objections[0].at_most == Verdict::does_not_fit);
    CHECK_THAT(thin.objections[0].reason, Contains("leak path") && Contains("neck of 22.2 mm"));
    CHECK(examine(facts, "filter-neck-seal", "seal-thick", FakeVehicle()).objections.empty());
}

TEST_CASE("a shaft seal of another bore is a no") {
    PartFacts facts = parts();
    const auto result = examine(facts, "output-shaft-seal", "lip-30", FakeVehicle());
    REQUIRE(result.objections.size() == 1);
    CHECK_THAT(result.objections[0].reason, Contains("seal 40 mm in a bore of 62 mm"));
}

TEST_CASE("what was found up the bore or said of the pan is carried into the advice on the new seal") {
    const auto facts = parts();
    const auto cautions = joined(
        texts_of(examine(facts, "filter-neck-seal", "seal-hat",
                         FakeVehicle().tell("seals_in_bore", "2").tell("pan_off_before", "yes"))
                     .cautions));
    CHECK_THAT(cautions, Contains("2 seals were found up the bore") && Contains("may be stacked") &&
                             Contains("square into the bore"));
}

TEST_CASE("steel in the pan stops the order of a filter, thin grey paste does not") {
    const auto facts = parts();
    const auto cautions = [&](const std::string& seen) {
        return joined(
            texts_of(examine(facts, "pan-filter", "filter-33", FakeVehicle().tell("pan_debris", seen)).cautions));
    };
    CHECK_THAT(cautions("steel_pieces"), Contains("Decide again before ordering"));
    CHECK_THAT(cautions("grey_paste_thin"), !Contains("Decide again"));
}

TEST_CASE("a gasket with other holes is a no; on a rail it is not listed for it is a question, and reuse is told") {
    const auto facts = parts();
    const auto holes = examine(facts, "pan-gasket", "gasket-18", FakeVehicle().may_be("pan_bolts", {"16", "18"}));
    REQUIRE(objection_where(holes, "pan_bolts=16"));
    CHECK(objection_where(holes, "pan_bolts=16")->at_most == Verdict::does_not_fit);
    CHECK_FALSE(objection_where(holes, "pan_bolts=18"));
    const auto rail = examine(facts, "pan-gasket", "gasket-cork",
                              FakeVehicle().may_be("pan_flange", {"flat", "continuous_rib"}));
    REQUIRE(objection_where(rail, "pan_flange=continuous_rib"));
    CHECK(objection_where(rail, "pan_flange=continuous_rib")->at_most == Verdict::check_first);
    CHECK_FALSE(objection_where(rail, "pan_flange=flat"));
    const auto rigid = examine(facts, "pan-gasket", "gasket-rigid",
                               FakeVehicle()
                                   .may_be("pan_flange", {"flat"})
                                   .tell("old_gasket_state", "sound")
                                   .tell("leak_at", "selector_shaft"));
    CHECK(rigid.objections.empty());  // listed where specified, and an application specifies it
    CHECK_THAT(joined(texts_of(rigid.cautions)),
               Contains("reusable by design") && Contains("No sealant") && Contains("selector_shaft"));
}

TEST_CASE("recorded flanges stand in for an attribute the line does not have") {
    PartFacts facts = parts();
    facts.table("filters_seals_flanges",
                "line,condition,flange,bolt_count,bolt,tightening\ntest-line,engine=2.6,continuous_rib,16,M6x20,5 N m "
                "+ 60 deg\n");
    const auto result = examine(facts, "pan-gasket", "gasket-18", FakeVehicle().may_be("engine", {"2.6", "3.0"}));
    REQUIRE(result.objections.size() == 2);
    for (const auto& one : result.objections) CHECK(one.condition == "engine=2.6");
    CHECK(examine(facts, "pan-gasket", "gasket-18", FakeVehicle().may_be("engine", {"3.0"})).objections.empty());
    CHECK_THAT(
        joined(texts_of(examine(facts, "pan-bolts", "bolt-20", FakeVehicle().may_be("engine", {"2.6"})).cautions)),
        Contains("new bolt"));
}

TEST_CASE("another pan asks: filter and fill change with its depth, and its magnets are counted") {
    const auto facts = parts();
    const auto result = examine(facts, "pan", "pan-58", FakeVehicle().may_be("pan_depth", {"38 mm", "58 mm"}));
    REQUIRE(result.objections.size() == 1);
    CHECK(result.objections[0].condition == "pan_depth=38 mm");
    CHECK(result.objections[0].at_most == Verdict::check_first);
    CHECK_THAT(joined(texts_of(result.cautions)), Contains("Magnets that belong in it: 2"));
}

TEST_CASE("unknown facts raise no objection, whatever the part") {
    const auto facts = parts();
    const FakeVehicle knows_nothing;
    for (const auto& [role, group] : {std::pair{"pan-filter", "filter-bare"},
                                      std::pair{"filter-neck-seal", "seal-bare"}, std::pair{"pan-gasket", "gasket-18"},
                                      std::pair{"pan", "pan-58"}, std::pair{"pan-filter", "never-recorded"}}) {
        INFO(group);
        CHECK(examine(facts, role, group, knows_nothing).objections.empty());
    }
    const Engine engine;
    CHECK(instance().examine({"pan-filter", "filter-52", ""}, Services{facts, engine, nullptr}).objections.empty());
}

TEST_CASE("an objection names only attributes that the line has") {
    PartFacts facts = parts();
    facts.table("filters_seals_flanges", "line,condition,flange,bolt_count\ntest-line,engine=2.6,continuous_rib,18\n");
    const FakeVehicle vehicle = FakeVehicle().may_be("engine", {"2.6"});
    for (const auto& [role, group] : {std::pair{"pan-filter", "filter-52"}, std::pair{"filter-neck-seal", "seal-ring"},
                                      std::pair{"pan-gasket", "gasket-cork"}, std::pair{"pan", "pan-58"}})
        for (const auto& one : examine(facts, role, group, vehicle).objections) {
            INFO(group << ": " << one.condition);
            CHECK((one.condition.empty() || one.condition == "engine=2.6"));
        }
}

TEST_CASE("a row from memory asks where a measured one refuses") {
    for (const auto evidence : {Evidence::maker, Evidence::measured, Evidence::memory}) {
        PartFacts facts;
        facts.table("filters_seals_filters", kFilters, evidence)
            .table("groups", "group_key,kind,title\nfilter-52,pan-filter,\n");
        const auto result = examine(facts, "pan-filter", "filter-52", FakeVehicle().may_be("pan_depth", {"38 mm"}));
        REQUIRE(result.objections.size() == 1);
        CHECK(result.objections[0].at_most ==
              (evidence == Evidence::memory ? Verdict::check_first : Verdict::does_not_fit));
    }
}

// ---------------------------------------------------------------- may stand in

TEST_CASE("a seal of another form never stands in; the same form in another rubber does so on a condition") {
    const auto facts = parts();
    CHECK(stand_in(facts, "seal-hat", "seal-band").at_most == Verdict::does_not_fit);
    CHECK_THAT(joined(stand_in(facts, "seal-hat", "seal-band").reasons),
               Contains("another form: ribbed_band_on_neck against hat_in_bore"));
    const auto nbr = stand_in(facts, "seal-hat-acm", "seal-hat");
    CHECK(nbr.at_most == Verdict::fits);
    CHECK_THAT(joined(nbr.conditions), Contains("NBR against ACM") && Contains("ASTM D2000"));
    CHECK(stand_in(facts, "seal-hat", "seal-hat-epdm").at_most == Verdict::does_not_fit);
    CHECK(stand_in(facts, "seal-hat", "seal-hat-loose").at_most == Verdict::check_first);  // 29.9 against 30.25 mm
}

TEST_CASE("a rubber that ranks no lower in heat and swell is said and asks nothing") {
    // ASTM D2000: ACM 150 to 175 degC, NBR 100 to 125 degC; both at most 60 % swell.
    const auto facts = parts();
    const auto acm = stand_in(facts, "seal-hat", "seal-hat-acm");
    CHECK(acm.at_most == Verdict::fits);
    CHECK(acm.conditions.empty());
    CHECK_THAT(joined(texts_of(acm.cautions)), Contains("ACM against NBR"));
    CHECK_FALSE(
        stand_in(facts, "seal-hat", "seal-hat-hnbr").conditions.empty());  // HNBR in oil is known from memory only
}

TEST_CASE("a bonded washer in place of a copper one asks whether the head covers it, and is no other form of seal") {
    PartFacts facts;
    facts.table("filters_seals_seals",
                "group_key,form,id_mm,od_mm,section_mm,elastomer\nw-copper,flat_washer,14.2,20,1.5,copper\nw-bonded,"
                "bonded_washer,14.7,22,1.5,NBR\n");
    const auto opinion = stand_in(facts, "w-copper", "w-bonded");
    CHECK(opinion.at_most == Verdict::fits);
    CHECK_THAT(joined(opinion.conditions), Contains("outside 22 mm against 20 mm"));
}

TEST_CASE("a filter of another height, neck or seal form is lowered with the reason") {
    const auto facts = parts();
    const auto height = stand_in(facts, "filter-33", "filter-52");
    CHECK(height.at_most == Verdict::check_first);
    CHECK_THAT(joined(height.reasons), Contains("height 52 mm against 33 mm"));
    CHECK_FALSE(height.conditions.empty());
    const auto form = stand_in(facts, "filter-33", "filter-33-ring");
    CHECK(form.at_most == Verdict::check_first);
    CHECK_THAT(joined(form.reasons), Contains("oring_on_neck against hat_in_bore"));
}

TEST_CASE("where every possible pan stays open under the offered filter, it is a veto; where one closes, a question") {
    const auto facts = parts();
    const FakeVehicle shallow = FakeVehicle().may_be("pan_depth", {"38 mm"}),
                      either = FakeVehicle().may_be("pan_depth", {"58 mm", "38 mm"});
    CHECK(stand_in(facts, "filter-33", "filter-52", &shallow).at_most == Verdict::does_not_fit);
    CHECK(stand_in(facts, "filter-33", "filter-52", &either).at_most == Verdict::check_first);
}

TEST_CASE("what is known of two parts from memory only asks and never vetoes") {
    PartFacts facts;
    facts.table("filters_seals_seals", kSeals, Evidence::memory);
    const auto opinion = stand_in(facts, "seal-hat", "seal-band");
    CHECK(opinion.at_most == Verdict::check_first);
    CHECK(opinion.source.evidence == Evidence::memory);
}

TEST_CASE(
    "gaskets and pans: other holes are a veto, another material asks for its rail, another depth for its filter") {
    const auto facts = parts();
    CHECK(stand_in(facts, "gasket-cork", "gasket-18").at_most == Verdict::does_not_fit);
    const auto rigid = stand_in(facts, "gasket-cork", "gasket-rigid");
    CHECK(rigid.at_most == Verdict::fits);
    CHECK_THAT(joined(rigid.conditions), Contains("flat") && Contains("sleeves"));
    const FakeVehicle ribbed = FakeVehicle().may_be("pan_flange", {"continuous_rib"});
    CHECK(stand_in(facts, "gasket-rigid", "gasket-cork", &ribbed).at_most == Verdict::check_first);
    CHECK(stand_in(facts, "pan-38", "pan-18").at_most == Verdict::does_not_fit);
    CHECK(stand_in(facts, "pan-38", "pan-58").at_most == Verdict::check_first);
}

TEST_CASE("nothing recorded raises no opinion; one side recorded asks to lay both side by side") {
    const auto facts = parts();
    for (const auto& [a, b] : {std::pair{"never-recorded", "seal-hat"}, std::pair{"seal-hat", "never-recorded"},
                               std::pair{"filter-33", "filter-33"}}) {
        const auto opinion = stand_in(facts, a, b);
        CHECK(opinion.at_most == Verdict::fits);
        CHECK(opinion.conditions.empty());
    }
    CHECK_THAT(joined(stand_in(facts, "filter-33", "filter-bare").conditions), Contains("lay both side by side"));
}

TEST_CASE("a substitution never gets better without a word by losing evidence, and losing it makes no veto") {
    const std::vector<std::string> columns{"form", "id_mm", "od_mm", "section_mm", "height_mm", "elastomer"};
    const std::vector<std::string> wanted{"hat_in_bore", "21.2", "30.25", "", "8", "NBR"};
    for (const std::string form : {"hat_in_bore", "ribbed_band_on_neck"})
        for (const std::string rubber : {"NBR", "FKM", "EPDM"})
            for (std::size_t lost = 0; lost <= columns.size(); ++lost) {
                std::vector<std::string> offered{form, "21.2", "30.25", "", "8", rubber};
                if (lost < columns.size()) offered[lost].clear();
                const auto line = [](const std::string& key, const std::vector<std::string>& cells) {
                    std::string out = key;
                    for (const auto& cell : cells) out += "," + cell;
                    return out + "\n";
                };
                const std::string header = line("group_key", columns);
                PartFacts full, less;
                full.table("filters_seals_seals",
                           header + line("w", wanted) + line("o", {form, "21.2", "30.25", "", "8", rubber}));
                less.table("filters_seals_seals", header + line("w", wanted) + line("o", offered));
                const auto with = stand_in(full, "w", "o"), without = stand_in(less, "w", "o");
                INFO(form << " " << rubber << " without " << (lost < columns.size() ? columns[lost] : "nothing"));
                CHECK(static_cast<int>(without.at_most) <= static_cast<int>(with.at_most));  // no new veto
                if (lost == 0 && form != "hat_in_bore")
                    CHECK_FALSE(without.conditions.empty());  // the lost form is asked for
                if (lost == 0)
                    CHECK_THAT(joined(without.conditions), Contains("the form is recorded for one of them only"));
            }
}

// ---------------------------------------------------------------- what was told, whatever the line has

TEST_CASE("what was measured on the vehicle speaks against a part, whether or not its line has the attribute") {
    const auto facts = parts();
    const FakeVehicle vehicle = FakeVehicle()
                                    .tell("pan_bolts", "17")
                                    .tell("pan_flange", "lipped")
                                    .tell("pan_depth", "30 mm")
                                    .tell("neck_seal_form", "hat_in_bore")
                                    .tell("neck_od", "30 mm")
                                    .tell("filter_height", "52 mm")
                                    .tell("filter_bolts", "5");
    const auto gasket = examine(facts, "pan-gasket", "gasket-cork", vehicle);  // 16 holes, cork on a lip
    REQUIRE(objection_where(gasket, "pan_bolts=17"));
    CHECK(objection_where(gasket, "pan_bolts=17")->at_most == Verdict::does_not_fit);
    REQUIRE(objection_where(gasket, "pan_flange=lipped"));
    CHECK(objection_where(gasket, "pan_flange=lipped")->at_most == Verdict::check_first);
    const auto filter = examine(facts, "pan-filter", "filter-33-ring", vehicle);  // 33 mm high, neck 22.2 mm, 2 bolts
    for (const auto* where : {"pan_depth=30 mm", "neck_seal_form=hat_in_bore", "filter_bolts=5"}) {
        INFO(where);
        REQUIRE(objection_where(filter, where));
        CHECK(objection_where(filter, where)->at_most == Verdict::does_not_fit);
    }
    for (const auto* where : {"neck_od=30 mm", "filter_height=52 mm"}) {
        INFO(where);
        REQUIRE(objection_where(filter, where));
        CHECK(objection_where(filter, where)->at_most == Verdict::check_first);  // the old filter is no proof
    }
    const auto ring = examine(facts, "filter-neck-seal", "seal-ring", vehicle);
    REQUIRE(objection_where(ring, "neck_seal_form=hat_in_bore"));
    CHECK(objection_where(ring, "neck_seal_form=hat_in_bore")->at_most == Verdict::does_not_fit);
    CHECK_THAT(objection_where(ring, "neck_seal_form=hat_in_bore")->source.title, Contains("told: measured"));
}

TEST_CASE("what agrees with the part raises nothing, within the tolerance of each length") {
    const auto facts = parts();
    const FakeVehicle vehicle = FakeVehicle()
                                    .tell("pan_bolts", "16")
                                    .tell("pan_flange", "flat")
                                    .tell("pan_depth", "38 mm")
                                    .tell("neck_seal_form", "hat_in_bore")
                                    .tell("neck_od", "22.2 mm")       // 22 mm, 0.3 mm either way
                                    .tell("filter_height", "35 mm");  // 33 mm, 2 mm either way
    CHECK(examine(facts, "pan-filter", "filter-33", vehicle).objections.empty());
    CHECK(examine(facts, "pan-gasket", "gasket-cork", vehicle).objections.empty());
    CHECK(examine(facts, "filter-neck-seal", "seal-hat", vehicle).objections.empty());
    CHECK(examine(facts, "pan", "pan-38", vehicle).objections.empty());
}

TEST_CASE("what a seller said or somebody assumed asks, and refuses nothing") {
    const auto facts = parts();
    for (const auto evidence :
         {TellEvidence::measured, TellEvidence::read, TellEvidence::seller_said, TellEvidence::assumed}) {
        const auto result = examine(facts, "pan-gasket", "gasket-cork",
                                    FakeVehicle().tell("pan_bolts", "17", evidence));
        REQUIRE(objection_where(result, "pan_bolts=17"));
        CHECK(objection_where(result, "pan_bolts=17")->at_most ==
              (is_hearsay(evidence) ? Verdict::check_first : Verdict::does_not_fit));
    }
}

TEST_CASE("a range that was told is met as a range") {
    const auto facts = parts();
    const auto holes = examine(facts, "pan-gasket", "gasket-cork", FakeVehicle().tell("pan_bolts", "17..18"));
    REQUIRE(objection_where(holes, "not pan_bolts=16"));
    const FakeVehicle shallow = FakeVehicle().tell("pan_depth", "25..30");
    const auto filter = examine(facts, "pan-filter", "filter-33", shallow);  // 33 mm, within a ruler's millimetre
    REQUIRE(objection_where(filter, "pan_depth<=32"));
    CHECK(objection_where(filter, "pan_depth<=32")->at_most == Verdict::does_not_fit);
    REQUIRE(objection_where(filter, "pan_depth<=33"));
    CHECK(objection_where(filter, "pan_depth<=33")->at_most == Verdict::check_first);
    const auto pan = examine(facts, "pan", "pan-38", shallow);  // 38 mm, 3 mm either way
    CHECK(objection_where(pan, "not pan_depth=35..41"));
}

TEST_CASE("a filter for the cooler line is refused where the vehicle has none there") {
    PartFacts facts;
    facts.table("groups", "group_key,kind,title\nline-filter,in-line-filter,\n");
    const auto none = examine(facts, "in-line-filter", "line-filter", FakeVehicle().tell("in_line_filter", "no"));
    REQUIRE(objection_where(none, "in_line_filter=no"));
    CHECK(objection_where(none, "in_line_filter=no")->at_most == Verdict::does_not_fit);
    CHECK(examine(facts, "in-line-filter", "line-filter", FakeVehicle().tell("in_line_filter", "yes"))
              .objections.empty());
}

TEST_CASE("a gasket whose maker says never does not go back, sound as it looks") {
    const auto facts = parts();
    const auto never = examine(facts, "pan-gasket", "gasket-cork", FakeVehicle().tell("old_gasket_state", "sound"));
    CHECK_THAT(joined(texts_of(never.cautions)),
               Contains("never goes back, however sound it looks and whatever the job says") &&
                   Contains("single use by design") && !Contains("undamaged"));
    for (const auto& caution : never.cautions) CHECK(caution.source.row.file == "filters_seals_gaskets.csv");
    const auto rigid = examine(facts, "pan-gasket", "gasket-rigid", FakeVehicle().tell("old_gasket_state", "sound"));
    CHECK_THAT(joined(texts_of(rigid.cautions)), Contains("reusable by design, and undamaged") && !Contains("never"));
}

// ---------------------------------------------------------------- holds, findings, tightening

TEST_CASE(
    "steel or lining in the pan holds every cure, with the reading, its source, what lifts it and what it does to the "
    "odds") {
    PartFacts facts;
    facts.table("filters_seals_debris",
                "debris,reads_as,steps,stop,next\nbrass_flakes,bushings,-2,no,\nblack_flakes,linings,-3,no,\n",
                Evidence::maker);
    const Engine engine;
    const auto holds = [&](const FakeVehicle& vehicle) { return instance().holds(Services{facts, engine, &vehicle}); };
    const auto held = holds(FakeVehicle().tell("pan_debris", "grey_paste_thin+steel_pieces"));
    REQUIRE(held.size() == 1);
    CHECK(held[0].roles.size() == instance().vocabulary().roles.size());
    CHECK(held[0].jobs.empty());
    CHECK_THAT(held[0].reason, Contains("steel slivers") && Contains("gears or bearings"));
    CHECK_THAT(held[0].source.title, Contains("overhaul") && Contains("told: measured"));
    CHECK_THAT(held[0].until, Contains("cut the filter open") && Contains("fix, unit and passing on"));
    CHECK(held[0].attributes == std::vector<std::string>{"pan_debris"});
    CHECK(held[0].every_cure);
    CHECK(held[0].odds_steps == -3);
    CHECK(holds(FakeVehicle()).empty());
    CHECK(holds(FakeVehicle().tell("pan_debris", "brass_flakes+varnish_film")).empty());
    CHECK(holds(FakeVehicle().tell("pan_debris", "black_flakes")).empty());  // the pack's word: no stop
    const PartFacts silent;
    const FakeVehicle black = FakeVehicle().tell("pan_debris", "black_flakes");
    CHECK(instance().holds(Services{silent, engine, &black}).size() == 1);
    CHECK(instance().holds(Services{silent, engine, nullptr}).empty());
}

TEST_CASE("a stop that a seller only told of still holds the order, and is no better than memory") {
    const PartFacts facts;
    const Engine engine;
    const FakeVehicle vehicle = FakeVehicle().tell("pan_debris", "steel_pieces", TellEvidence::seller_said);
    const auto held = instance().holds(Services{facts, engine, &vehicle});
    REQUIRE(held.size() == 1);
    CHECK(held[0].source.evidence == Evidence::memory);
}

TEST_CASE("findings speak of trouble only where what was told does, each with how it is known") {
    const PartFacts facts;
    const Engine engine;
    const FakeVehicle bad = FakeVehicle()
                                .tell("pan_debris", "grey_paste_thin+brass_flakes")
                                .tell("leak_at", "pan_rail")
                                .tell("seals_in_bore", "2")
                                .tell("old_gasket_state", "sound", TellEvidence::read);
    const auto findings = instance().findings(Services{facts, engine, &bad});
    std::vector<std::string> said;
    for (const auto& one : findings.troubles) said.push_back(one.title + ": " + one.text);
    CHECK(said == std::vector<std::string>{"what lies in the pan: brass_flakes", "wet at: pan_rail",
                                           "seals found up the bore: 2, stacked: an old one was left in"});
    for (const auto& one : findings.troubles) CHECK(one.source.evidence == Evidence::measured);
    const FakeVehicle good = FakeVehicle().tell("leak_at", "dry").tell("seals_in_bore", "1");
    CHECK(instance().findings(Services{facts, engine, &good}).troubles.empty());
}

TEST_CASE("pan bolts are tightened as recorded for the vehicle, other screws are not recorded, seals are not screwed") {
    PartFacts facts;
    facts.table("filters_seals_flanges",
                "line,condition,flange,bolt_count,bolt,tightening,sequence\n"
                "test-line,engine=2.6,flat,16,M6x20,9 N m,crosswise\ntest-line,engine=3.0,flat,18,,,\n");
    const Engine engine;
    const auto tightening = [&](const std::string& role, const FakeVehicle& vehicle) {
        return instance().tightening(role, Services{facts, engine, &vehicle});
    };
    const auto sure = tightening("pan-bolts", FakeVehicle().may_be("engine", {"2.6"}));
    REQUIRE(sure.fasteners.size() == 1);
    CHECK(sure.fasteners[0].what == "16 x M6x20");
    CHECK(sure.fasteners[0].tightening == "9 N m, crosswise");
    CHECK(sure.fasteners[0].source.title == "test-pack, filters_seals_flanges.csv:2");
    const auto open = tightening("pan-bolts", FakeVehicle().may_be("engine", {"2.6", "3.0"}));
    REQUIRE(open.fasteners.size() == 2);
    CHECK(open.fasteners[1].what == "18 x thread not stated");
    CHECK(open.fasteners[1].tightening == "tightening not stated where engine=3.0");
    const auto plug = tightening("drain-plug", FakeVehicle());
    CHECK_FALSE(plug.none_here);
    CHECK(plug.fasteners.empty());
    CHECK(tightening("filter-neck-seal", FakeVehicle()).none_here);
}
