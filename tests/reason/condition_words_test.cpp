// Conditions as a mechanic says them.
#include <catch2/catch.hpp>

#include "core/reason/condition.h"
#include "core/reason/condition_words.h"

using namespace casebound;

namespace {

// A pan that is 41 or 61 mm deep, a mount that is solid or hydraulic, years 2004 to 2007: all of them.
Possibilities van() {
    Attribute depth, kind, year;
    depth.name = "pan_depth";
    depth.title = "pan depth";
    depth.kind = ValueKind::number;
    depth.unit = "mm";
    kind.name = "mount_kind";
    kind.title = "kind of mount";
    kind.choices = {"solid", "two_part"};
    year.name = "year";
    year.title = "model year";
    year.kind = ValueKind::year;
    std::vector<std::vector<Value>> cells;
    for (const auto* mm : {"41mm", "61mm"})
        for (const auto* made : {"solid", "two_part"})
            for (const auto* in : {"2004", "2005", "2006", "2007"})
                cells.push_back({typed_value(depth, mm), typed_value(kind, made), typed_value(year, in)});
    return {{depth, kind, year}, cells, std::vector<double>(cells.size(), 1)};
}

Bits where(const Possibilities& set, std::string_view condition) { return set.where(parse_condition(condition)); }

}  // namespace

TEST_CASE("a condition is said by titles and words") {
    const auto set = van();
    CHECK(condition_words("pan_depth=41mm", set) == "pan depth 41 mm");
    CHECK(condition_words("mount_kind=solid|two_part; pan_depth<=41 mm", set) ==
          "kind of mount solid or two part; pan depth up to 41 mm");
    CHECK(condition_words("year=2004..2006; not mount_kind=two_part", set) ==
          "model year 2004 to 2006; kind of mount not two part");
    CHECK(condition_words("year>2004", set) == "model year over 2004");
    CHECK(condition_words("paint_code=red_7", set) == "paint code red_7");  // nothing known of it
}

TEST_CASE("a part of what is left is said in the same words, and all of it needs none") {
    const auto set = van();
    CHECK(where_words(set, where(set, "pan_depth=41mm"), set.all()) == "pan depth 41 mm");
    CHECK(where_words(set, where(set, "year=2005..2007"), set.all()) == "model year 2005 to 2007");
    CHECK(where_words(set, set.all(), set.all()).empty());
    const Bits corner = where(set, "pan_depth=41mm; mount_kind=solid") | where(set, "pan_depth=61mm; year=2004");
    CHECK(where_words(set, corner, set.all()).find(", or ") != std::string::npos);
}

TEST_CASE("a part that needs more words than anybody reads ends in a count, which is no condition") {
    const auto set = van();
    const Bits scattered = where(set, "pan_depth=41mm; mount_kind=solid; year=2004") |
                           where(set, "pan_depth=41mm; mount_kind=two_part; year=2005") |
                           where(set, "pan_depth=61mm; mount_kind=solid; year=2006") |
                           where(set, "pan_depth=61mm; mount_kind=two_part; year=2007") |
                           where(set, "pan_depth=41mm; mount_kind=solid; year=2007");
    CHECK(where_words(set, scattered, set.all()).ends_with(", or 2 further configurations"));
    // Neither depth, kind nor year alone takes a part of a chessboard out that is one box.
    Bits chessboard(set.size());
    for (std::size_t i = 0; i < set.size(); ++i)
        if ((i / 8 + i / 4 % 2 + i % 2) % 2 == 0) chessboard.set(i);
    CHECK(where_words(set, chessboard, set.all()) == "8 configurations");
}

TEST_CASE("parts that one attribute tells apart are said by its values alone") {
    const auto set = van();
    const auto told = told_apart(set, {where(set, "pan_depth=41mm"), where(set, "pan_depth=61mm")}, set.all());
    CHECK(told.attribute == "pan depth");
    CHECK(told.values == std::vector<std::string>{"41 mm", "61 mm"});
    const auto two = told_apart(set, {where(set, "pan_depth=41mm"), where(set, "mount_kind=solid")}, set.all());
    CHECK(two.values.empty());
    const auto corner = told_apart(set, {where(set, "pan_depth=41mm; year=2004")}, set.all());
    CHECK(corner.values.empty());
}
