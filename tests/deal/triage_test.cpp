// What a question is worth before the purchase. Vehicles and prices are invented; every figure is worked by hand from the
// definitions of expected value and Bayes' rule, with its arithmetic beside it.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "core/deal/deal.h"
#include "core/deal/triage.h"
#include "tests/refusal.h"

using namespace casebound;

namespace {

Estimate at(double amount) { return exactly(amount, "typed in"); }

// A repair of 260 mends it with chance .35, else only a unit of 2600 would; 2100 running, 450 as it stands, 80 to find
// out which.
TriageCase cheap_or_worn() { return {{at(260)}, {0, std::nullopt}, {2100, 450, 450, 2600, 0, 80}}; }
const Shares one_in_three{.35, .65};

// A good sign comes with .9 where the repair mends it, with .4 where it does not.
const Chances good_or_bad{{.9, .1}, {.4, .6}};

}  // namespace

TEST_CASE("the ceiling is the best course without the price") {
    // repair: .35 * 2100 + .65 * 450 - 260 - 80 = 735 + 292.5 - 340 = 687.5; pass on: 450 - 80 = 370
    const auto ceiling = ceiling_of(cheap_or_worn(), one_in_three);
    CHECK(ceiling.amount == Approx(687.5));
    CHECK(ceiling.first == FirstStep{Path::fix_first, 0});
    // from .082 on: .0823529 * 2100 + .9176471 * 450 - 340 = 245.9 is less than passing on
    CHECK(ceiling_of(cheap_or_worn(), {.035 / .425, .39 / .425}).amount == Approx(370));
}

TEST_CASE("a look is worth 53 once it is bought and 150 before") {
    // good: .315 + .26 = .575, then .315 * 2100 + .26 * 450 - .575 * 340 = 661.5 + 117 - 195.5 = 583, so 583 / .575
    // bad: .425, then passed on: 370
    const auto worth = worth_of(cheap_or_worn(), one_in_three, good_or_bad, 600);
    REQUIRE(worth.answers.size() == 2);
    CHECK(worth.answers[0].chance == Approx(.575));
    CHECK(worth.answers[0].shares[0] == Approx(.315 / .575));
    CHECK(worth.answers[0].ceiling.amount == Approx(583 / .575));
    CHECK(worth.answers[1].ceiling.amount == Approx(370));
    CHECK(worth.answers[0].buy);
    CHECK_FALSE(worth.answers[1].buy);
    // bought whatever the answer is: 583 - .575 * 600 + .425 * (370 - 600) - (687.5 - 600) = 238 - 97.75 - 87.5 = 52.75
    // walking away from the bad answer: 238 + 0 - 87.5 = 150.5
    CHECK(worth.value == Approx(150.5));
    // at 300 it is bought whatever the answer is: 583 - 172.5 + .425 * 70 - 387.5 = 52.75
    CHECK(worth_of(cheap_or_worn(), one_in_three, good_or_bad, 300).value == Approx(52.75));
    // no price: the most, at 687.5: 583 - .575 * 687.5 = 187.6875
    CHECK(worth_of(cheap_or_worn(), one_in_three, good_or_bad, std::nullopt).value == Approx(187.6875));
}

TEST_CASE("to know the cause is worth more than any look") {
    // mended: 2100 - 260 - 80 = 1760; worn: 370. At 600: .35 * 1160 + 0 - 87.5 = 318.5
    CHECK(worth_of_knowing(cheap_or_worn(), one_in_three, 600) == Approx(318.5));
    // .35 * 1760 + .65 * 370 = 616 + 240.5
    CHECK(ceiling_if_known(cheap_or_worn(), one_in_three) == Approx(856.5));
}

TEST_CASE("a seller who is right four times in five is worth less") {
    // good said: .8 * .9 + .2 * .1 = .74 and .8 * .4 + .2 * .6 = .44; .259 + .286 = .545
    // then .259 * 2100 + .286 * 450 - .545 * 340 = 543.9 + 128.7 - 185.3 = 487.3; 487.3 - .545 * 600 = 160.3
    // bad said: (.091 * 2100 + .364 * 450 - .455 * 340) / .455 = 440, below 600: walk away
    const auto said = as_said(good_or_bad, .8);
    CHECK(said[0][0] == Approx(.74));
    CHECK(said[1][0] == Approx(.44));
    const auto worth = worth_of(cheap_or_worn(), one_in_three, said, 600);
    CHECK(worth.answers[1].ceiling.amount == Approx(440));
    CHECK(worth.value == Approx(160.3 - 87.5));
}

TEST_CASE("ways to mend are tried in the order that costs least on average") {
    // 100 mends .5, 300 mends .3, nothing mends .2; 2000 running, 500 as it stands, no unit
    const TriageCase one{{at(100), at(300)}, {0, 1, std::nullopt}, {2000, 500, 500, std::nullopt, 0, 0}};
    const auto ceiling = ceiling_of(one, {.5, .3, .2});
    // 100 first: .5 * 2000 - 100 = 900, then .3 * 2000 + .2 * 500 - .5 * 300 = 550; 300 first: 1330; only 100: 1150
    CHECK(ceiling.amount == Approx(1450));
    CHECK(ceiling.first == FirstStep{Path::fix_first, 0});
}

TEST_CASE("an answer that changes nothing is worth nothing") {
    // it comes alike whatever the cause is
    const auto alike = worth_of(cheap_or_worn(), one_in_three, {{.3, .7}, {.3, .7}}, 600);
    CHECK(alike.value == 0);
    // it moves the ceiling to 900 at most, and 2000 is asked: walk away from every answer
    const auto dear = worth_of(cheap_or_worn(), one_in_three, good_or_bad, 2000);
    CHECK(dear.value == 0);
    CHECK(dear.answers[0].ceiling.amount > dear.before);
}

TEST_CASE("an answer that cannot come is not among them") {
    const auto worth = worth_of(cheap_or_worn(), one_in_three, {{.9, .1, 0}, {.4, .6, 0}}, 600);
    REQUIRE(worth.answers.size() == 2);
    CHECK(worth.answers[1].answer == 1);
    CHECK_FALSE(shares_after(one_in_three, {{1, 0}, {1, 0}}, 1));
}

TEST_CASE("seventeen ways to mend are refused") {
    TriageCase many{{}, {}, {1000, 100, 100, std::nullopt, 0, 0}};
    Shares shares;
    for (std::size_t way = 0; way < most_ways + 1; ++way)
        many.ways.push_back(at(10)), many.mends.emplace_back(way), shares.push_back(1.0 / 17);
    CHECK_THROWS_AS(ceiling_of(many, shares), Error);
}

// ---------------------------------------------------------------- what holds whatever the figures are

namespace {

struct Dealt {
    TriageCase one;
    Shares shares;
    Chances chances;
    std::optional<double> price;
};

std::vector<double> parts(std::mt19937_64& random, std::size_t count) {
    std::uniform_real_distribution<double> share(0, 1);
    std::vector<double> all(count);
    double sum = 0;
    for (auto& one : all) sum += one = random() % 5 == 0 ? 0 : share(random);
    if (sum == 0) all[0] = sum = 1;
    for (auto& one : all) one /= sum;
    return all;
}

Dealt dealt(std::mt19937_64& random) {
    const auto amount = [&](int least, int most) {
        return static_cast<double>(std::uniform_int_distribution<int>(least, most)(random));
    };
    Dealt made;
    const std::size_t ways = random() % 5, causes = 2 + random() % 4, answers = 2 + random() % 3;
    for (std::size_t way = 0; way < ways; ++way) made.one.ways.push_back(at(amount(0, 900)));
    for (std::size_t cause = 0; cause < causes; ++cause) {
        const auto way = random() % (ways + 1);
        made.one.mends.push_back(way < ways ? std::optional<std::size_t>(way) : std::nullopt);
        made.chances.push_back(parts(random, answers));
    }
    const double as_is = amount(0, 900);
    made.one.figures = {amount(800, 5000),  as_is,         random() % 2 == 0 ? as_is : as_is / 2, std::nullopt,
                        amount(0, 10) / 10, amount(0, 700)};
    if (random() % 3 != 0) made.one.figures.unit = amount(500, 4000);
    made.shares = parts(random, causes);
    if (random() % 3 != 0) made.price = amount(0, 4000);
    return made;
}

// Worked anew from the answers: the program shows no worth below nothing.
double worth_again(const QuestionWorth& worth, std::optional<double> price) {
    const double asked = price.value_or(std::max(worth.before, 0.0));
    double sum = 0;
    for (const auto& one : worth.answers) sum += one.chance * std::max(0.0, one.ceiling.amount - asked);
    return sum - std::max(0.0, worth.before - asked);
}

}  // namespace

TEST_CASE("no answer is worth less than nothing or more than to know the cause") {
    std::mt19937_64 random(20'261'129);
    int decided = 0;
    for (int i = 0; i < 4000; ++i) {
        const auto made = dealt(random);
        const auto worth = worth_of(made.one, made.shares, made.chances, made.price);
        const auto again = worth_again(worth, made.price);
        const auto knowing = worth_of_knowing(made.one, made.shares, made.price);
        INFO("deal " << i);
        CHECK(again >= -1e-6);
        CHECK(worth.value == Approx(std::max(again, 0.0)).margin(1e-6));
        CHECK(worth.value <= knowing + 1e-6);
        CHECK(ceiling_if_known(made.one, made.shares) >= worth.before - 1e-6);
        // A word is worth no more than what it speaks of, and less the less it is to be trusted.
        const double said = worth_of(made.one, made.shares, as_said(made.chances, .8), made.price).value;
        CHECK(said <= worth.value + 1e-6);
        CHECK(worth_of(made.one, made.shares, as_said(made.chances, 1.0 / static_cast<double>(made.chances[0].size())),
                       made.price)
                  .value == Approx(0).margin(1e-6));
        double chances = 0;
        for (const auto& one : worth.answers) chances += one.chance;
        CHECK(chances == Approx(1));
        decided += worth.value > 1;
    }
    CHECK(decided > 500);  // the deals are such that answers matter
}

TEST_CASE("with one way to mend the ceiling is that of decide") {
    std::mt19937_64 random(7);
    for (int i = 0; i < 300; ++i) {
        auto made = dealt(random);
        auto& f = made.one.figures;
        const double works = static_cast<double>(random() % 101) / 100, fix = static_cast<double>(random() % 900);
        f.unit = f.unit.value_or(3000);
        Deal deal;
        deal.purchase = at(made.price.value_or(0));
        deal.diagnosis = at(f.before);
        deal.cheap_fix = at(fix);
        deal.unit = at(*f.unit);
        deal.sale_running = at(f.sale);
        deal.sale_as_is = at(f.as_is);
        deal.sale_opened = at(f.opened);
        deal.works = {at(works), 0, 0};
        deal.reusable_share = f.reusable_share;
        const TriageCase one{{at(fix)}, {0, std::nullopt}, f};
        INFO("deal " << i);
        CHECK(ceiling_of(one, {works, 1 - works}).amount ==
              Approx(*decide(deal, {7, 2}).likely.bid_ceiling).margin(1e-6));
    }
}
