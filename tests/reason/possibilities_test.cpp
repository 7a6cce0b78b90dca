// The possibilities engine on a set small enough to see whole.
#include <catch2/catch.hpp>

#include "core/reason/possibilities.h"

using namespace casebound;

namespace {

Attribute attribute(const std::string& name, ValueKind kind = ValueKind::choice, const std::string& unit = "") {
    Attribute a;
    a.name = name;
    a.kind = kind;
    a.unit = unit;
    return a;
}

// `rows`: one value an attribute.
Possibilities set_of(const std::vector<Attribute>& attributes, const std::vector<std::vector<std::string>>& rows,
                     std::vector<double> weights = {}) {
    std::vector<std::vector<Value>> cells;
    for (const auto& row : rows) {
        auto& cell = cells.emplace_back();
        for (std::size_t a = 0; a < attributes.size(); ++a) cell.push_back(typed_value(attributes[a], row[a]));
    }
    if (weights.empty()) weights.assign(rows.size(), 1);
    return {attributes, cells, weights};
}

Bits bits(std::size_t size, const std::vector<std::size_t>& on) {
    Bits result(size);
    for (const auto i : on) result.set(i);
    return result;
}

// Nine model years, the later ones with four driven wheels.
Possibilities years() {
    std::vector<std::vector<std::string>> rows;
    for (int year = 2001; year <= 2009; ++year) rows.push_back({std::to_string(year), year < 2006 ? "2wd" : "4wd"});
    return set_of({attribute("year", ValueKind::year), attribute("drive")}, rows);
}

}  // namespace

TEST_CASE("sets of configurations combine past a word's length") {
    for (const std::size_t size : {1u, 63u, 64u, 65u, 130u}) {
        const Bits all(size, true);
        CHECK(all.count() == size);
        Bits some(size);
        some.set(size - 1);
        CHECK(all.contains(some));
        CHECK((all - some).count() == size - 1);
        CHECK_FALSE((all - some).meets(some));
        CHECK(((all - some) | some) == all);
        std::size_t seen = 0;
        some.for_each([&](std::size_t i) { seen = i; });
        CHECK(seen == size - 1);
        some.clear(size - 1);
        CHECK(some.none());
    }
}

TEST_CASE("values are kept once each, by number and then by text") {
    const auto set = set_of({attribute("depth", ValueKind::number, "mm")},
                            {{"none"}, {"52"}, {"38mm"}, {"38 mm"}, {"4 in"}});
    const auto& column = *set.column("depth");
    std::vector<std::string> texts;
    for (const auto& value : column.values) texts.push_back(value.text);
    CHECK(texts == std::vector<std::string>{"38 mm", "52 mm", "101.6 mm", "none"});
    CHECK(column.holding[0] == bits(5, {2, 3}));
    CHECK(set.column("width") == nullptr);
}

TEST_CASE("a condition selects, an unknown attribute is a fault") {
    const auto set = years();
    CHECK(set.where(parse_condition("year=2003..2007; drive=4wd")) == bits(9, {5, 6}));
    CHECK(set.where(parse_condition("")).count() == 9);
    CHECK(set.where(parse_condition("not drive=4wd")) == bits(9, {0, 1, 2, 3, 4}));
    CHECK_THROWS_AS(set.where(parse_condition("year=2003; colour=red")), ConditionFault);
}

TEST_CASE("shares go by weight and sum to one") {
    const auto set = set_of({attribute("engine")}, {{"a"}, {"b"}, {"a"}}, {1, 2, 5});
    const auto shares = set.values_left(*set.column("engine"), set.all());
    REQUIRE(shares.size() == 2);
    CHECK(shares[0].second == Approx(0.75));
    CHECK(shares[1].second == Approx(0.25));
    CHECK(set.weight(bits(3, {0, 1})) == 3);
    CHECK(set.values_left(*set.column("engine"), bits(3, {0, 2})).size() == 1);
    CHECK(set.undecided(*set.column("engine"), set.all()));
    CHECK_FALSE(set.undecided(*set.column("engine"), bits(3, {0, 2})));
}

TEST_CASE("a description merges years into ranges") {
    const auto set = years();
    const auto whole = set.all();
    CHECK(describe(set, bits(9, {2, 3, 4, 5, 6}), whole) == "year=2003..2007");
    CHECK(describe(set, bits(9, {0, 1, 2, 6, 8}), whole) == "year=2001..2003|2007|2009");
    CHECK(describe(set, bits(9, {5, 6, 7, 8}), whole) == "drive=4wd");
    CHECK(describe(set, whole, whole) == "");
    CHECK_FALSE(describe(set, Bits(9), whole));
    // 2004 and 2005 are ruled out already: the range may run over them.
    CHECK(describe(set, bits(9, {1, 2, 5}), bits(9, {0, 1, 2, 5, 8})) == "year=2002..2006");
}

TEST_CASE("months merge over the turn of the year, numbers and words never") {
    const auto set = set_of({attribute("build", ValueKind::month)},
                            {{"2005-11"}, {"2005-12"}, {"2006-01"}, {"2006-02"}, {"none"}});
    const auto whole = set.all();
    CHECK(describe(set, bits(5, {0, 1, 2}), whole) == "build=2005-11..2006-01");
    CHECK(describe(set, bits(5, {3, 4}), whole) == "build=2006-02|none");
    const auto depths = set_of({attribute("depth", ValueKind::number, "mm")}, {{"33"}, {"34"}, {"35"}});
    CHECK(describe(depths, bits(3, {0, 1}), depths.all()) == "depth=33 mm|34 mm");
}

TEST_CASE("what no one conjunction describes is said in pieces") {
    const auto set = set_of({attribute("engine"), attribute("drive")},
                            {{"2.0", "2wd"}, {"2.0", "4wd"}, {"2.6", "2wd"}, {"2.6", "4wd"}});
    const auto crosswise = bits(4, {0, 3});
    CHECK_FALSE(describe(set, crosswise, set.all()));
    CHECK(describe_in_pieces(set, crosswise, set.all()).conditions ==
          std::vector<std::string>{"drive=2wd; engine=2.0", "drive=4wd; engine=2.6"});
    CHECK(describe_in_pieces(set, bits(4, {0, 1, 2}), set.all()).conditions ==
          std::vector<std::string>{"engine=2.0", "drive=2wd; engine=2.6"});
    CHECK(describe_in_pieces(set, set.all(), set.all()).conditions == std::vector<std::string>{""});
    CHECK(describe_in_pieces(set, Bits(4), set.all()).conditions.empty());
}
