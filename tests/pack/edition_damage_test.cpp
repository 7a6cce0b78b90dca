// What spreadsheets do to a cell, by which client, and what is said of it: none is believed. And what a person changes on
// purpose is not taken for damage.
#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/pack/edition_damage.h"

namespace {

using namespace casebound;

const PackShape& shape() {
    static const Plugins none;
    static const PackShape shape(none);
    return shape;
}

// One row of items.csv with the cell in one of its columns.
PackEdition with(const std::string& column, const std::string& cell) {
    const auto& items = *shape().find("items");
    EditionRow row{2, {"PF-33", "pan-filter", "a filter", "1", "", "label"}};
    row.cells[items.find(column)] = cell;
    return {"mine", {{&items, {row}}}};
}

struct Damage {
    std::string what, client, column, before, after;
};

// Calc: saved as CSV at its defaults and read again. de, en: the locale. xlsx: through a workbook of numbers.
const std::vector<Damage> damages{
    {"a decimal point taken for a thousands mark", "Calc, de", "pack_quantity", "4.725", "4725"},
    {"a point without a digit before it", "Calc, de", "pack_quantity", ".625", "625"},
    {"a point without a digit before it, zeros behind", "Calc, de", "pack_quantity", ".500", "500"},
    {"three decimals", "Calc, de", "pack_quantity", "0.946", "946"},
    {"three decimals of a litre and more", "Calc, de", "pack_quantity", "1.250", "1250"},
    {"a decimal comma put in", "Calc, de", "pack_quantity", "5.3", "5,3"},
    {"a point lost between two programs", "Calc, de and en", "pack_quantity", "5.3", "53"},
    {"a zero typed away with the point", "Calc, de", "pack_quantity", "0.05", "5"},
    {"leading zeros of a key", "Calc, any", "item", "00123", "123"},
    {"one leading zero of a key", "Calc, any", "item", "0815", "815"},
    {"leading zero before a dash", "a script that splits", "item", "0815-22", "815-22"},
    {"a key read as a power of ten", "Calc, any", "item", "1E5", "100000"},
    {"a key read as a power of ten, shown short", "Calc, any", "item", "23E10", "2.3E+11"},
    {"a long key shown short", "Calc, any", "item", "23100000000000", "2.31E+13"},
    {"a key of 17 digits rounded", "Calc, any", "item", "12345678901234567", "12345678901234600"},
    {"a key of 18 digits rounded and short", "Calc, any", "item", "123456789012345678", "1.23456789012346E+17"},
    {"zeros behind the point of a key", "Calc, any", "item", "10.50", "10.5"},
    {"a key with a whole part of zeros behind the point", "Calc, any", "item", "7.0", "7"},
    {"a thousands mark put in", "Calc, en", "item", "1234567", "1,234,567"},
    {"a point of a key taken out", "Calc, de", "item", "4.725", "4725"},
    {"a size in a title", "Calc, any", "title", "10.50", "10.5"},
    {"a torque in a title", "Calc, de", "title", "1.125 N m", "1125 N m"},
    {"an edition number in a title", "Calc, any", "title", "007", "7"},
    {"a code that looks like a power of ten in a title", "Calc, any", "title", "3E2", "300"},
    {"a number of 20 digits in a title", "Calc, any", "title", "12345678901234567890", "12345678901234600000"},
    {"a thread pitch", "Calc, de", "title", "M10x1.250", "M10x1250"},
    {"a decimal comma lost in a title", "Calc, en", "title", "5,3 L", "53 L"},
};

// What is damaged whoever sends it: there is no edition to compare with.
const std::vector<Damage> damages_alone{
    {"a formula: =see page 4", "Calc, any", "title", "", "Err:509"},
    {"a formula: =PF-33", "Calc, any", "item", "", "#NAME?"},
    {"a formula in German", "Calc, de", "item", "", "#WERT!"},
    {"a reference that went", "Calc, de", "title", "", "#BEZUG!"},
    {"a reference that went", "Calc, en", "title", "", "#REF!"},
    {"nothing to look up", "Calc, de", "title", "", "#NV"},
    {"divided by nothing", "Calc, any", "pack_quantity", "", "#DIV/0!"},
    {"a column too narrow", "printed and scanned", "title", "", "#####"},
    {"a long key rounded", "Calc, any", "item", "", "12345678901234600"},
    {"a longer one", "Calc, any", "title", "", "12345678901234600000"},
};

Vocabularies litres() {
    Vocabulary words;
    words.item_kinds.push_back({"gearbox-oil", "gearbox oil", "L"});
    words.item_kinds.push_back({"pan-filter", "pan filter", "each"});
    Vocabularies all;
    all.add(words, "test");
    return all;
}

TEST_CASE("a cell that lost digits, zeros or its point since the loaded edition is a fault with old and new") {
    CHECK(damages.size() + damages_alone.size() >= 30);
    for (const auto& one : damages) {
        INFO(one.what << " (" << one.client << "): " << one.before << " became " << one.after);
        const auto before = with(one.column, one.before), now = with(one.column, one.after);
        const auto faults = damage_since(before, now);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].column == one.column);
        CHECK(faults[0].line == 2);
        CHECK(faults[0].what.find("`" + one.after + "`") != std::string::npos);
        CHECK(faults[0].what.find("`" + one.before + "`") != std::string::npos);
    }
}

TEST_CASE("what a formula leaves and a long number that was rounded are faults without any edition") {
    for (const auto& one : damages_alone) {
        INFO(one.what << " (" << one.client << "): " << one.after);
        const auto faults = damage_alone({}, with(one.column, one.after), litres());
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].column == one.column);
    }
}

TEST_CASE("a quantity out of its kind's range is a fault until it is meant or was loaded so") {
    auto oil = with("kind", "gearbox-oil");
    auto& cells = oil.tables[0].rows[0].cells;
    const auto quantity = shape().find("items")->find("pack_quantity");
    cells[quantity] = "946";
    auto faults = damage_alone({}, oil, litres());
    REQUIRE(faults.size() == 1);
    CHECK(damage_alone(oil, oil, litres()).empty());
    CHECK_THROWS_AS(leave_out_meant(faults, {"items.csv:9:4"}), Error);
    leave_out_meant(faults, {"items.csv:2:4"});
    CHECK(faults.empty());
    cells[quantity] = "0.946";
    CHECK(damage_alone({}, oil, litres()).empty());
}

TEST_CASE("what a person changes is no damage") {
    const std::vector<Damage> changes{{"another quantity", "", "pack_quantity", "4.7", "5.3"},
                                      {"the same number, written otherwise", "", "pack_quantity", "10.50", "10.5"},
                                      {"another part", "", "item", "PF-33", "PF-38"},
                                      {"another title", "", "title", "a filter", "a filter, 38 mm"},
                                      {"a number put in", "", "title", "filter", "filter 4"},
                                      {"emptied", "", "title", "4.725", ""}};
    for (const auto& one : changes) {
        INFO(one.what);
        CHECK(damage_since(with(one.column, one.before), with(one.column, one.after)).empty());
        CHECK(damage_alone({}, with(one.column, one.after), litres()).empty());
    }
}

TEST_CASE("keys that may all have lost their first zero are worth a look") {
    auto edition = with("item", "815");
    for (const char* key : {"1234", "22", "90817"}) {
        auto row = edition.tables[0].rows[0];
        row.cells[0] = key;
        edition.tables[0].rows.push_back(row);
    }
    CHECK(zeros_lost(edition).size() == 1);
    edition.tables[0].rows[0].cells[0] = "0815";
    CHECK(zeros_lost(edition).empty());
}

}  // namespace
