// Quantity and containers. Allowances, spill and reserve: common practice, no source;
// worked figures derived; prices invented.
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>

#include "plugins/transmission_fluids/science/quantity.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

namespace {

using Counts = std::vector<int>;

// 1 L 9.50, 4 L 32, 5 L 38, 20 L 130 (invented prices).
const std::vector<Container> shelf{{1, 950}, {4, 3200}, {5, 3800}, {20, 13000}};

double ready_l(int changes) { return have_ready_l({CapacityKind::measured_drain, 4.7, changes, 0.03, 0.3}); }

struct Best {
    std::int64_t net = std::numeric_limits<std::int64_t>::max();
    std::int64_t volume_nl = 0;
};

// The plainest possible search, to compare with. worth in hundredths per litre.
void try_all(const std::vector<Container>& containers, std::size_t i, std::int64_t volume_nl, std::int64_t cost,
             std::int64_t need_nl, LeftoverWorth worth, Best& best) {
    if (i == containers.size()) {
        if (volume_nl < need_nl) return;
        const auto usable = std::llround(worth.usable_l * 1e9);
        const auto net = cost * 1'000'000'000 -
                         worth.hundredths_per_l * std::min<std::int64_t>(volume_nl - need_nl, usable);
        if (net < best.net || (net == best.net && volume_nl < best.volume_nl)) best = {net, volume_nl};
        return;
    }
    const auto size = std::llround(containers[i].size_l * 1e9);
    const auto enough = need_nl + std::llround(worth.usable_l * 1e9);
    const int most = containers[i].at_most.value_or(1000);
    for (int n = 0; n <= most; ++n) {
        try_all(containers, i + 1, volume_nl + n * size, cost + n * containers[i].price_hundredths, need_nl, worth,
                best);
        if (volume_nl + n * size >= enough) break;
    }
}

}  // namespace

TEST_CASE("4.7 L drained needs 5.14, 9.98 and 14.82 L for one, two and three changes") {
    CHECK(ready_l(1) == Approx(5.14).margin(0.005));
    CHECK(ready_l(2) == Approx(9.98).margin(0.005));
    CHECK(ready_l(3) == Approx(14.82).margin(0.005));
}

TEST_CASE("filter and cooler are filled once, whatever the number of changes") {
    DrainAndFill job{CapacityKind::service_refill, 4, 3, 0.05, 0.5, 0.8};
    CHECK(have_ready_l(job) == Approx(3 * 4 * 1.05 + 0.5 + 0.8));
}

TEST_CASE("a dry fill is refused for a drain-and-fill") {
    CHECK_THROWS_WITH(have_ready_l({CapacityKind::dry_fill, 9, 1}),
                      Contains("capacity for a drain-and-fill: got a dry fill"));
    CHECK(have_ready_for_unit_l(9, 1) == Approx(10.5));
}

TEST_CASE("the cheapest packs for 5.14, 9.98 and 14.82 L are 1+5, 5+5 and 3 x 5") {
    const auto one = choose_containers(ready_l(1), shelf);
    REQUIRE(one);
    CHECK(one->cheapest.counts == Counts{1, 0, 1, 0});
    CHECK(one->cheapest.price_hundredths == 4750);
    CHECK(one->cheapest.bought_l == 6);
    CHECK_FALSE(one->reserve_too_small);
    CHECK_FALSE(one->with_reserve);

    const auto two = choose_containers(ready_l(2), shelf);
    CHECK(two->cheapest.counts == Counts{0, 0, 2, 0});
    CHECK(two->cheapest.price_hundredths == 7600);
    CHECK(two->cheapest.leftover_l == Approx(0.02).margin(0.005));

    const auto three = choose_containers(ready_l(3), shelf);
    CHECK(three->cheapest.counts == Counts{0, 0, 3, 0});
    CHECK(three->cheapest.price_hundredths == 11400);
    CHECK(three->cheapest.leftover_l == Approx(0.18).margin(0.005));
}

TEST_CASE("a purchase without reserve says so and names the packs that keep one") {
    const auto two = choose_containers(ready_l(2), shelf);
    CHECK(two->reserve_too_small);
    REQUIRE(two->with_reserve);
    CHECK(two->with_reserve->counts == Counts{1, 0, 2, 0});  // add 1 L: 11 L
    CHECK(two->with_reserve->bought_l == 11);
    CHECK(two->with_reserve->price_hundredths == 8550);
    CHECK(choose_containers(ready_l(3), shelf)->reserve_too_small);
    CHECK_FALSE(choose_containers(ready_l(2), shelf, 0)->reserve_too_small);
    CHECK_FALSE(choose_containers(4.75, shelf, 0.25)->reserve_too_small);
    CHECK(choose_containers(4.76, shelf, 0.25)->reserve_too_small);
}

TEST_CASE("a need met to the last drop is met, and one nanolitre more is not") {
    CHECK(choose_containers(5, shelf)->cheapest.counts == Counts{0, 0, 1, 0});
    CHECK(choose_containers(0.1 + 0.2 + 4.7, shelf)->cheapest.counts == Counts{0, 0, 1, 0});
    CHECK(choose_containers(5.000000001, shelf)->cheapest.counts == Counts{1, 0, 1, 0});
}

TEST_CASE("of two purchases at one price the one with less left over is taken") {
    const auto advice = choose_containers(3.5, {{5, 2000}, {4, 2000}});
    CHECK(advice->cheapest.counts == Counts{0, 1});
    const auto fewer = choose_containers(4, {{1, 500}, {2, 1000}, {4, 2000}});
    CHECK(fewer->cheapest.counts == Counts{0, 0, 1});
    const auto first = choose_containers(4, {{1, 500}, {2, 1000}, {3, 1500}});
    CHECK(first->cheapest.counts == Counts{1, 0, 1});  // as many containers as 2 + 2
}

TEST_CASE("leftover fluid that will be used again can make the larger pack the better buy") {
    const auto wasted = choose_containers(ready_l(3), shelf, 0);
    CHECK(wasted->cheapest.counts == Counts{0, 0, 3, 0});
    const auto used = choose_containers(ready_l(3), shelf, 0, {500, 10});
    CHECK(used->cheapest.counts == Counts{0, 0, 0, 1});  // 130 - 5 x 5.18 = 104.1 < 114 - 0.9
    CHECK(used->cheapest.leftover_worth_hundredths == Approx(500 * (20 - 14.823)));
    const auto little = choose_containers(ready_l(3), shelf, 0, {500, 1});
    CHECK(little->cheapest.counts == Counts{0, 0, 3, 0});
}

TEST_CASE("own stock is used first but has an end") {
    const std::vector<Container> stock{{1, 0, 2}, {5, 3800, std::nullopt}, {1, 950, std::nullopt}};
    CHECK(choose_containers(5.14, stock, 0)->cheapest.counts == Counts{1, 1, 0});
    CHECK(choose_containers(3.5, stock, 0)->cheapest.counts == Counts{2, 0, 2});
}

TEST_CASE("packs that run out are an answer, not an error") {
    CHECK_FALSE(choose_containers(5, {{1, 950, 3}}));
    const auto just = choose_containers(3, {{1, 950, 3}});
    REQUIRE(just);
    CHECK(just->reserve_too_small);
    CHECK_FALSE(just->with_reserve);
}

TEST_CASE("US quarts and litres are compared exactly") {
    const double quart = 0.946352946;  // NIST Handbook 44, Appendix C
    CHECK(choose_containers(10 * quart, {{quart, 900}, {1, 950}}, 0)->cheapest.counts == Counts{10, 0});
    CHECK(choose_containers(10 * quart, {{quart, 960}, {1, 950}}, 0)->cheapest.counts == Counts{0, 10});
}

TEST_CASE("the chosen packs cost the same as the best of all combinations") {
    std::mt19937_64 random(46);
    std::uniform_real_distribution<double> need(0.2, 14);
    std::uniform_int_distribution<int> price(200, 1200), kinds(1, 4), size(1, 20), coin(0, 3);
    for (int i = 0; i < 400; ++i) {
        std::vector<Container> containers;
        for (int k = kinds(random); k > 0; --k) {
            const double size_l = size(random) * (coin(random) == 0 ? 0.473176473 : 0.5);
            Container container{size_l, std::llround(size_l * price(random)) + 1, std::nullopt};
            if (coin(random) == 0) container.at_most = coin(random) * 3;
            containers.push_back(container);
        }
        const double need_l = need(random);
        const LeftoverWorth worth{coin(random) == 0 ? price(random) / 2 : 0, coin(random) * 1.5};
        CAPTURE(i, need_l, worth.hundredths_per_l, worth.usable_l);
        Best best;
        try_all(containers, 0, 0, 0, std::llround(need_l * 1e9), worth, best);
        const auto advice = choose_containers(need_l, containers, 0, worth);
        REQUIRE(advice.has_value() == (best.net != std::numeric_limits<std::int64_t>::max()));
        if (!advice) continue;
        const auto& chosen = advice->cheapest;
        CHECK(chosen.bought_l == Approx(static_cast<double>(best.volume_nl) / 1e9).margin(1e-9));
        CHECK(static_cast<double>(chosen.price_hundredths) - chosen.leftover_worth_hundredths ==
              Approx(static_cast<double>(best.net) / 1e9).margin(1e-6));
        double volume_l = 0;
        std::int64_t cost = 0;
        for (std::size_t k = 0; k < containers.size(); ++k) {
            volume_l += chosen.counts[k] * containers[k].size_l;
            cost += chosen.counts[k] * containers[k].price_hundredths;
            CHECK(chosen.counts[k] <= containers[k].at_most.value_or(100000));
        }
        CHECK(volume_l == Approx(chosen.bought_l).margin(1e-6));
        CHECK(cost == chosen.price_hundredths);
        CHECK(volume_l >= need_l - 1e-6);
    }
}

TEST_CASE("a large need from many pack sizes is still solved") {
    const std::vector<Container> many{{0.473176473, 560},  {0.5, 570}, {0.946352946, 930}, {1, 950},
                                      {3.785411784, 3100}, {4, 3200},  {5, 3800},          {18.927, 12500},
                                      {20, 13000},         {60, 37000}};
    const auto advice = choose_containers(97.3, many);
    REQUIRE(advice);
    CHECK(advice->cheapest.bought_l >= 97.3);
    CHECK(advice->cheapest.price_hundredths < 2 * 37000);
}

TEST_CASE("offers that combine in too many ways are refused instead of guessed at") {
    std::vector<Container> free_and_odd;
    for (int i = 0; i < 12; ++i) free_and_odd.push_back({0.1 + 0.00137 * i * i, 0, 900});
    CHECK_THROWS_WITH(choose_containers(100, free_and_odd),
                      Contains("more than 400000 ways to combine them: valid range is fewer"));
}

TEST_CASE("offers and needs out of range are refused") {
    CHECK_THROWS_WITH(choose_containers(0, shelf), "volume needed: got 0 L: valid range is more than 0 to 100 L");
    CHECK_THROWS_WITH(choose_containers(5, {}), "number of pack sizes offered: got 0: valid range is 1 to 12");
    CHECK_THROWS_WITH(choose_containers(5, {{0.05, 100}}), "pack size: got 0.05 L: valid range is 0.1 to 250 L");
    CHECK_THROWS_WITH(choose_containers(5, {{1, -1}}), Contains("pack price: got -1"));
    CHECK_THROWS_WITH(choose_containers(5, {{1, 0}}), Contains("own stock has an end"));
    CHECK_THROWS_AS(choose_containers(std::nan(""), shelf), std::domain_error);
    CHECK_THROWS_WITH(choose_containers(5, shelf, -1), Contains("reserve: got -1 L"));
    CHECK_THROWS_WITH(have_ready_l({CapacityKind::measured_drain, 4.7, 0}),
                      Contains("number of changes: got 0: valid range is 1 to 20"));
    CHECK_THROWS_WITH(have_ready_l({CapacityKind::measured_drain, 4.7, 1, 0.5}),
                      "allowance: got 0.5: valid range is 0 to 0.25");
}
