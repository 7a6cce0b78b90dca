// What a pack may not say, and the domain as a whole.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "rows/hooks.h"
#include "tests/filters_seals/parts.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Contains;
namespace fs = casebound::filters_seals;

namespace {

std::vector<std::string> faults(const FakeFacts& facts) {
    std::vector<std::string> texts;
    for (const auto& fault : fs::check(facts, "test-pack"))
        texts.push_back(fault.origin.file + ":" + std::to_string(fault.origin.line) + ":" + fault.column + ": " +
                        fault.what);
    return texts;
}

}  // namespace

TEST_CASE("a sound pack has no fault") { CHECK(faults(parts()) == std::vector<std::string>{}); }

TEST_CASE("every fault of a pack is reported with its row, its column and what to do") {
    PartFacts facts;
    facts.table("groups", "group_key,kind,title\nf-seal,neck-seal,\nf-high,pan-filter,\n");
    facts.table("filters_seals_filters",
                "group_key,type,height_mm,neck_od_mm,neck_seal_form,pan_depth_mm\n"
                "f-high,pan_with_neck,61,22,hat_in_bore,41\nf-seal,flat_bolted,33,,none,38\nf-inch,pan_with_neck,1300,"
                "22,none,\nf-flat,flat_bolted,33,22,none,38\n");
    const auto found = joined(faults(facts));
    CHECK_THAT(found, Contains("filters_seals_filters.csv:2:height_mm: filter 61 mm high for a pan 41 mm deep") &&
                          Contains("measure both again"));
    CHECK_THAT(found, Contains("filters_seals_filters.csv:3:group_key: f-seal is a neck-seal: this table is for "
                               "pan-filter or in-line-filter"));
    CHECK_THAT(found, Contains("filters_seals_filters.csv:4:height_mm: got 1300 mm: valid range is 1 to 300 mm") &&
                          Contains("csv:4:neck_seal_form"));
    CHECK_THAT(found, Contains("filters_seals_filters.csv:5:type"));
}

TEST_CASE("seals: a method against the form, a number against the size, an unknown rubber") {
    PartFacts facts;
    // AS568 214 is 24.99 x 3.53 mm (ISO 3601-1 class A).
    facts.table("filters_seals_seals",
                "group_key,form,id_mm,od_mm,section_mm,elastomer,fit_method,size_standard,size\n"
                "s-a,hat_in_bore,21,30,,NBR,on_neck,,\ns-b,oring,26.99,,3.53,NBR,in_groove,AS568,214\n"
                "s-c,oring,24.99,,3.53,rubber,in_groove,,\ns-d,oring,24.99,30,3.53,NBR,in_groove,,\ns-e,oring,24.99,,3."
                "53,NBR,in_groove,,214\n"
                "s-f,flat_washer,14,20,,copper,under_head,,\ns-g,oring,24.99,,3.53,FKM,in_groove,AS568,214\n");
    const auto found = joined(faults(facts));
    CHECK_THAT(found, Contains("csv:2:fit_method: hat_in_bore is fitted pressed_in_bore, not on_neck"));
    CHECK_THAT(found, Contains("csv:3:id_mm: AS568 214 is 24.99 mm, got 26.99"));
    CHECK_THAT(found, Contains("csv:4:elastomer: rubber is no ISO 1629 code"));
    CHECK_THAT(found, Contains("csv:5:od_mm: an O-ring of 24.99 x 3.53 mm is 32.05 mm outside, got 30"));
    CHECK_THAT(found, Contains("csv:6:size_standard"));
    CHECK_THAT(found, !Contains("csv:7:") && !Contains("csv:8:"));
}

TEST_CASE("flanges, gaskets, rubbers, debris, sizes and press fits are checked too") {
    PartFacts facts;
    facts.table("filters_seals_flanges",
                "line,bolt,tightening\nx,M6x20,9\nx,six,9 N m\nx,M6x20,5 N m + 900 deg\nx,M6x20,5 N m + 60 deg\n");
    facts.table(
        "filters_seals_gaskets",
        "group_key,material,reusable,sealant\ng-a,silicone_adhesive,by_design,none\ng-b,cork,never,bead_only\n");
    facts.table("filters_seals_elastomers",
                "elastomer,fluid,rating,status\nEPDM,mineral_oil_atf,good,from_memory\nXYZ,gasoline,good,from_"
                "memory\nNBR,mineral_oil_atf,good,seen\n",
                Evidence::memory);
    facts.table("filters_seals_debris", "debris,steps\nglitter,0\n");
    facts.table("filters_seals_sizes",
                "size_standard,size,id_mm,id_tol_mm,section_mm,section_tol_mm\nAS568,214,25.99,0.25,3.53,0.1\nAS568,"
                "112,12.37,0.13,2.62,2.62\n");
    facts.table("filters_seals_press_fits",
                "cased,bore_over_mm,bore_to_mm,low_mm,high_mm,source\nmetal,0,50,0.1,0.2,a\nmetal,40,80,0.1,0.2,a\n");
    facts.table("filters_seals_shaft_fits",
                "fit,measured,over_mm,up_to_mm,lower_mm,upper_mm\nH8,bore,18,30,0.01,0.033\nh11,shaft,18,30,-0.13,0\n"
                "h11,shaft,30,50,-0.16,0.1\n");
    facts.table("filters_seals_gasket_flanges",
                "material,flange,says,source\ncork,flat,listed,a\ncork,flat,not_listed,a\ncork,flat,not_listed,b\n");
    facts.table("filters_seals_bores", "line,role,bore_mm\nx,engine-mount,30\n");
    const auto found = joined(faults(facts));
    CHECK_THAT(found, Contains("flanges.csv:2:tightening: 9: write the stages") && Contains("flanges.csv:3:bolt") &&
                          Contains("flanges.csv:4:tightening: tightening angle: got 900 deg") &&
                          !Contains("flanges.csv:5"));
    CHECK_THAT(found, Contains("gaskets.csv:2:reusable") && Contains("gaskets.csv:2:sealant") &&
                          Contains("gaskets.csv:3:sealant"));
    CHECK_THAT(found, Contains("elastomers.csv:2:rating: EPDM must not meet mineral oil (49 CFR 571.116, S4)") &&
                          Contains("elastomers.csv:3:elastomer") && Contains("elastomers.csv:4:status"));
    CHECK_THAT(found, Contains("debris.csv:2:debris") && Contains("sizes.csv:2:id_mm: AS568 214 is 24.99 mm") &&
                          Contains("sizes.csv:3:section_tol_mm"));
    CHECK_THAT(found, Contains("press_fits.csv:3:bore_over_mm: overlaps line 2") &&
                          Contains("gasket_flanges.csv:3:says") && !Contains("gasket_flanges.csv:4"));
    CHECK_THAT(found, Contains("bores.csv:2:role"));
    CHECK_THAT(found, Contains("shaft_fits.csv:2:lower_mm") && Contains("shaft_fits.csv:4:upper_mm") &&
                          !Contains("shaft_fits.csv:3"));
}

TEST_CASE("only the pack that is asked about is checked") {
    PartFacts facts;
    facts.table("filters_seals_debris", "debris,steps\nglitter,0\n", Evidence::invented, "other-pack");
    CHECK(faults(facts).empty());
}

// ---------------------------------------------------------------- the whole domain

TEST_CASE("asked with nothing but what it assumes, no inquiry is firm") {
    for (const auto& inquiry : instance().inquiries()) {
        INFO(inquiry.name);
        const bool required = std::any_of(inquiry.inputs.begin(), inquiry.inputs.end(),
                                          [](const Input& input) { return input.required; });
        if (required || inquiry.name == "seal-in-hand") continue;  // refuse instead of answering
        CHECK_FALSE(firm(asked(inquiry.name, {})));
    }
}

TEST_CASE("every line of every answer has a source, and no answer promises too much") {
    const auto facts = parts();
    const FakeVehicle vehicle = FakeVehicle()
                                    .may_be("pan_depth", {"38 mm"})
                                    .may_be("neck_seal_form", {"hat_in_bore"})
                                    .may_be("pan_flange", {"flat"});
    const std::vector<std::pair<std::string, std::vector<std::pair<std::string, std::string>>>> questions{
        {"filter-stack", {{"filter", "filter-33"}, {"old_seal", "9"}}},
        {"pan-filter-seal", {{"filter", "filter-33"}, {"pan", "pan-38"}, {"seal", "seal-hat"}}},
        {"seal-count", {{"found_in_bore", "2"}}},
        {"neck-seal", {}},
        {"stays-behind", {}},
        {"seal-in-hand", {{"size", "25 x 32 x 7"}}},
        {"oring-size", {{"number", "214"}}},
        {"oring-gland", {{"seal", "seal-ring"}, {"filter", "filter-33-ring"}}},
        {"press-fit", {{"role", "output-shaft-seal"}}},
        {"hat-seal", {{"seal", "seal-hat"}, {"filter", "filter-33"}}},
        {"rubber-and-fluid", {{"seal", "seal-hat"}}},
        {"rubber-ranking", {}},
        {"gasket-and-flange", {{"gasket", "gasket-cork"}}},
        {"gasket-reuse", {{"gasket", "gasket-rigid"}}},
        {"pan-debris", {{"found", "steel_pieces"}}},
        {"pan-bolt", {{"torque", "9 N m"}, {"diameter", "6"}}}};
    CHECK(questions.size() == instance().inquiries().size());
    for (const auto& [name, inputs] : questions) {
        INFO(name);
        const auto answer = asked(name, inputs, facts, &vehicle);
        CHECK_FALSE(answer.headline.empty());
        for (const auto& line : answer.lines) {
            INFO(line.label);
            CHECK_FALSE(line.source.title.empty());
        }
        for (const char* word : {"guarantee", "universal", "ompatible", "definitely", "efinitely", " fixed"})
            CHECK_THAT(all_text(answer), !Contains(word));
    }
}

TEST_CASE("names are words of this domain, and every attribute an inquiry takes is declared") {
    std::set<std::string> attributes;
    for (const auto& attribute : instance().vocabulary().attributes) attributes.insert(attribute.name);
    std::set<std::string> names;
    for (const auto& inquiry : instance().inquiries()) {
        CHECK(names.insert(inquiry.name).second);
        for (const auto& input : inquiry.inputs)
            if (!input.attribute.empty()) CHECK(attributes.contains(input.attribute));
    }
    CHECK_THAT(std::string(instance().schema()), Contains("CREATE TABLE filters_seals_filters"));
}
