// The search behind an order: its bound, its guesses, its tie-break and its end. Problems are generated; the
// optimum they are measured by is compared with another solver in purchase_outside_test.cpp.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "core/cover/cover_guess.h"
#include "core/cover/cover_search.h"
#include "core/cover/purchase_model.h"
#include "tests/cover/purchase_instances.h"
#include "tests/refusal.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

struct Generated {
    PurchaseInstance made;
    PurchaseModel model;
    Generated(std::uint64_t seed, int lines, int offers, int sellers)
        : made(PurchaseGenerator(seed).make(lines, offers, sellers)), model(made.needs, made.market, {}) {}
};

std::int64_t below(std::mt19937_64& random, std::int64_t n) {
    return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(n));
}

}  // namespace

TEST_CASE("any prices of the needs give a bound that no order goes below") {
    std::mt19937_64 random(5);
    int near = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Generated one(seed, 6, 22, 3);
        const CoverProblem& problem = one.model.problem();
        const auto best = cheapest_cover(problem);
        if (!best.found) continue;
        const FineCosts costs(problem);
        CoverBound bound(problem, costs);
        const CoverState root(problem);
        bound.look_at(root);
        CoverPrices prices = bound.first_prices();
        bound.raise(prices, costs.fine(best.cost), 100, 1);
        near += costs.whole(bound.at(prices)) > best.cost * 8 / 10;
        for (int trial = 0; trial < 50; ++trial) {
            CoverPrices some = prices;
            for (auto& price : some)
                price = price * below(random, 300) / 100 + (below(random, 4) == 0 ? below(random, costs.fine(500)) : 0);
            INFO("seed " << seed);
            CHECK(costs.whole(bound.at(some)) <= best.cost);
        }
    }
    CHECK(near > 30);  // and it is of use
}

TEST_CASE("the bound of an order half taken does not rule out how the cheapest one goes on") {
    std::mt19937_64 random(6);
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Generated one(seed, 6, 22, 3);
        const CoverProblem& problem = one.model.problem();
        const auto best = cheapest_cover(problem);
        if (!best.found) continue;
        const FineCosts costs(problem);
        CoverBound bound(problem, costs);
        CoverState state(problem);
        for (std::size_t j = 0; j < best.packs.size(); ++j)
            if (best.packs[j] > 0 && below(random, 2) == 0) state.take(problem, costs, j);
        bound.look_at(state);
        CHECK_FALSE(bound.hopeless());
        CoverPrices prices = bound.first_prices();
        INFO("seed " << seed);
        CHECK(costs.whole(bound.raise(prices, costs.fine(best.cost + 1), 60, 1)) <= best.cost);
        for (const auto& candidate : bound.candidates()) {
            const bool taken_next = best.packs[candidate.column] > state.packs[candidate.column];
            if (taken_next) CHECK(costs.whole(bound.with(candidate)) <= best.cost);
        }
    }
}

TEST_CASE("an order is never guessed dearer than it turns out") {
    int without_padding = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const Generated one(seed, 8, 30, 4);
        const CoverProblem& problem = one.model.problem();
        const FineCosts costs(problem);
        CoverGuess guess(problem, costs);
        CoverBound bound(problem, costs);
        const std::vector<char> open(problem.sellers.size(), 1);
        const auto packs = guess.complete(CoverState(problem), bound.first_prices(), open);
        if (!packs) continue;
        const auto better = guess.bettered(*packs, open);
        CHECK(guess.roughly(better) <= guess.roughly(*packs));
        const auto really = settled(problem, costs, better, FineCosts::impossible);
        if (!really) continue;
        CHECK(guess.roughly(better) <= really->cost);
        if (std::all_of(really->padding.begin(), really->padding.end(), [](int extra) { return extra == 0; })) {
            CHECK(guess.roughly(better) >= really->cost - costs.fine(problem.cost_per_cent * 2000));
            ++without_padding;
        }
    }
    CHECK(without_padding > 20);
}

TEST_CASE("carriage, or goods up to the threshold or the minimum, whichever is least") {
    const CoverSeller seller{600, 5000, 1000, true};
    const auto extra = [&](std::int64_t goods) { return least_extra(seller, 600, 1, goods); };
    CHECK(extra(900) == 700);  // 100 to the minimum, and carriage
    CHECK(extra(1000) == 600);
    CHECK(extra(4400) == 600);
    CHECK(extra(4401) == 599);  // filled up to the threshold
    CHECK(extra(5000) == 0);
    const CoverSeller low_threshold{600, 500, 1000, true}, never_free{600, never_free_cents, 1000, true};
    CHECK(least_extra(low_threshold, 600, 1, 400) == 600);  // the minimum is above the threshold
    CHECK(least_extra(low_threshold, 600, 1, 800) == 200);
    CHECK(least_extra(low_threshold, 600, 2, 800) == 400);
    CHECK(least_extra(never_free, 600, 1, 9000) == 600);
}

TEST_CASE("a search that is stopped early still gives an order, and how much too dear it may be") {
    const Generated one(1002, 30, 200, 8);
    CoverProblem problem = one.model.problem();
    const auto whole = cheapest_cover(problem);
    CHECK(whole.proven);
    CHECK(whole.at_least == whole.cost);
    problem.most_nodes = 3;
    const auto stopped = cheapest_cover(problem);
    CHECK_FALSE(stopped.proven);
    CHECK(stopped.nodes == 3);
    CHECK(stopped.at_least <= whole.cost);
    CHECK(stopped.cost >= whole.cost);
    CHECK(stopped.cost <= whole.cost * 11 / 10);
}

TEST_CASE("only what is cheaper than asked is found") {
    const Generated one(3, 6, 22, 3);
    const auto best = cheapest_cover(one.model.problem());
    REQUIRE(best.found);
    CHECK_FALSE(cheapest_cover(one.model.problem(), best.cost).found);
    CHECK(cheapest_cover(one.model.problem(), best.cost + 1).cost == best.cost);
}

TEST_CASE("fifteen lines and thirty lines are proven in a few thousand nodes") {
    for (std::uint64_t seed = 1000; seed < 1010; ++seed) {
        const auto answer = cheapest_cover(Generated(seed, 15, 60, 5).model.problem());
        CHECK(answer.proven);
        CHECK(answer.nodes < 5000);
    }
    CHECK(cheapest_cover(Generated(1001, 30, 200, 8).model.problem()).nodes < 5000);
}

TEST_CASE("columns of one offer share its packs") {
    CoverProblem problem;
    problem.needs = {1, 1};
    problem.sellers.resize(1);
    problem.offers = {{0, 100, 1}, {0, 500}};
    problem.columns = {{0, 100, {{0, 1}}}, {0, 100, {{1, 1}}}, {1, 500, {{0, 1}}}, {1, 500, {{1, 1}}}};
    CHECK(cheapest_cover(problem).cost == 600);
    problem.offers[0].available = 2;
    CHECK(cheapest_cover(problem).cost == 200);
}

TEST_CASE("a column that does not count reaches no threshold") {
    CoverProblem problem;
    problem.needs = {1};
    problem.sellers = {{300, 1000, 0, true}};
    problem.offers = {{0, 1000}};
    problem.columns = {{0, 1000, {{0, 1}}}};
    CHECK(cheapest_cover(problem).cost == 1000);
    problem.columns.front().counts = false;
    CHECK(cheapest_cover(problem).cost == 1300);
}

TEST_CASE("amounts that cannot be counted are refused") {
    CoverProblem problem;
    problem.needs = {1};
    problem.sellers.resize(1);
    problem.offers = {{0, 100}};
    problem.columns = {{0, 100, {{0, 1}}}};
    const auto refused = [&] { return refusal([&] { cheapest_cover(problem); }); };
    problem.columns.front().cost = -1;
    CHECK(refused().exit == Exit::bad_data);
    problem.columns.front().cost = std::int64_t{1} << 60;
    CHECK_THAT(refused().text, Contains("too large to be counted exactly"));
    problem.columns.front().cost = 100;
    problem.columns.front().gives.front().amount = 0;
    CHECK(refused().exit == Exit::bad_data);
    problem.columns.front().gives.front().amount = 1;
    problem.sellers.front().carriage_cents = -5;
    CHECK(refused().exit == Exit::bad_data);
}
