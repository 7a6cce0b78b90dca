// What is taken from the text of a schema: choices, bounds, and the words above a table, however it is laid out.
#include "core/store/sql_text.h"

#include <catch2/catch.hpp>

using namespace casebound;

namespace {

std::string bounds_text(std::string_view expression) {
    std::string all;
    for (const auto& one : bounds_in(expression, "size_mm"))
        all += std::string(one.minimum ? ">" : "<") + (one.exclusive ? "" : "=") +
               std::to_string(static_cast<int>(one.value)) + " ";
    return all;
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("the choices of a column are read only where the expression is just that") {
    CHECK(choices_in("kind IN ('a','b c')", "kind") == Texts{"a", "b c"});
    CHECK(choices_in("  KIND in ( 'a' , 'b' )  ", "kind") == Texts{"a", "b"});
    CHECK(choices_in("kind IN ('a'\n  'b')", "kind") == Texts{"a", "b"});
    CHECK(choices_in("kind IN ('a') OR other", "kind").empty());
    CHECK(choices_in("kind NOT IN ('a')", "kind").empty());
    CHECK(choices_in("kind IN (1, 2)", "kind").empty());
    CHECK(choices_in("kinds IN ('a')", "kind").empty());
    CHECK(choices_in("kind IN ('a'", "kind").empty());
    CHECK(choices_in("", "kind").empty());
}

TEST_CASE("the bounds of a column are read from a comparison, BETWEEN, and two joined by AND") {
    CHECK(bounds_text("size_mm > 0") == ">0 ");
    CHECK(bounds_text("size_mm>=-40") == ">=-40 ");
    CHECK(bounds_text("SIZE_MM <= 1e3") == "<=1000 ");
    CHECK(bounds_text("size_mm < 5") == "<5 ");
    CHECK(bounds_text("size_mm BETWEEN 1 AND 5") == ">=1 <=5 ");
    CHECK(bounds_text("size_mm >= 0 AND size_mm <= 1") == ">=0 <=1 ");
    CHECK(bounds_text("size_mm > 0\n  and size_mm < 9") == ">0 <9 ");
    CHECK(bounds_text("size_mm BETWEEN 1 AND 5 AND size_mm < 4") == ">=1 <=5 <4 ");
    CHECK(bounds_text("size_mm > 0 AND other < 9").empty());
    CHECK(bounds_text("size_mm > other").empty());
    CHECK(bounds_text("size_mm > 0 OR size_mm < -1").empty());
    CHECK(bounds_text("size_mm = 3").empty());
    CHECK(bounds_text("other > 3").empty());
    CHECK(bounds_text("0 < size_mm").empty());
    CHECK(bounds_text("AND").empty());
}

TEST_CASE("what stands above a table is its meaning, whatever else is called alike") {
    constexpr const char* sql =
        "-- Of all.\n\n-- Seals,\n-- by place.\nCREATE TABLE seals (a TEXT);\n"
        "create  table\n if not exists \"seals_more\" (b TEXT);\n-- Not above it.\n\nCREATE TABLE bare (c TEXT);\n";
    CHECK(comment_above(sql, "seals") == "Seals, by place.");
    CHECK(comment_above(sql, "SEALS") == "Seals, by place.");
    CHECK(comment_above(sql, "seals_more").empty());
    CHECK(comment_above(sql, "bare").empty());
    CHECK(comment_above(sql, "seal").empty());
    CHECK(comment_above("-- One.\nCREATE TABLE IF NOT EXISTS [one] (a);", "one") == "One.");
}
