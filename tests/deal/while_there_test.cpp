// "While you are in there". Prices are invented; figures are worked by hand.
#include <catch2/catch.hpp>

#include "core/deal/while_there.h"
#include "tests/refusal.h"

using namespace casebound;
using Catch::Matchers::Contains;

TEST_CASE("a connector sleeve is cheap insurance from 9.2 % on") {
    // 11 now, five minutes at 30 an hour; later 2.5 h and 60 of fluid.
    const auto advice = while_there({{"connector sleeve", 0.15, 11, 2.5, 75, 60, 0}}).front();
    CHECK(advice.break_even == Approx(13.5 / 146));
    CHECK(advice.break_even == Approx(0.092).margin(0.0005));
    CHECK(advice.do_now);
}

TEST_CASE("what is most worth asking about stands first") {
    const auto sorted = while_there({{"b", 0.5, 100, 0, 0, 0, 0},
                                     {"c", 0.5, 10, 0, 90, 0, 0},
                                     {"a", 0.5, 10, 0, 90, 0, 0},
                                     {"free", 0.1, 0, 0, 0, 0, 0}});
    CHECK(sorted[0].work.name == "a");
    CHECK(sorted[1].work.name == "c");
    CHECK(sorted[2].work.name == "free");
    CHECK(sorted[3].work.name == "b");
    CHECK_FALSE(sorted[3].do_now);  // it costs the same later
    CHECK_THAT(refusal([] { while_there({{"x", 2, 1, 1, 1, 1, 1}}); }).text, Contains("chance 2: give 0 to 1"));
    CHECK_THAT(refusal([] { while_there({{"x", 0.2, -1, 1, 1, 1, 1}}); }).text, Contains("cost -1: give 0 or more"));
}
