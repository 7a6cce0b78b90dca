// Which catalog rows hold on a partly known vehicle, against core's own reading of the condition language.
#include <catch2/catch.hpp>

#include <random>

#include "core/reason/condition.h"
#include "core/reason/possibilities.h"
#include "plugins/transmission_fluids/on_vehicle.h"
#include "tests/fakes.h"

using namespace casebound;
using casebound::tests::FakeFacts;
using casebound::tests::FakeVehicle;
using transmission_fluids::Holds;
using transmission_fluids::holds_on;
using transmission_fluids::rows_on_vehicle;

namespace {

struct Line {
    std::vector<Attribute> attributes;
    std::vector<std::vector<std::string>> values;  // what each attribute may be
};

Attribute attribute(const char* name, ValueKind kind, const char* unit) {
    Attribute result;
    result.name = name;
    result.kind = kind;
    result.unit = unit;
    return result;
}

Line invented_line() {
    return {{attribute("drive", ValueKind::choice, ""), attribute("pan_depth", ValueKind::number, "mm"),
             attribute("year", ValueKind::year, ""), attribute("build", ValueKind::month, ""),
             attribute("cooler", ValueKind::yes_no, "")},
            {{"2wd", "4wd", "none"},
             {"38 mm", "45.5 mm", "58 mm", "none"},
             {"2003", "2004", "2005", "2008"},
             {"2004-11", "2005-01", "2006-12"},
             {"yes", "no"}}};
}

class LineView final : public VehicleView {
public:
    LineView(const Possibilities& set, const Bits& left) : set_(set), left_(left) {}
    std::string name() const override { return "yardvan"; }
    std::string line() const override { return "test-line"; }
    std::vector<Told> told() const override { return {}; }
    std::vector<PossibleValue> possible(std::string_view name) const override {
        std::vector<PossibleValue> values;
        if (const auto* column = set_.column(name))
            for (const auto& [value, share] : set_.values_left(*column, left_))
                values.push_back({value->text, value->number, share});
        return values;
    }

private:
    const Possibilities& set_;
    const Bits& left_;
};

template <typename List> const auto& one_of(const List& list, std::mt19937& random) {
    return list[std::uniform_int_distribution<std::size_t>(0, list.size() - 1)(random)];
}

std::string random_term(const Line& line, std::mt19937& random) {
    const auto at = std::uniform_int_distribution<std::size_t>(0, line.attributes.size() - 1)(random);
    const auto& name = line.attributes[at].name;
    const bool ordered = line.attributes[at].kind != ValueKind::choice && line.attributes[at].kind != ValueKind::yes_no;
    std::string a = one_of(line.values[at], random), b = one_of(line.values[at], random);
    const std::string negation = random() % 4 == 0 ? "not " : "";
    if (!ordered || a == "none" || b == "none") return negation + name + "=" + a + (random() % 2 ? "|" + b : "");
    const std::vector<std::string> comparisons{"<", "<=", ">", ">="};
    if (random() % 3 == 0) return negation + name + one_of(comparisons, random) + a;
    if (random() % 3 == 0) return negation + name + "=" + a + (random() % 2 ? ".." : "|" + b);
    if (std::strtod(a.c_str(), nullptr) > std::strtod(b.c_str(), nullptr) || (a > b && a.size() == b.size()))
        std::swap(a, b);
    return negation + name + "=" + a + ".." + b;
}

Possibilities random_set(const Line& line, std::mt19937& random) {
    std::vector<std::vector<Value>> cells;
    for (int i = 0; i < 12; ++i) {
        cells.emplace_back();
        for (std::size_t a = 0; a < line.attributes.size(); ++a)
            cells.back().push_back(typed_value(line.attributes[a], one_of(line.values[a], random)));
    }
    return Possibilities(line.attributes, cells, std::vector<double>(cells.size(), 1));
}

}  // namespace

TEST_CASE("a condition is never read otherwise than core reads it") {
    std::mt19937 random(341);
    const Line line = invented_line();
    int yes = 0, no = 0, open = 0;
    for (int round = 0; round < 3000; ++round) {
        const auto set = random_set(line, random);
        Bits left(set.size());
        for (std::size_t i = 0; i < set.size(); ++i)
            if (random() % 3 == 0) left.set(i);
        if (left.none()) left.set(0);
        std::string condition = random_term(line, random);
        const bool single = random() % 2 == 0;
        if (!single) condition += "; " + random_term(line, random);
        INFO(condition);
        const Bits on = set.where(parse_condition(condition));
        const Holds holds = holds_on(condition, LineView(set, left));
        if (holds == Holds::yes) CHECK(on.contains(left));
        if (holds == Holds::no) CHECK_FALSE(on.meets(left));
        if (single) CHECK((holds == Holds::open) == (on.meets(left) && !on.contains(left)));
        ++(holds == Holds::yes ? yes : holds == Holds::no ? no : open);
    }
    CHECK((yes > 200 && no > 200 && open > 200));
}

TEST_CASE("a row in another unit than the attribute's own, or of an attribute the line lacks, stays open") {
    const FakeVehicle vehicle = FakeVehicle().may_be("pan_depth", {"38 mm"});
    CHECK(holds_on("pan_depth=38", vehicle) == Holds::yes);
    CHECK(holds_on("pan_depth=38mm", vehicle) == Holds::yes);
    CHECK(holds_on("pan_depth=1.5in", vehicle) == Holds::open);
    CHECK(holds_on("tail_lift=yes", vehicle) == Holds::open);
    CHECK(holds_on("tail_lift=yes; pan_depth=58mm", vehicle) == Holds::no);
    CHECK(holds_on("", vehicle) == Holds::yes);
}

TEST_CASE("rows of another line, and rows that are ruled out, are not the vehicle's") {
    FakeFacts facts;
    facts.table("transmission_fluids_fills",
                "line,condition,total_l\ntest-line,drive=4wd,10\ntest-line,drive=2wd,9\nother-line,,8\n");
    const FakeVehicle vehicle = FakeVehicle().may_be("drive", {"2wd"});
    const Engine engine;
    const auto rows = rows_on_vehicle({facts, engine, &vehicle}, "transmission_fluids_fills");
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].row.text("total_l") == "9");
    CHECK(rows[0].holds == Holds::yes);
    CHECK(rows_on_vehicle({facts, engine, nullptr}, "transmission_fluids_fills").empty());
}
