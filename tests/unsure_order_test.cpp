// What to order while more than one configuration is possible. Items and prices are invented; figures are worked
// by hand, and the order that is right in every configuration also against glpsol (GLPK).
#include <catch2/catch.hpp>

#include <cmath>

#include "core/unsure_order.h"
#include "glpsol_run.h"
#include "purchase_instances.h"
#include "purchase_mip.h"
#include "refusal.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

Need need(std::string line, std::string item) { return {std::move(line), 1, "each", {{std::move(item)}}}; }

// Shallow pan 70 %, deep pan 30 %: another filter, the same gasket.
const std::vector<Possibility> two_pans{{"shallow pan", 0.7, {need("filter", "33 mm"), need("gasket", "gasket")}},
                                        {"deep pan", 0.3, {need("filter", "52 mm"), need("gasket", "gasket")}}};

Offer offer(std::string item, std::int64_t cents, double fee) {
    Offer made{"North", std::move(item), cents};
    made.returnable = true;
    made.return_fee = fee;
    return made;
}

Market shop() { return {{offer("33 mm", 3000, 0.2), offer("52 mm", 3600, 0.2), offer("gasket", 1200, 0.2)}, {{"North", 800}}}; }

const Outcome& outcome(const UnsurePlan& plan, const std::string& name) {
    for (const auto& one : plan.outcomes)
        if (one.name == name) return one;
    FAIL("no outcome " << name);
    return plan.outcomes.front();
}

}  // namespace

TEST_CASE("three prices: find out first, order for the most likely, right in every one") {
    const auto advice = order_while_unsure(two_pans, shop(), {500, 0});
    CHECK(advice.find_out_first.expected_cents == 5680);  // .7 * 50 + .3 * 56 + 5
    CHECK(advice.most_likely.expected_cents == 5600);     // .7 * 50 + .3 * (50 + 44 - 24)
    CHECK(advice.right_in_every.expected_cents == 5864);  // .7 * (86 - 28.80) + .3 * (86 - 24)
    CHECK(advice.likely == "shallow pan");
    CHECK(advice.chance_wrong == Approx(0.3));
    CHECK(advice.cost_of_being_wrong_cents == 5600 - 5180);
    CHECK(advice.cheapest == UnsureChoice::most_likely);
    CHECK(advice.because == "expected: find out first 56.80, order for the most likely 56.00, right in every one 58.64");
}

TEST_CASE("a wait for the second order is counted, and finding out that costs nothing is always cheapest") {
    const auto waiting = order_while_unsure(two_pans, shop(), {500, 1000});
    CHECK(waiting.most_likely.expected_cents == 5900);
    CHECK(waiting.cheapest == UnsureChoice::find_out_first);
    CHECK(order_while_unsure(two_pans, shop(), {0, 0}).cheapest == UnsureChoice::find_out_first);
    CHECK(order_while_unsure(two_pans, shop(), {9000, 9000}).cheapest == UnsureChoice::right_in_every);
}

TEST_CASE("when the order was wrong, what helps is kept, the rest goes back, and what is missing is bought") {
    const auto advice = order_while_unsure(two_pans, shop(), {});
    const auto& deep = outcome(advice.most_likely, "deep pan");
    REQUIRE(deep.more);
    CHECK(deep.more->total_cents == 4400);
    REQUIRE(deep.more->sellers.size() == 1);
    CHECK(deep.more->sellers.front().lines.size() == 1);  // the gasket is there already
    REQUIRE(deep.sent_back.size() == 1);
    CHECK(deep.sent_back.front().item == "33 mm");
    CHECK(deep.refund_cents == 2400);
    CHECK(deep.total_cents == 7000);
    CHECK(advice.most_likely.worst_cents == 7000);
    CHECK(outcome(advice.most_likely, "shallow pan").total_cents == 5000);
}

TEST_CASE("what cannot go back is lost") {
    auto market = shop();
    for (auto& one : market.offers) one.returnable = false;
    const auto advice = order_while_unsure(two_pans, market, {});
    CHECK(advice.right_in_every.expected_cents == 8600);
    CHECK(outcome(advice.most_likely, "deep pan").total_cents == 9400);
    for (const auto* plan : {&advice.most_likely, &advice.right_in_every}) {
        CHECK(outcome(*plan, "deep pan").sent_back.empty());
        REQUIRE(outcome(*plan, "deep pan").left_over.size() == 1);
        CHECK(outcome(*plan, "deep pan").left_over.front().item == "33 mm");
    }
}

TEST_CASE("one item that is right in every configuration is found, even where it is dearer") {
    auto possible = two_pans;
    auto market = shop();
    for (auto& one : possible) one.needs.front().served_by.push_back({"either depth"});
    market.offers.push_back(offer("either depth", 3800, 0.2));
    const auto advice = order_while_unsure(possible, market, {2000, 2000});
    CHECK(advice.right_in_every.expected_cents == 5800);  // 38 + 12 + 8, nothing goes back; two filters 58.64
    CHECK(advice.right_in_every.order->sellers.front().lines.size() == 2);
    CHECK(advice.right_in_every.worst_cents == 5800);
}

TEST_CASE("own stock goes back on the shelf without loss") {
    auto market = shop();
    market.sellers.push_back({"shelf", 0, {}, 0, true});
    market.offers.push_back({"shelf", "52 mm", 1000});
    market.offers.back().available = 1;
    const auto advice = order_while_unsure(two_pans, market, {});
    CHECK(outcome(advice.right_in_every, "shallow pan").refund_cents == 1000);
    CHECK(advice.right_in_every.expected_cents == static_cast<std::int64_t>(0.7 * 5000 + 0.3 * (6000 - 2400)));
}

TEST_CASE("a line of the order says which lines it serves, once") {
    const auto advice = order_while_unsure(two_pans, shop(), {});
    for (const auto& line : advice.right_in_every.order->sellers.front().lines) CHECK(line.serves.size() == 1);
    CHECK(advice.right_in_every.order->bought.size() == 4);  // two lines in two configurations
}

TEST_CASE("possibilities with the same needs are one, and shares need not add up to 1") {
    auto possible = two_pans;
    possible.push_back({"shallow pan, other market", 1.4, two_pans.front().needs});
    possible.push_back({"ruled out", 0, {need("filter", "nothing")}});
    const auto advice = order_while_unsure(possible, shop(), {});
    REQUIRE(advice.most_likely.outcomes.size() == 2);
    CHECK(advice.likely == "shallow pan, shallow pan, other market");
    CHECK(outcome(advice.most_likely, advice.likely).share == Approx(2.1 / 2.4));
}

TEST_CASE("when one possibility cannot be covered, that is said and nothing is recommended on hope") {
    auto market = shop();
    market.offers.erase(market.offers.begin() + 1);
    const auto advice = order_while_unsure(two_pans, market, {});
    CHECK_FALSE(advice.find_out_first.possible());
    CHECK_FALSE(advice.right_in_every.possible());
    CHECK(advice.because == "deep pan: cannot be covered: filter");
}

TEST_CASE("without doubt the three orders are the same") {
    const auto advice = order_while_unsure({two_pans.front()}, shop(), {});
    CHECK(advice.find_out_first.expected_cents == 5000);
    CHECK(advice.most_likely.expected_cents == 5000);
    CHECK(advice.right_in_every.expected_cents == 5000);
    CHECK(advice.chance_wrong == 0);
}

TEST_CASE("nothing possible, a share below zero and a seller's name that is taken are refused") {
    CHECK_THAT(refusal([] { order_while_unsure({}, shop(), {}); }).text, Contains("nothing is possible: tell what the vehicle may be"));
    CHECK_THAT(refusal([] { order_while_unsure({{"x", -1, {}}}, shop(), {}); }).text, Contains("share -1: give 0 or more"));
    auto market = shop();
    market.sellers.push_back({"already ordered"});
    CHECK_THAT(refusal([&] { order_while_unsure(two_pans, market, {}); }).text, Contains("this name is taken"));
}

namespace {

std::int64_t refund(const Offer& one) {
    return one.returnable ? std::llround(static_cast<double>(one.pack_cents) * (1 - one.return_fee)) : 0;
}

// Expected cost in ten-thousandths of a cent: x bought to be kept, v to be kept in some possibilities, k in which.
Mip unsure_mip(const std::vector<Possibility>& possible, const Market& market) {
    constexpr double enough = 60;
    Mip mip;
    std::vector<std::vector<Mip::Row>> needs(possible.size());
    std::vector<int> stays, goes;
    for (std::size_t p = 0; p < possible.size(); ++p)
        for (const auto& one : possible[p].needs) needs[p].push_back({{}, one.quantity});
    for (const auto& one : market.offers) {
        const double most = std::min<double>(enough, one.available);
        stays.push_back(mip.add(1e4 * static_cast<double>(one.pack_cents), most));
        goes.push_back(mip.add(1e4 * static_cast<double>(one.pack_cents - refund(one)), most));
        mip.rows.push_back({{{stays.back(), -1}, {goes.back(), -1}}, -most});
        for (std::size_t p = 0; p < possible.size(); ++p) {
            const int kept = mip.add(std::round(1e4 * possible[p].share) * static_cast<double>(refund(one)), most);
            mip.rows.push_back({{{goes.back(), 1}, {kept, -1}}, 0});
            for (std::size_t i = 0; i < possible[p].needs.size(); ++i) {
                const double gives = given_by(possible[p].needs[i], one);
                if (gives > 0) needs[p][i].terms.insert(needs[p][i].terms.end(), {{stays.back(), gives}, {kept, gives}});
            }
        }
    }
    for (const auto& rows : needs) mip.rows.insert(mip.rows.end(), rows.begin(), rows.end());
    for (const auto& seller : market.sellers) {
        const double carriage = 1e4 * static_cast<double>(seller.carriage_cents);
        const int open = mip.add(carriage, 1), free = mip.add(-carriage, seller.free_from_cents ? 1 : 0);
        Mip::Row threshold{{{free, -static_cast<double>(seller.free_from_cents.value_or(0))}}, 0},
            minimum{{{open, -static_cast<double>(seller.minimum_cents)}}, 0};
        for (std::size_t o = 0; o < stays.size(); ++o) {
            if (market.offers[o].seller != seller.name) continue;
            threshold.terms.emplace_back(stays[o], static_cast<double>(market.offers[o].pack_cents));
            minimum.terms.emplace_back(stays[o], static_cast<double>(market.offers[o].pack_cents));
            mip.rows.push_back({{{open, 2 * enough}, {stays[o], -1}, {goes[o], -1}}, 0});
        }
        mip.rows.insert(mip.rows.end(), {{{{open, 1}, {free, -1}}, 0}, threshold, minimum});
    }
    return mip;
}

// Two or three configurations that share lines and differ in which of their items serve.
std::vector<Possibility> possibilities(PurchaseGenerator& generator, const std::vector<Need>& needs) {
    std::vector<Possibility> possible{{"a", 0.5, needs}, {"b", 0.3, needs}};
    if (generator.below(2) == 0) possible.push_back({"c", 0.2, needs});
    else possible.front().share = 0.7;
    for (auto& one : possible)
        for (auto& line : one.needs)
            if (generator.below(2) == 0 && line.served_by.size() > 1)
                line.served_by.erase(line.served_by.begin() + generator.below(static_cast<int>(line.served_by.size())));
    return possible;
}

}  // namespace

TEST_CASE("150 generated orders that are right in every configuration cost what an independent solver says") {
    const ScratchFolder folder;
    int compared = 0, sent_back = 0;
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        PurchaseGenerator generator(seed);
        auto made = generator.make(generator.between(2, 4), generator.between(5, 11), generator.between(1, 3));
        for (auto& one : made.market.offers) {
            one.returnable = generator.below(4) > 0;
            one.return_fee = generator.below(5) * 0.05;
        }
        const auto possible = possibilities(generator, made.needs);
        const auto advice = order_while_unsure(possible, made.market, {});
        const auto theirs = glpsol_optimum(folder, lp_text(unsure_mip(possible, made.market)));
        INFO("seed " << seed << ": " << advice.right_in_every.reason);
        REQUIRE(advice.right_in_every.possible() == theirs.has_value());
        if (!theirs) continue;
        ++compared;
        for (const auto& one : advice.right_in_every.outcomes) sent_back += !one.sent_back.empty();
        CHECK(advice.right_in_every.proven);
        CHECK(advice.right_in_every.expected_cents == Approx(*theirs / 1e4).margin(0.51));
    }
    CHECK(compared > 100);
    CHECK(sent_back > 50);
}
