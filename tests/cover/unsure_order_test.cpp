// What to order while more than one configuration is possible. Items and prices are invented; figures are worked
// by hand, and the order that is right in every configuration also against glpsol (GLPK).
#include <catch2/catch.hpp>

#include <cmath>
#include <map>

#include "core/cover/unsure_order.h"
#include "tests/cover/glpsol_run.h"
#include "tests/cover/purchase_instances.h"
#include "tests/cover/purchase_mip.h"
#include "tests/refusal.h"

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

Market shop() {
    return {{offer("33 mm", 3000, 0.2), offer("52 mm", 3600, 0.2), offer("gasket", 1200, 0.2)}, {{"North", 800}}};
}

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
    CHECK(advice.because ==
          "expected: find out first 56.80, order for the most likely 56.00, right in every one 58.64");
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

TEST_CASE("what was taken from the own shelf is gone, and a second order cannot take it again") {
    auto market = shop();
    market.sellers.push_back({"shelf", 0, {}, 0, true});
    market.offers.push_back({"shelf", "gasket", 0});
    market.offers.back().available = 1;
    auto possible = two_pans;
    possible.back().needs.back().quantity = 2;  // the deep pan has two gaskets
    const auto advice = order_while_unsure(possible, market, {});
    CHECK(outcome(advice.most_likely, "shallow pan").total_cents == 3800);
    const auto& deep = outcome(advice.most_likely, "deep pan");
    CHECK(deep.total_cents ==
          3800 + 3600 + 1200 + 800 - 2400);  // the other filter and the second gasket, with their carriage
    REQUIRE(deep.more);
    CHECK(deep.more->goods_cents == 4800);
    CHECK(outcome(advice.find_out_first, "deep pan").total_cents == 3600 + 1200 + 800);
    CHECK(outcome(advice.right_in_every, "deep pan").total_cents == 3000 + 3600 + 1200 + 800 - 2400);
}

TEST_CASE("when no second order could be placed, order for the most likely is not possible and says so") {
    Market market{{{"South", "mount", 5000, 1, 2}, {"South", "arm", 6000, 1, 1}}, {{"South", 0, {}, 10'000, false}}};
    market.offers.front().core_cents = 100;  // nobody buys one with a core charge only to reach the least order
    const std::vector<Possibility> possible{{"one side", 0.6, {need("mount", "mount"), need("arm", "arm")}},
                                            {"both sides", 0.4, {{"mount", 2, "each", {{"mount"}}}}}};
    const auto advice = order_while_unsure(possible, market, {});
    CHECK(advice.find_out_first.possible());
    CHECK(advice.most_likely.reason == "both sides: no second order can be placed from what is left on offer");
    CHECK_FALSE(advice.most_likely.order);
    CHECK_THAT(advice.because, Contains("order for the most likely not possible"));
}

TEST_CASE("what sending back costs is taken off the refund, and nobody sends back at a loss") {
    auto market = shop();
    for (auto& one : market.offers) one.return_carriage_cents = 500;
    const auto advice = order_while_unsure(two_pans, market, {});
    CHECK(outcome(advice.most_likely, "deep pan").refund_cents == 2400 - 500);
    for (auto& one : market.offers) one.return_carriage_cents = 2900;  // more than 80 % of either filter
    const auto dear = order_while_unsure(two_pans, market, {});
    CHECK(outcome(dear.most_likely, "deep pan").refund_cents == 0);
    REQUIRE(outcome(dear.most_likely, "deep pan").left_over.size() == 1);
    CHECK(outcome(dear.most_likely, "deep pan").left_over.front().item == "33 mm");
}

TEST_CASE("two specs never make up one quantity, in any of the three orders") {
    const auto fluid = [](double litres) {
        return Need{"fluid", litres, "L", {{"A 4 L", 4, "A"}, {"B 1 L", 1, "B"}, {"A 1 L", 1, "A"}}};
    };
    const Market market{{{"North", "A 4 L", 3000}, {"North", "B 1 L", 900}, {"North", "A 1 L", 1500}}, {{"North"}}};
    const auto advice = order_while_unsure({{"short", 0.5, {fluid(4)}}, {"long", 0.5, {fluid(5)}}}, market, {});
    CHECK(advice.find_out_first.expected_cents == 3750);                // 4 L of A at 30; 5 L of either at 45
    CHECK(outcome(advice.find_out_first, "long").total_cents == 4500);  // 4 L of A and 1 L of B would be 39
    CHECK(advice.right_in_every.expected_cents == 4500);
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
    CHECK_THAT(refusal([] { order_while_unsure({}, shop(), {}); }).text,
               Contains("nothing is possible: tell what the vehicle may be"));
    CHECK_THAT(refusal([] {
                   order_while_unsure({{"x", -1, {}}}, shop(), {});
               }).text,
               Contains("share -1: give 0 or more"));
    auto market = shop();
    market.sellers.push_back({"already ordered"});
    CHECK_THAT(refusal([&] { order_while_unsure(two_pans, market, {}); }).text, Contains("this name is taken"));
}

namespace {

std::int64_t refund(const Offer& one) {
    const auto paid_back = std::llround(static_cast<double>(one.pack_cents) * (1 - one.return_fee)) -
                           one.return_carriage_cents;
    return one.returnable.value_or(false) ? std::max<std::int64_t>(0, paid_back) : 0;
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
            add_gifts(mip, possible[p].needs, one, {{stays.back(), 1}, {kept, 1}}, needs[p]);
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

PurchaseInstance returnable_instance(PurchaseGenerator& generator) {
    auto made = generator.make(generator.between(2, 4), generator.between(5, 11), generator.between(1, 3));
    for (auto& one : made.market.offers) {
        one.returnable = generator.below(4) > 0;
        one.return_fee = generator.below(5) * 0.05;
        one.return_carriage_cents = generator.below(3) * 200;
    }
    generator.share(made, generator.below(4));
    return made;
}

// One or two packs of some of the items lie on the own shelf.
void add_shelf(PurchaseGenerator& generator, Market& market) {
    market.sellers.push_back({"shelf", 0, {}, 0, true});
    const auto offered = market.offers.size();
    for (std::size_t o = 0; o < offered; ++o) {
        if (generator.below(3) > 0) continue;
        const Offer from = market.offers[o];
        market.offers.push_back({"shelf", from.item, 0, from.pack_quantity, generator.between(1, 2)});
    }
}

std::map<std::size_t, std::pair<int, int>> in_first_order(const Order& order) {  // by offer: packs, of these padding
    std::map<std::size_t, std::pair<int, int>> packs;
    for (const auto& seller : order.sellers)
        for (const auto& line : seller.lines) packs[line.offer] = {line.packs, line.padding};
    return packs;
}

// The second order after `first`, in cents less all that could go back: n bought new, k kept of what may go back,
// p of the padding, which cannot.
Mip second_order_mip(const std::vector<Need>& needs, const Market& market, const Order& first) {
    constexpr double enough = 60;
    Mip mip;
    const auto had = in_first_order(first);
    std::vector<Mip::Row> rows;
    for (const auto& need : needs) rows.push_back({{}, need.quantity});
    std::vector<int> bought;
    for (std::size_t o = 0; o < market.offers.size(); ++o) {
        const auto& one = market.offers[o];
        const auto [packs, padding] = had.count(o) ? had.at(o) : std::pair(0, 0);
        bought.push_back(
            mip.add(static_cast<double>(one.pack_cents),
                    std::min<double>(enough, one.available - (one.available < unlimited_packs ? packs : 0))));
        const int kept = mip.add(static_cast<double>(refund(one)), packs - padding), spare = mip.add(0, padding);
        add_gifts(mip, needs, one, {{bought.back(), 1}, {kept, 1}, {spare, 1}}, rows);
    }
    mip.rows.insert(mip.rows.end(), rows.begin(), rows.end());
    for (const auto& seller : market.sellers) {
        const double carriage = static_cast<double>(seller.carriage_cents);
        const int open = mip.add(carriage, 1), free = mip.add(-carriage, seller.free_from_cents ? 1 : 0);
        Mip::Row threshold{{{free, -static_cast<double>(seller.free_from_cents.value_or(0))}}, 0},
            minimum{{{open, -static_cast<double>(seller.minimum_cents)}}, 0};
        for (std::size_t o = 0; o < bought.size(); ++o) {
            if (market.offers[o].seller != seller.name) continue;
            threshold.terms.emplace_back(bought[o], static_cast<double>(market.offers[o].pack_cents));
            minimum.terms.emplace_back(bought[o], static_cast<double>(market.offers[o].pack_cents));
            mip.rows.push_back({{{open, enough}, {bought[o], -1}}, 0});
        }
        mip.rows.insert(mip.rows.end(), {{{{open, 1}, {free, -1}}, 0}, threshold, minimum});
    }
    return mip;
}

}  // namespace

TEST_CASE("100 generated second orders after a wrong first one cost what an independent solver says") {
    const ScratchFolder folder;
    int compared = 0, from_shelf = 0;
    for (std::uint64_t seed = 1001; seed <= 1100; ++seed) {
        PurchaseGenerator generator(seed);
        auto made = returnable_instance(generator);
        add_shelf(generator, made.market);
        const auto possible = possibilities(generator, made.needs);
        const auto advice = order_while_unsure(possible, made.market, {});
        if (!advice.most_likely.possible() || advice.likely != "a" ||
            advice.most_likely.outcomes.size() != possible.size())
            continue;
        const auto& first = *advice.most_likely.order;
        std::int64_t all_back = 0;
        for (const auto& [o, packs] : in_first_order(first))
            all_back += refund(made.market.offers[o]) * (packs.first - packs.second);
        for (const auto& seller : first.sellers) from_shelf += seller.own_shelf;
        const auto& wrong = possible[1];
        const auto theirs = glpsol_optimum(folder, lp_text(second_order_mip(wrong.needs, made.market, first)));
        INFO("seed " << seed);
        REQUIRE(theirs);
        ++compared;
        CHECK(static_cast<double>(outcome(advice.most_likely, "b").total_cents) ==
              Approx(static_cast<double>(first.total_cents - all_back) + *theirs).margin(0.51));
    }
    CHECK(compared > 40);
    CHECK(from_shelf > 20);
}

TEST_CASE("knowing first is never dearer than being right in every configuration, with the own shelf and without") {
    int compared = 0;
    for (std::uint64_t seed = 2001; seed <= 2300; ++seed) {
        PurchaseGenerator generator(seed);
        auto made = returnable_instance(generator);
        if (seed % 2 == 0) add_shelf(generator, made.market);
        const auto advice = order_while_unsure(possibilities(generator, made.needs), made.market, {});
        if (!advice.right_in_every.possible()) continue;
        ++compared;
        INFO("seed " << seed);
        REQUIRE(advice.find_out_first.possible());
        CHECK(advice.find_out_first.expected_cents <= advice.right_in_every.expected_cents);
        for (std::size_t p = 0; p < advice.find_out_first.outcomes.size(); ++p)
            CHECK(advice.find_out_first.outcomes[p].total_cents <= advice.right_in_every.outcomes[p].total_cents);
    }
    CHECK(compared > 200);
}

TEST_CASE("150 generated orders that are right in every configuration cost what an independent solver says") {
    const ScratchFolder folder;
    int compared = 0, sent_back = 0;
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        PurchaseGenerator generator(seed);
        auto made = returnable_instance(generator);
        if (seed % 2 == 0) add_shelf(generator, made.market);
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
