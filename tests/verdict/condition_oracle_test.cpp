// The normal form of conditions, against the oracle's own reading of them.
#include <catch2/catch.hpp>

#include "core/reason/condition.h"
#include "tests/verdict/oracle_generate.h"

using namespace casebound;
using casebound::tests::Dice;

TEST_CASE("the normal form of a condition parses back to itself and says the same") {
    Dice dice(30000000);
    for (int n = 0; n < 3000; ++n) {
        const auto plain = tests::some_catalog(dice, {2, 6, 2, 16, 0, false});
        const auto text = tests::some_condition(dice, plain, 4);
        const auto normal = to_text(parse_condition(text));
        const auto again = to_text(parse_condition(normal));
        if (again != normal) {
            INFO(text);
            REQUIRE(again == normal);
        }
        if (tests::where_holds(plain, text) != tests::where_holds(plain, normal)) {
            INFO(text);
            REQUIRE(to_text(parse_condition(text)) == text);
        }
    }
}
