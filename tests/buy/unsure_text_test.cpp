// What the three ways to order read like when many configurations are left.
#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

#include "core/buy/unsure_text.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

Outcome outcome(const std::string& name, double share, std::int64_t cents) {
    Outcome one;
    one.name = name;
    one.share = share;
    one.total_cents = cents;
    return one;
}

// Orders that differ in nothing but the price, which stands for what is in them.
struct Sample {
    Buying buying;
    UnsureAdvice advice;
    void add(const std::string& name, double share, std::int64_t cents) {
        buying.possible.push_back({name, share, {{"pan-filter", 1, "each", {{name}}}}});
        advice.find_out_first.outcomes.push_back(outcome(name, share, cents));
    }
    std::string text() {
        buying.open = {"pan filter"};
        buying.deciding = {"pan_depth"};
        advice.most_likely.reason = advice.right_in_every.reason = "nobody offers it";
        advice.cheapest = UnsureChoice::find_out_first;
        return unsure_text(buying, advice, {}, "van", 0, "cu");
    }
};

std::size_t lines_with(const std::string& text, const std::string& words) {
    std::size_t count = 0;
    for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
    return count;
}

}  // namespace

TEST_CASE("what to find out and how to tell it stand before anything else") {
    Sample told;
    told.add("pan_depth=41 mm", 0.6, 8450), told.add("pan_depth=61 mm", 0.4, 13600);
    CHECK_THAT(told.text(), Catch::Matchers::StartsWith("CHECK FIRST: pan filter.\nIt hangs on: pan_depth"));
    CHECK(told.text().find("vehicle tell van pan depth VALUE") < told.text().find("What differs"));
}

TEST_CASE("outcomes of the same amount and the same returns are one line, with what they add up to") {
    Sample told;
    for (const auto* name : {"a", "b", "c", "d", "e", "f", "g", "h", "i"}) told.add(name, 0.1, 8450);
    told.add("j", 0.1, 9000);
    const auto text = told.text();
    CHECK(lines_with(text, "84.50 cu") == 1);
    CHECK_THAT(text, Contains("where a, or 8 others (90 %): 84.50 cu"));
    CHECK_THAT(text, Contains("otherwise (10 %): 90.00 cu"));
}

TEST_CASE("of more than six outcomes that differ the likeliest five are shown, the others counted with their range") {
    Sample told;
    for (int i = 0; i < 12; ++i)
        told.add(std::string(1, static_cast<char>('a' + i)), i < 7 ? 0.05 : 0.13, 1000 + 100 * i);
    const auto text = told.text();
    for (const auto* shown : {"where h (13 %): 17.00 cu", "where l (13 %): 21.00 cu"})
        CHECK_THAT(text, Contains(shown));
    CHECK_THAT(text, Contains("7 others (35 %), 10.00 cu to 16.00 cu: --json shows them"));
    CHECK_THAT(text, !Contains("where a (5 %)"));
}
