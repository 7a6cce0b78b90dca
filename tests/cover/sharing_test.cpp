// Who gets which piece: compared with trying every group of needs, and every way to deal, on small generated lots.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "core/cover/sharing.h"

using namespace casebound;

namespace {

struct Sample {
    std::vector<Lot> lots;
    std::vector<std::int64_t> held, wanted;

    explicit Sample(std::uint64_t seed) : random_(seed) {
        const int needs = 2 + below(4);
        for (int i = 0; i < needs; ++i) wanted.push_back(1 + below(4));
        for (int l = 1 + below(5); l > 0; --l) {
            Lot lot{lots.size(), 1 + below(3), {}};
            for (int i = 0; i < needs; ++i)
                if (below(2) == 0) lot.takers.push_back(static_cast<std::size_t>(i));
            if (lot.takers.empty()) lot.takers.push_back(0);
            held.push_back(lot.amount * below(4));
            lots.push_back(std::move(lot));
        }
    }

    bool enough_for(const NeedGroup& group) const {
        std::int64_t missing = 0;
        for (const std::size_t need : group) missing += wanted[need];
        for (std::size_t l = 0; l < lots.size(); ++l)
            if (std::any_of(lots[l].takers.begin(), lots[l].takers.end(), [&](std::size_t need) {
                    return std::find(group.begin(), group.end(), need) != group.end();
                }))
                missing -= held[l];
        return missing <= 0;
    }

private:
    int below(int n) { return static_cast<int>(random_() % static_cast<std::uint64_t>(n)); }
    std::mt19937_64 random_;
};

std::int64_t sum(const std::vector<std::int64_t>& amounts) {
    std::int64_t all = 0;
    for (const std::int64_t amount : amounts) all += amount;
    return all;
}

bool dealt(const Sample& sample, std::size_t lot, std::vector<std::int64_t> missing);

// Every way to deal what is left of the lot to its takers from `taker` on.
bool dealt_from(const Sample& sample, std::size_t lot, std::size_t taker, std::int64_t left,
                const std::vector<std::int64_t>& missing) {
    const auto& takers = sample.lots[lot].takers;
    if (taker == takers.size()) return dealt(sample, lot + 1, missing);
    for (std::int64_t gets = 0; gets <= std::min(left, missing[takers[taker]]); ++gets) {
        auto then = missing;
        then[takers[taker]] -= gets;
        if (dealt_from(sample, lot, taker + 1, left - gets, then)) return true;
    }
    return false;
}

bool dealt(const Sample& sample, std::size_t lot, std::vector<std::int64_t> missing) {
    return lot == sample.lots.size() ? sum(missing) == 0 : dealt_from(sample, lot, 0, sample.held[lot], missing);
}

}  // namespace

TEST_CASE("what is at hand covers the groups exactly when it can be dealt out, and then it is") {
    int enough = 0, short_of = 0;
    for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
        const Sample sample(seed);
        const auto groups = *groups_that_share(sample.lots, sample.wanted.size(), 100);
        const bool covered = std::all_of(groups.begin(), groups.end(),
                                         [&](const NeedGroup& group) { return sample.enough_for(group); });
        INFO("seed " << seed);
        REQUIRE(covered == dealt(sample, 0, sample.wanted));
        (covered ? enough : short_of) += 1;
        auto shares = shared_out(sample.lots, sample.held, sample.wanted);
        auto missing = sample.wanted;
        for (const LotShare& share : shares) missing[share.need] -= share.amount;
        REQUIRE(std::all_of(missing.begin(), missing.end(), [](std::int64_t amount) { return amount >= 0; }));
        REQUIRE((sum(missing) == 0) == covered);
        give_the_rest(shares, sample.lots, sample.held);
        auto left = sample.held;
        for (const LotShare& share : shares) left[share.lot] -= share.amount;
        CHECK(std::count(left.begin(), left.end(), 0) == static_cast<std::ptrdiff_t>(left.size()));
    }
    CHECK(enough > 300);
    CHECK(short_of > 300);
}

TEST_CASE("without sharing every need is a group, and those alike are one") {
    const std::vector<Lot> own{{0, 1, {0}}, {1, 1, {1}}};
    CHECK(*groups_that_share(own, 3, 100) == std::vector<NeedGroup>{{0}, {1}, {2}});
    CHECK(alike(own, 4) == std::vector<std::size_t>{0, 1, 2, 3});
    const std::vector<Lot> same{{0, 1, {0, 2}}, {1, 1, {0, 2}}, {2, 1, {1}}};
    CHECK(alike(same, 3) == std::vector<std::size_t>{0, 1, 0});
    CHECK(*groups_that_share(same, 3, 100) == std::vector<NeedGroup>{{0, 2}, {1}});
}

TEST_CASE("a pack of three is dealt to two places in every way that gives all of it; five litres are not dealt") {
    const std::vector<Lot> three{{0, 3, {0, 1}}, {0, 1, {2}}};
    const auto ways = *ways_to_deal(three, {2, 2, 1}, 1, 24);
    REQUIRE(ways.size() == 2);
    for (const auto& way : ways) CHECK(way.size() == 3);
    CHECK_FALSE(ways_to_deal(three, {2, 2, 1}, 1, 1));
    CHECK(ways_to_deal(three, {2, 1, 1}, 1, 24)->size() == 1);
    CHECK_FALSE(ways_to_deal({{0, 50, {0, 1}}}, {34, 15}, 10, 24));
}

TEST_CASE("more groups than are allowed are refused") {
    std::vector<Lot> lots;
    for (std::size_t i = 0; i < 12; ++i) {
        lots.push_back({i, 1, {i}});
        lots.push_back({i, 1, {i, 12}});
    }
    CHECK_FALSE(groups_that_share(lots, 13, 1000));
    CHECK(groups_that_share(lots, 13, 10'000));
}
