// Orders. All sellers, items and prices are invented; figures without another source are worked by hand.
#include <catch2/catch.hpp>

#include <algorithm>

#include "core/cover/purchase.h"
#include "tests/refusal.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

Need need(std::string line, std::vector<std::string> items, double quantity = 1) {
    Need made{std::move(line), quantity, "each", {}};
    for (auto& item : items) {
        const bool kit = item.starts_with("kit");
        made.served_by.push_back({std::move(item), 1, "", kit ? made.line : ""});  // a kit holds one for every line
    }
    return made;
}

Offer offer(std::string seller, std::string item, std::int64_t cents) {
    return {std::move(seller), std::move(item), cents};
}

// "A: kit A + seal; B: washer"
std::string text(const Order& order) {
    std::string text;
    for (const auto& part : order.sellers) {
        text += (text.empty() ? "" : "; ") + part.seller + ":";
        for (const auto& line : part.lines) {
            text += " " + line.item;
            if (line.packs > 1) text += " x" + std::to_string(line.packs);
            if (line.padding > 0) text += " (" + std::to_string(line.padding) + " as padding)";
        }
    }
    return text;
}

std::int64_t total(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits = {}) {
    const auto answer = cheapest_order(needs, market, limits);
    REQUIRE(answer.order);
    CHECK(answer.at_least_cents == answer.order->total_cents);
    return answer.order->total_cents;
}

const std::vector<Need> pan_service{need("filter", {"filter", "kit A", "kit B", "kit C"}),
                                    need("gasket", {"gasket", "kit A", "kit B", "kit C"}),
                                    need("neck seal", {"seal", "kit B", "kit C"}), need("washer", {"washer", "kit C"}),
                                    need("connector seal", {"connector seal"})};

Market kits_and_singles() {
    Market market{{}, {{"only shop"}}};
    for (const auto& [item, cents] : std::vector<std::pair<std::string, std::int64_t>>{{"kit A", 4600},
                                                                                       {"kit B", 5800},
                                                                                       {"kit C", 7900},
                                                                                       {"filter", 3100},
                                                                                       {"gasket", 1900},
                                                                                       {"seal", 600},
                                                                                       {"washer", 200},
                                                                                       {"connector seal", 1100}})
        market.offers.push_back(offer("only shop", item, cents));
    return market;
}

// Filter 20 and seal 5 at North; filter 22 and seal 4 at South. Carriage 6.50 and 5.
const std::vector<Need> filter_and_seal{need("filter", {"filter"}), need("seal", {"seal"})};

Market two_shops() {
    return {{offer("North", "filter", 2000), offer("North", "seal", 500), offer("South", "filter", 2200),
             offer("South", "seal", 400)},
            {{"North", 650}, {"South", 500}}};
}

}  // namespace

TEST_CASE("a kit and singles beat all singles and the larger kits") {
    const auto answer = cheapest_order(pan_service, kits_and_singles());
    REQUIRE(answer.order);
    CHECK(answer.order->total_cents == 6500);  // all singles 69, kit B route 71
    CHECK(text(*answer.order) == "only shop: connector seal kit A seal washer");
    CHECK(answer.proven);
    CHECK(answer.reason.empty());
}

TEST_CASE("a kit line says which lines it serves") {
    const auto answer = cheapest_order(pan_service, kits_and_singles());
    CHECK(answer.order->sellers.front().lines[1].serves == std::vector<std::string>{"filter", "gasket"});
}

TEST_CASE("two places that take the same ring need two of it") {
    const std::vector<Need> rings{need("cooler line", {"ring"}), need("dipstick tube", {"ring"})};
    Market market{{offer("North", "ring", 300), offer("South", "ring", 500)}, {{"North"}, {"South"}}};
    const auto order = *cheapest_order(rings, market).order;
    CHECK(text(order) == "North: ring x2");
    CHECK(order.sellers.front().lines.front().serves == std::vector<std::string>{"cooler line", "dipstick tube"});
    CHECK(order.sellers.front().lines.front().gives == std::vector<double>{1, 1});
    market.offers.front().available = 1;
    CHECK(text(*cheapest_order(rings, market).order) == "North: ring; South: ring");
    market.offers.pop_back();
    const auto none = cheapest_order(rings, market);
    CHECK_FALSE(none.order);
    REQUIRE(none.unmet.size() == 1);
    CHECK(none.unmet.front().line == "dipstick tube");
    CHECK(none.unmet.front().missing == 1);
    CHECK(none.unmet.front().reason == "not enough of it is offered for all the places that take the same");
}

TEST_CASE("the one ring of a kit fills one of two places, and the place that takes nothing else goes first") {
    const Serves in_kit{"kit", 1, "", "ring"};
    std::vector<Need> needs{need("cooler line", {"ring"}), need("dipstick tube", {}), need("pan", {"gasket"})};
    for (Need& one : needs) one.served_by.push_back(in_kit);
    needs.back().served_by.back().content = "gasket";
    const Market market{{offer("North", "ring", 300), offer("North", "gasket", 900), offer("North", "kit", 1000)},
                        {{"North"}}};
    const auto order = *cheapest_order(needs, market).order;
    CHECK(text(order) == "North: kit ring");
    const auto& lines = order.sellers.front().lines;
    CHECK(lines[0].serves == std::vector<std::string>{"dipstick tube", "pan"});
    CHECK(lines[1].serves == std::vector<std::string>{"cooler line"});
}

TEST_CASE("one canister fills two places when it holds enough for both together") {
    const Serves five{"5 L", 5}, one{"1 L", 1};
    const std::vector<Need> oil{{"gearbox", 3.4, "L", {one, five}}, {"transfer case", 1.5, "L", {one, five}}};
    const Market market{{offer("North", "1 L", 950), offer("North", "5 L", 3800)}, {{"North"}}};
    const auto order = *cheapest_order(oil, market).order;
    CHECK(text(order) == "North: 5 L");
    CHECK(order.sellers.front().lines.front().gives[0] == Approx(3.5));
    CHECK(order.sellers.front().lines.front().gives[1] == Approx(1.5));
    CHECK(order.bought[0].spare() == Approx(0.1));
    CHECK(order.bought[1].spare() == Approx(0));
}

TEST_CASE("the next best order leaves something of the best one out") {
    const auto market = kits_and_singles();
    const auto best = cheapest_order(pan_service, market);
    const auto next = next_best_order(pan_service, market, *best.order);
    REQUIRE(next);
    CHECK(next->total_cents == 6900);
    CHECK(text(*next) == "only shop: connector seal filter gasket seal washer");
}

TEST_CASE("there is no next best order when everything has one source") {
    const std::vector<Need> one{need("washer", {"washer"})};
    const Market market{{offer("North", "washer", 200)}, {{"North"}}};
    CHECK_FALSE(next_best_order(one, market, *cheapest_order(one, market).order));
}

TEST_CASE("5.14, 9.98 and 14.82 L come from 1 + 5, 5 + 5 and 3 x 5 L, and what is spare is said") {
    Need fluid{"fluid", 5.14, "L", {{"1 L", 1}, {"4 L", 4}, {"5 L", 5}, {"20 L", 20}}};
    const Market market{{offer("North", "1 L", 950), offer("North", "4 L", 3200), offer("North", "5 L", 3800),
                         offer("North", "20 L", 13000)},
                        {{"North"}}};
    const auto one = cheapest_order({fluid}, market).order;
    CHECK(text(*one) == "North: 1 L 5 L");
    CHECK(one->total_cents == 4750);
    CHECK(one->bought.front().spare() == Approx(0.86));
    fluid.quantity = 9.98;
    const auto two = cheapest_order({fluid}, market).order;
    CHECK(text(*two) == "North: 5 L x2");
    CHECK(two->total_cents == 7600);
    CHECK(two->bought.front().spare() == Approx(0.02));
    fluid.quantity = 14.82;
    CHECK(total({fluid}, market) == 11400);
}

TEST_CASE("ten bolts in packs of four need three packs") {
    const std::vector<Need> bolts{need("bolts", {"bolt"}, 10)};
    Market market{{offer("North", "bolt", 300)}, {{"North"}}};
    market.offers.front().pack_quantity = 4;
    CHECK(text(*cheapest_order(bolts, market).order) == "North: bolt x3");
}

TEST_CASE("one carriage beats two cheaper prices") {
    CHECK(total(filter_and_seal, two_shops()) == 2600 + 500);  // all from South; split would be 24 + 11
    CHECK(cheapest_order(filter_and_seal, two_shops()).order->seller_count == 1);
}

TEST_CASE("without carriage each line comes from where it is cheapest") {
    auto market = two_shops();
    market.sellers = {{"North"}, {"South"}};
    CHECK(text(*cheapest_order(filter_and_seal, market).order) == "North: filter; South: seal");
}

TEST_CASE("carriage is free from the threshold on, exactly") {
    auto market = two_shops();
    market.sellers.front().free_from_cents = 2500;
    const auto order = *cheapest_order(filter_and_seal, market).order;
    CHECK(order.total_cents == 2500);
    CHECK(order.sellers.front().carriage_free);
    market.sellers.front().free_from_cents = 2501;
    CHECK(total(filter_and_seal, market) == 2500 + 500);  // one seal more, against South's 31
    CHECK(text(*cheapest_order(filter_and_seal, market).order) == "North: filter seal x2 (1 as padding)");
}

TEST_CASE("a dearer item is taken where it saves the carriage") {
    Market market{{offer("North", "plain filter", 1900), offer("North", "deep filter", 2000)}, {{"North", 600, 2000}}};
    CHECK(text(*cheapest_order({need("filter", {"plain filter", "deep filter"})}, market).order) ==
          "North: deep filter");
}

TEST_CASE("padding is not bought when carriage is cheaper") {
    Market market{{offer("North", "filter", 1900)}, {{"North", 600, 2000}}};
    CHECK(total({need("filter", {"filter"})}, market) == 2500);
}

TEST_CASE("a minimum order is reached with the cheapest packs, or the seller is left") {
    auto market = two_shops();
    market.sellers = {{"North", 0, {}, 3000}, {"South", 500}};
    CHECK(total(filter_and_seal, market) == 3000);  // filter + 2 seals at North, 30, against 31 at South
    market.sellers.front().minimum_cents = 3600;
    CHECK(total(filter_and_seal, market) == 3100);
}

TEST_CASE("padding cannot use more packs than there are") {
    Market market{{offer("North", "filter", 2000), offer("North", "seal", 500)}, {{"North", 0, {}, 3000}}};
    market.offers[1].available = 2;
    CHECK(total(filter_and_seal, market) == 3000);
    market.offers[1].available = 1;
    CHECK(total(filter_and_seal, market) == 4500);  // a second filter
    market.offers[0].available = 1;
    const auto answer = cheapest_order(filter_and_seal, market);
    CHECK_FALSE(answer.order);
    CHECK(answer.unmet.front().reason == "the minimum order of North, 30.00, cannot be reached");
}

TEST_CASE("the own shelf is used first, and is not counted as a seller") {
    auto market = two_shops();
    market.sellers.push_back({"shelf", 0, {}, 0, true});
    market.offers.push_back(offer("shelf", "seal", 0));
    market.offers.back().available = 1;
    const auto order = *cheapest_order(filter_and_seal, market).order;
    CHECK(text(order) == "North: filter; shelf: seal");
    CHECK(order.total_cents == 2650);
    CHECK(order.seller_count == 1);
    CHECK(total(filter_and_seal, market, {.most_sellers = 1}) == 2650);
}

TEST_CASE("stock with a price of its own stays on the shelf when buying is cheaper") {
    auto market = two_shops();
    market.sellers.push_back({"shelf", 0, {}, 0, true});
    market.offers.push_back(offer("shelf", "seal", 700));
    CHECK(text(*cheapest_order(filter_and_seal, market).order) == "South: filter seal");
}

TEST_CASE("at most one seller costs what the best single seller asks") {
    auto market = two_shops();
    market.sellers = {{"North"}, {"South"}};
    CHECK(total(filter_and_seal, market) == 2400);
    CHECK(total(filter_and_seal, market, {.most_sellers = 1}) == 2500);
    market.offers.erase(market.offers.begin() + 1);  // North has no seal,
    market.offers.erase(market.offers.begin() + 1);  // South no filter
    const auto answer = cheapest_order(filter_and_seal, market, {.most_sellers = 1});
    CHECK_FALSE(answer.order);
    CHECK(answer.unmet.empty());
    CHECK(answer.reason == "no order from at most 1 seller covers every line");
}

TEST_CASE("an order in time leaves out what comes later, and says so when nothing is left") {
    auto market = two_shops();
    for (auto& one : market.offers) one.days = one.seller == "South" ? 5 : 2;
    CHECK(total(filter_and_seal, market) == 3100);
    CHECK(cheapest_order(filter_and_seal, market).order->days == 5);
    CHECK(total(filter_and_seal, market, {.within_days = 2}) == 3150);  // North: 25 + 6.50
    CHECK(cheapest_order(filter_and_seal, market, {.within_days = 2}).order->days == 2);
    const auto late = cheapest_order(filter_and_seal, market, {.within_days = 1});
    REQUIRE(late.unmet.size() == 2);
    CHECK(late.unmet.front().reason == "not to be had within 1 day");
}

TEST_CASE("an offer that says no days is in time for nothing, and leaves the arrival not known") {
    auto market = two_shops();
    market.sellers = {{"North"}, {"South"}};
    for (auto& one : market.offers)
        if (one.seller == "North") one.days = 2;
    const auto order = *cheapest_order(filter_and_seal, market).order;
    REQUIRE(order.sellers.size() == 2);
    CHECK_FALSE(order.days);
    CHECK(order.sellers.front().days == 2);
    CHECK_FALSE(order.sellers.back().days);
    CHECK(total(filter_and_seal, market, {.within_days = 2}) == 2500);  // North alone
    for (auto& one : market.offers) one.days.reset();
    const auto unsaid = cheapest_order(filter_and_seal, market, {.within_days = 100});
    REQUIRE(unsaid.unmet.size() == 2);
    CHECK(unsaid.unmet.front().reason == "nobody promises it within 100 days: days not said");
}

TEST_CASE("a core charge that comes back is shown and does not count; without an old part it is a cost") {
    const std::vector<Need> unit{need("unit", {"reman", "new"})};
    Market market{{offer("North", "reman", 50000), offer("North", "new", 60000)}, {{"North"}}};
    market.offers.front().core_cents = 15000;
    const auto with_core = *cheapest_order(unit, market).order;
    CHECK(with_core.total_cents == 50000);
    CHECK(with_core.core_cents == 15000);
    CHECK(total(unit, market, {.cores_come_back = false}) == 60000);
    market.offers.pop_back();
    CHECK(total(unit, market, {.cores_come_back = false}) == 65000);
}

TEST_CASE("lines that cannot be covered are named with what is missing and why") {
    auto needs = filter_and_seal;
    needs.push_back(need("gasket", {"gasket"}, 2));
    needs.push_back(need("sleeve", {}));
    needs.push_back(need("bolts", {"bolt"}, 10));
    auto market = two_shops();
    market.offers.push_back(offer("North", "bolt", 100));
    market.offers.back().available = 7;
    const auto answer = cheapest_order(needs, market);
    CHECK_FALSE(answer.order);
    CHECK(answer.reason == "cannot be covered: gasket, sleeve, bolts");
    REQUIRE(answer.unmet.size() == 3);
    CHECK(answer.unmet[0].reason == "nobody offers it");
    CHECK(answer.unmet[0].missing == 2);
    CHECK(answer.unmet[1].reason == "no item is known that serves it");
    CHECK(answer.unmet[2].reason == "not enough of it is offered");
    CHECK(answer.unmet[2].missing == 3);
}

TEST_CASE("specs are never mixed: the cheapest order is that of the cheapest single spec, packs counted one by one") {
    // Brute force over up to 9 packs of 1 L and 3 of 4 L; the mixed order would be cheaper in many of them.
    int mixed_cheaper = 0, second_wins = 0;
    for (int seed = 0; seed < 60; ++seed) {
        const std::int64_t prices[] = {900 + seed * 37 % 400, 3100 + seed * 53 % 900, 850 + seed * 71 % 450,
                                       2900 + seed * 29 % 1100};
        const double litres = 3 + seed % 7;
        const int holds[] = {1, 4, 1, 4};
        std::int64_t least[3] = {1'000'000, 1'000'000, 1'000'000};  // A, B, mixed
        for (int code = 0; code < 10 * 4 * 10 * 4; ++code) {
            const int packs[] = {code % 10, code / 10 % 4, code / 40 % 10, code / 400};
            std::int64_t cents = 0;
            double got = 0;
            for (int i = 0; i < 4; ++i) cents += prices[i] * packs[i], got += holds[i] * packs[i];
            if (got < litres) continue;
            const bool a = packs[2] + packs[3] == 0, b = packs[0] + packs[1] == 0;
            auto& best = least[a ? 0 : b ? 1 : 2];
            best = std::min(best, cents);
        }
        const Need fluid{
            "fluid", litres, "L", {{"A 1 L", 1, "A"}, {"A 4 L", 4, "A"}, {"B 1 L", 1, "B"}, {"B 4 L", 4, "B"}}};
        const Market market{{{"North", "A 1 L", prices[0]},
                             {"North", "A 4 L", prices[1]},
                             {"South", "B 1 L", prices[2]},
                             {"South", "B 4 L", prices[3]}},
                            {{"North"}, {"South"}}};
        const auto answer = cheapest_order({fluid}, market);
        REQUIRE(answer.order);
        CHECK(answer.proven);
        CHECK(answer.order->total_cents == std::min(least[0], least[1]));
        CHECK(answer.order->seller_count == 1);
        mixed_cheaper += least[2] < std::min(least[0], least[1]);
        second_wins += least[1] < least[0];
        const auto next = next_best_order({fluid}, market, *answer.order);
        REQUIRE(next);
        CHECK(next->total_cents >= answer.order->total_cents);
    }
    CHECK(mixed_cheaper > 10);
    CHECK(second_wins > 10);
}

TEST_CASE(
    "a spec that nobody offers, or that comes too late, leaves the other one; when none can be had, that is said") {
    const Need fluid{"fluid", 4, "L", {{"A", 4, "A"}, {"B", 4, "B"}, {"C", 4, "C"}}};
    Market market{{{"North", "A", 3000}, {"North", "B", 4000}}, {{"North"}}};
    market.offers[0].days = 9;
    market.offers[1].days = 3;
    CHECK(cheapest_order({fluid}, market).order->total_cents == 3000);
    CHECK(cheapest_order({fluid}, market, {{}, 3, true}).order->total_cents == 4000);
    const auto none = cheapest_order({fluid}, {{}, {{"North"}}});
    REQUIRE(none.unmet.size() == 1);
    CHECK(none.unmet.front().line == "fluid");
}

TEST_CASE("equal totals are decided by fewer sellers, then by name") {
    Market market{{offer("West", "filter", 2000), offer("West", "seal", 500), offer("East", "filter", 2000),
                   offer("East", "seal", 500)},
                  {{"West"}, {"East"}}};
    CHECK(text(*cheapest_order(filter_and_seal, market).order) == "East: filter seal");
    market.offers[2].pack_cents = 2001;
    CHECK(text(*cheapest_order(filter_and_seal, market).order) == "West: filter seal");
}

TEST_CASE("the order of needs, offers and sellers does not change the answer") {
    auto needs = pan_service;
    auto market = kits_and_singles();
    for (const char* seller : {"B", "C"})
        for (const auto& one : kits_and_singles().offers)
            market.offers.push_back(offer(seller, one.item, one.pack_cents));
    market.sellers = {{"only shop", 500}, {"B", 500}, {"C", 500}};
    const std::string first = text(*cheapest_order(needs, market).order);
    CHECK(first == "B: connector seal kit A seal washer");
    std::reverse(needs.begin(), needs.end());
    std::reverse(market.offers.begin(), market.offers.end());
    std::rotate(market.sellers.begin(), market.sellers.begin() + 1, market.sellers.end());
    CHECK(text(*cheapest_order(needs, market).order) == first);
}

TEST_CASE("nothing needed is an order of nothing") {
    const auto answer = cheapest_order({}, two_shops());
    REQUIRE(answer.order);
    CHECK(answer.order->total_cents == 0);
    CHECK(answer.order->sellers.empty());
}

TEST_CASE("an order's parts add up") {
    const auto order = *cheapest_order(pan_service, kits_and_singles()).order;
    std::int64_t goods = 0;
    for (const auto& part : order.sellers)
        for (const auto& line : part.lines) goods += line.cents;
    CHECK(goods == order.goods_cents);
    CHECK(order.total_cents == order.goods_cents + order.carriage_cents);
}

TEST_CASE("an order with figures that cannot be is refused with what to do") {
    auto market = two_shops();
    const auto refused = [&](const Market& changed, const std::vector<Need>& needs = filter_and_seal) {
        const auto answer = refusal([&] { cheapest_order(needs, changed); });
        CHECK(answer.exit == Exit::bad_data);
        return answer.text;
    };
    auto changed = market;
    changed.offers.front().seller = "Nowhere";
    CHECK(refused(changed) == "offer filter of Nowhere: the seller is not described: add what carriage they ask");
    changed = market;
    changed.sellers.push_back({"North"});
    CHECK_THAT(refused(changed), Contains("seller North stands twice"));
    changed = market;
    changed.offers.front().pack_cents = -1;
    CHECK_THAT(refused(changed), Contains("price below 0"));
    changed.offers.front() = offer("North", "filter", std::int64_t{1} << 60);
    CHECK_THAT(refused(changed), Contains("too large to be counted exactly"));
    changed = market;
    changed.offers.front().return_fee = 1.5;
    CHECK_THAT(refused(changed), Contains("give a share from 0 to 1"));
    CHECK_THAT(refused(market, {need("seal", {"seal"}, 0)}), Contains("quantity 0: give more than 0"));
    CHECK_THAT(refused(market, {need("seal", {"seal"}), need("seal", {"seal"})}), Contains("line seal stands twice"));
    CHECK_THAT(refused(market, {need("seal", {"seal", "seal"})}), Contains("item seal stands twice"));
    auto two = std::vector{need("seal", {"seal"}), need("other seal", {"seal"})};
    two.back().served_by.front().quantity = 2;
    CHECK_THAT(refused(market, two), Contains("gives 1 of line seal and 2 of line other seal"));
}

TEST_CASE("cents are written with two decimals") {
    CHECK(cents_text(6500) == "65.00");
    CHECK(cents_text(5) == "0.05");
    CHECK(cents_text(-105) == "-1.05");
}
