// The inquiries as asked on the command line: inputs typed by core, answers with their lines, grids and picture.
#include <catch2/catch.hpp>

#include <algorithm>

#include "rows/seal_search.h"
#include "tests/filters_seals/parts.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Contains;
namespace fs = casebound::filters_seals;

// ---------------------------------------------------------------- inquiries: the stack and its picture

TEST_CASE("a shallow filter under a shallow pan leaves 5 mm and stays open while the window is from memory") {
    const auto answer = asked("filter-stack", {{"pan_depth", "38"}, {"filter_height", "33"}, {"old_seal", "0"}});
    CHECK(answer.verdict == Verdict::check_first);
    CHECK(line_text(answer, "gap under the filter") == "5.0 mm");
    CHECK_THAT(joined(answer.assumptions), Contains("from memory"));
    CHECK_THAT(joined(answer.next), Contains("neck length"));
}

TEST_CASE("with the old pair measured the same stack is firm, and one that cannot close is firm without it") {
    const std::vector<std::pair<std::string, std::string>> good{
        {"pan_depth", "38"},    {"filter_height", "33"}, {"neck_length", "38"},       {"depth_to_seal", "12"},
        {"old_seal", "0"},      {"old_pan_depth", "38"}, {"old_filter_height", "33"}, {"margin", "4"},
        {"needed_reach", "20"}, {"off_by", "0.5"}};
    CHECK(asked("filter-stack", good).verdict == Verdict::fits);
    const auto closed = asked("filter-stack", {{"pan_depth", "38"}, {"filter_height", "52"}});
    CHECK(closed.verdict == Verdict::does_not_fit);
    CHECK_THAT(closed.headline, Contains("will not close"));
    CHECK(line_text(closed, "gap under the filter") == "-14.0 mm");
}

TEST_CASE("an old seal left in is named as the cause of the low reach, with what it would be without") {
    const auto answer = asked("filter-stack", {{"neck_length", "38"},
                                               {"depth_to_seal", "12"},
                                               {"old_seal", "9"},
                                               {"pan_depth", "58"},
                                               {"filter_height", "33"}});
    CHECK(line_text(answer, "reach into the seal") == "17.0 mm");
    CHECK_THAT(line_text(answer, "reach, judged"),
               Contains("old seal of 9 mm left in is the cause") && Contains("without it 26 mm"));
    CHECK_THAT(answer.headline, Contains("Take the old seal out first"));
    CHECK_THAT(joined(answer.cautions), Contains("never press a new one on an old one"));
}

TEST_CASE("the section is drawn to the measured lengths and told in words, the seal that stays marked") {
    const auto answer = asked("filter-stack", {{"pan_depth", "38"},
                                               {"filter_height", "33"},
                                               {"neck_length", "38"},
                                               {"depth_to_seal", "12"},
                                               {"old_seal", "0"},
                                               {"seal_height", "8"}});
    REQUIRE(answer.pictures.size() == 1);
    const auto& picture = answer.pictures[0];
    for (const char* part : {"38 mm deep", "12 mm up the bore", "may stay in the case", "reaches 26 mm", "gap of 5 mm",
                             "No old seal is left"})
        CHECK_THAT(picture.text_equivalent, Contains(part));
    const auto shape = [&](const std::string& label) {
        const auto found = std::find_if(picture.shapes.begin(), picture.shapes.end(),
                                        [&](const Shape& s) { return s.label == label; });
        REQUIRE(found != picture.shapes.end());
        return *found;
    };
    CHECK(shape("filter 33 mm").height == 33);
    CHECK(shape("neck 38 mm").y == -38);
    CHECK(shape("pan floor").y == 38);
    CHECK(shape("gap 5 mm").height == 5);
    CHECK(shape("gap 5 mm").y == 33);
    CHECK(shape("seal: may stay in the case").y == -20);  // 12 mm up, 8 mm high
    CHECK(shape("seal: may stay in the case").emphasis);
}

TEST_CASE("an old seal left in is drawn where it is, with filter and neck hanging lower by its height") {
    const auto answer = asked("filter-stack", {{"pan_depth", "58"},
                                               {"filter_height", "33"},
                                               {"neck_length", "38"},
                                               {"depth_to_seal", "12"},
                                               {"old_seal", "9"}});
    CHECK_THAT(answer.pictures[0].text_equivalent,
               Contains("An old seal, 9 mm high, is left in") && Contains("reaches 17 mm") && Contains("gap of 16 mm"));
    for (const auto& shape : answer.pictures[0].shapes)
        if (shape.label == "neck 38 mm") CHECK(shape.y == -29);
}

TEST_CASE("lengths come from the catalog and the vehicle when they are there, each with its row") {
    const auto facts = parts();
    const FakeVehicle vehicle = FakeVehicle().may_be("pan_depth", {"38 mm"});
    const auto answer = asked("filter-stack", {{"filter", "F-1033"}}, facts, &vehicle);
    CHECK(line_text(answer, "gap under the filter") == "5.0 mm");
    CHECK(line_text(answer, "reach into the seal") == "26.0 mm");  // 38 - 12, the bore of the line
    CHECK_THAT(all_text(answer), Contains("filters_seals_filters.csv:2") && Contains("filters_seals_bores.csv:2") &&
                                     Contains("every version of yardvan still possible"));
    CHECK_THAT(refusal_of("filter-stack", {{"filter", "F-9999"}}, facts),
               Contains("filter: nothing is recorded of F-9999"));
}

TEST_CASE("the pan a filter is made for takes the place of the usual gap, and the old pair as measured of both") {
    const auto facts = parts();
    const auto made_for = asked("filter-stack", {{"filter", "filter-33"}, {"pan_depth", "38"}, {"old_seal", "0"}},
                                facts);
    CHECK(line_text(made_for, "gap wanted") == "2 to 8 mm");  // 38 - 33, give or take 3 mm
    CHECK_THAT(joined(made_for.assumptions), !Contains("from memory"));
    const auto old_pair = asked("filter-stack",
                                {{"filter", "filter-33"},
                                 {"pan_depth", "38"},
                                 {"old_pan_depth", "40"},
                                 {"old_filter_height", "33"},
                                 {"margin", "2"}},
                                facts);
    CHECK(line_text(old_pair, "gap wanted") == "5 to 9 mm");
}

TEST_CASE("a length that a seller only said never carries a firm verdict") {
    const FakeVehicle vehicle = FakeVehicle().tell("pan_depth", "38 mm", TellEvidence::seller_said);
    const auto answer = asked("filter-stack", {{"filter_height", "52"}}, {}, &vehicle);
    CHECK(answer.verdict == Verdict::check_first);
    CHECK_THAT(joined(answer.next), Contains("Check the pan depth here") && Contains("seller said"));
}

TEST_CASE("pan, filter and seal as one: the wrong pan or the wrong form is a no, missing lengths are asked for") {
    const auto facts = parts();
    CHECK(asked("pan-filter-seal", {{"filter", "filter-52"}, {"pan", "pan-38"}, {"seal", "seal-hat"}, {"bore", "30"}},
                facts)
              .verdict == Verdict::does_not_fit);
    const auto form = asked("pan-filter-seal", {{"filter", "filter-33"}, {"pan", "pan-38"}, {"seal", "seal-band"}},
                            facts);
    CHECK(form.verdict == Verdict::does_not_fit);
    CHECK_THAT(line_text(form, "filter and seal, form"), Contains("opposite ways"));
    const auto right = asked("pan-filter-seal",
                             {{"filter", "filter-33"}, {"pan", "pan-38"}, {"seal", "seal-hat"}, {"bore", "30"}}, facts);
    CHECK(right.verdict == Verdict::check_first);  // how tight a hat seal must be is known from memory only
    CHECK_THAT(line_text(right, "filter under the pan"), Contains("gap 5 mm") && Contains("made for a pan of 38 mm"));
    CHECK(asked("pan-filter-seal", {{"filter", "filter-bare"}}, facts).verdict == Verdict::check_first);
}

// ---------------------------------------------------------------- inquiries: counts, and what stays

TEST_CASE("two stacked seals: all out, one in; one left in stops") {
    const auto stacked = asked(
        "seal-count", {{"on_old_filter", "0"}, {"found_in_bore", "2"}, {"taken_from_bore", "2"}, {"put_in", "1"}});
    CHECK(stacked.verdict == Verdict::fits);
    CHECK_THAT(joined(stacked.cautions), Contains("Two seals were stacked"));
    const auto left = asked("seal-count", {{"on_old_filter", "0"}, {"found_in_bore", "2"}, {"taken_from_bore", "1"}});
    CHECK(left.verdict == Verdict::does_not_fit);
    CHECK_THAT(left.headline, Contains("Stop") && Contains("old seal is still in the bore"));
    CHECK(asked("seal-count", {{"put_in", "1"}}).verdict == Verdict::check_first);
    CHECK_THAT(refusal_of("seal-count", {{"found_in_bore", "1.5"}}),
               Contains("found-in-bore: got 1.5") && Contains("whole numbers"));
}

TEST_CASE("what was told of the bore is counted without asking again") {
    const auto facts = parts();
    const FakeVehicle vehicle = FakeVehicle().tell("seals_in_bore", "2");
    const auto answer = asked("seal-count", {{"on_old_filter", "0"}, {"taken_from_bore", "2"}}, facts, &vehicle);
    CHECK(line_text(answer, "seen in the bore") == "2");
    CHECK_THAT(answer.headline, Contains("two were stacked"));
}

TEST_CASE("a hat seal goes into the bore first, a band on the neck; the form unknown settles nothing") {
    CHECK_THAT(asked("neck-seal", {{"form", "hat_in_bore"}}).headline, Contains("square into the bore"));
    CHECK_THAT(asked("neck-seal", {{"form", "ribbed_band_on_neck"}}).headline, Contains("on the filter neck"));
    CHECK_THAT(all_text(asked("neck-seal", {{"form", "hat_in_bore"}})),
               Contains("Never scratch the bore") && Contains("opposite ways"));
    CHECK(asked("neck-seal", {}).verdict == Verdict::check_first);
}

TEST_CASE(
    "what stays behind: the pack's word for the line first, common practice where it is silent, as many in as out") {
    PartFacts facts = parts();
    facts.table("jobs", "job,title\npan-service,Pan\n");
    facts.table("job_roles",
                "job,role,line,condition\npan-service,filter-neck-seal,,\npan-service,pan-gasket,,\npan-service,pan-"
                "bolts,,\npan-service,drain-plug-washer,other-line,\n");
    facts.table("stays_behind",
                "role,line,condition,place,see,remove,count\n"
                "filter-neck-seal,test-line,neck_seal_form=hat_in_bore,up in the bore,mirror and torch,blunt hook,1\n"
                "filter-neck-seal,test-line,neck_seal_form=oring_on_neck,on the old neck,look at the neck,pick,1\n");
    const FakeVehicle vehicle = FakeVehicle().may_be("neck_seal_form", {"hat_in_bore"});
    const auto answer = asked("stays-behind", {{"job", "pan-service"}}, facts, &vehicle);
    CHECK(line_text(answer, "filter-neck seal") ==
          "up in the bore. See: Mirror and torch. Get out: Blunt hook. 1 out and 1 in.");
    CHECK_THAT(line_text(answer, "pan gasket"), Contains("no wire brush"));
    CHECK(line_text(answer, "drain-plug washer").empty());
    CHECK_THAT(joined(answer.assumptions), Contains("pan bolts") && Contains("That is not a no"));
    CHECK_THAT(all_text(answer), !Contains("on the old neck"));
    CHECK_THAT(refusal_of("stays-behind", {{"job", "pan-servise"}}, facts),
               Contains("job: got pan-servise: valid range is pan-service"));
}

TEST_CASE("every role of this domain from which something may stay says where, how to see it and how to get it out") {
    const auto answer = asked("stays-behind", {});
    CHECK(answer.lines.size() >= 10);
    for (const auto& line : answer.lines) {
        const auto text = std::get<std::string>(line.value);
        INFO(line.label);
        CHECK_THAT(text, Contains("See: ") && Contains("Get out: "));
        CHECK((text.find("As many in as came out") != std::string::npos) ==
              (line.label != "pan gasket"));  // shreds are not counted
        CHECK(line.source.title == "common practice, no source");
    }
}

// ---------------------------------------------------------------- inquiries: sizes

TEST_CASE("a seal in the hand, 25 x 32 x 7, is found by its size, and the two rubbers of it are both shown") {
    const auto facts = parts();
    const auto answer = asked("seal-in-hand", {{"size", "25 x 32 x 7"}}, facts);
    CHECK(answer.verdict == Verdict::check_first);
    REQUIRE(answer.grids.size() == 1);
    REQUIRE(answer.grids[0].rows.size() == 2);
    CHECK(answer.grids[0].rows[0][0] == "lip-25-acm");
    CHECK(answer.grids[0].rows[0].back() == "L-7025");
    CHECK(answer.grids[0].rows[1][0] == "lip-25-fkm");
    CHECK_THAT(joined(answer.cautions), Contains("A size is not all of a seal"));
}

TEST_CASE("one seal of that size is named; none is not recorded, and never a no") {
    const auto facts = parts();
    const auto one = asked("seal-in-hand", {{"size", "30x40x7"}}, facts);
    CHECK(one.verdict == Verdict::fits);
    CHECK_THAT(one.headline, Contains("lip-30"));
    const auto none = asked("seal-in-hand", {{"size", "50 x 65 x 8"}}, facts);
    CHECK(none.verdict == Verdict::not_recorded);
    CHECK_THAT(none.headline, Contains("of the 11 seals on record") && Contains("not a no"));
    CHECK_THAT(asked("seal-in-hand", {{"size", "50 x 65 x 8"}}).headline, Contains("No loaded pack records any seal"));
}

TEST_CASE("a lip seal measures larger outside than its bore, by the press fit of ISO 6194-1") {
    const auto facts = parts();
    // Rubber covered, bore to 50 mm: 0.15 to 0.30 mm over the nominal.
    for (const auto& [od, found] : {std::pair{"32.25", true}, std::pair{"32.7", false}, std::pair{"31.6", false}}) {
        INFO(od);
        CHECK((asked("seal-in-hand", {{"id", "25"}, {"od", od}, {"off_by", "0.05"}}, facts).verdict !=
               Verdict::not_recorded) == found);
    }
}

TEST_CASE("sizes are read as people write them, and anything else is refused by name") {
    for (const char* text : {"25 x 32 x 7", "25x32x7", "25X32X7 mm", "25-32-7", "25 \xC3\x97 32 \xC3\x97 7"}) {
        INFO(text);
        const auto size = fs::printed_size(text);
        REQUIRE(size);
        CHECK(size->id_mm == 25);
        CHECK(size->od_mm == 32);
        CHECK(size->height_mm == 7);
    }
    for (const char* text :
         {"", "25 x 32", "32 x 25 x 7", "25 x 32 x 7 x 8", "25 x 32 x 7 in", "a x b x c", "-25 x 32 x 7"})
        CHECK_FALSE(fs::printed_size(text));
    CHECK_THAT(refusal_of("seal-in-hand", {{"size", "25 x 32"}}),
               Contains("size: got 25 x 32: valid range is inside x outside x height"));
    CHECK_THAT(refusal_of("seal-in-hand", {}), Contains("size: got nothing"));
}

TEST_CASE("an O-ring in the hand is also met with the standard sizes") {
    // AS568 214 is 24.99 x 3.53 mm, plus or minus 0.25 and 0.10 (ISO 3601-1 class A); 120 is 25.07 x 2.62.
    const auto answer = asked("seal-in-hand", {{"id", "25"}, {"section", "3.5"}, {"off_by", "0.05"}});
    REQUIRE(answer.grids.size() == 1);
    REQUIRE(answer.grids[0].rows.size() == 1);
    CHECK(answer.grids[0].rows[0][0] == "214");
}

TEST_CASE("leaving out a measurement never loses a seal that a fuller measurement finds") {
    const auto facts = parts();
    const auto seals = facts.rows("filters_seals_seals");
    for (const auto& seal : seals) {
        fs::InHand full;
        const auto off = [](std::optional<double> v) { return v ? std::optional(fs::about(*v, 0.1)) : std::nullopt; };
        full = {off(seal.number("id_mm")), off(seal.number("od_mm")), off(seal.number("height_mm")),
                off(seal.number("section_mm")), ""};
        const auto has = [&](const fs::InHand& hand) {
            const auto found = fs::seals_like(seals, {}, hand);
            return std::any_of(found.begin(), found.end(), [&](const fs::SealMatch& m) {
                return m.row->text("group_key") == seal.text("group_key");
            });
        };
        if (!full.id_mm) continue;
        INFO(seal.text("group_key"));
        CHECK(has(full));
        fs::InHand less = full;
        less.od_mm.reset();
        CHECK(has(less));
        less.height_mm.reset();
        CHECK(has(less));
    }
}

TEST_CASE("an O-ring number answers with its size and tolerances, an unknown one with how many were searched") {
    const auto size = asked("oring-size", {{"number", "214"}});
    CHECK(line_text(size, "inside diameter") == "24.99 mm");
    CHECK(line_text(size, "section") == "3.53 mm");
    CHECK(line_text(size, "inside, plus or minus, class B") ==
          "0.301 mm");  // 0.009 x 24.99^0.95 + 0.11, ISO 3601-1:2012 A.1
    CHECK(asked("oring-size", {{"number", "999"}}).verdict == Verdict::not_recorded);
    PartFacts facts;
    facts.table("filters_seals_sizes",
                "size_standard,size,id_mm,id_tol_mm,section_mm,section_tol_mm,note\nAS568,239,91.44,0.71,3.53,0.10,"
                "tolerances differ between lists\n");
    CHECK_THAT(joined(asked("oring-size", {{"number", "239"}}, facts).cautions), Contains("Tolerances differ"));
}
