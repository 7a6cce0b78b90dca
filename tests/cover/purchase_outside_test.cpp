// The cheapest order against glpsol (GLPK), a mixed-integer solver run as a program of its own, on generated
// parts lists.
#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "tests/cover/glpsol_run.h"
#include "tests/cover/purchase_instances.h"
#include "tests/cover/purchase_mip.h"

using namespace casebound;

namespace {

std::optional<std::int64_t> outside(const ScratchFolder& folder, const Mip& mip) {
    const auto cost = glpsol_optimum(folder, lp_text(mip));
    if (!cost) return std::nullopt;
    return std::llround(*cost);
}

struct Tally {
    int none = 0, padded = 0, free_carriage = 0, kits = 0, several_sellers = 0, shared = 0;
};

void count(Tally& tally, const PurchaseAnswer& answer) {
    if (!answer.order) {
        ++tally.none;
        return;
    }
    tally.several_sellers += answer.order->seller_count > 1;
    for (const auto& part : answer.order->sellers) {
        tally.free_carriage += part.carriage_free;
        for (const auto& line : part.lines) {
            tally.padded += line.padding > 0;
            tally.kits += line.serves.size() > 1;
        }
    }
}

PurchaseInstance instance(std::uint64_t seed, int most_lines, int most_offers) {
    PurchaseGenerator generator(seed);
    const int lines = generator.between(2, most_lines);
    PurchaseInstance made = generator.make(lines, generator.between(lines, most_offers), generator.between(1, 4));
    if (seed % 50 == 0) made.needs.front().served_by.clear();  // nobody has it
    if (seed % 5 == 0)                                         // whole prices: many equal orders
        for (Offer& offer : made.market.offers)
            offer.pack_cents = std::max<std::int64_t>(1, offer.pack_cents / 500) * 500;
    if (seed % 7 == 0)
        made.market.sellers.front() = {made.market.sellers.front().name, 0, {}, 0, true};  // an own shelf
    if (seed % 11 == 0) made.needs.front().quantity += 0.14;
    return made;
}

// What is held of each content, and what the order gives of it: nothing is given twice, and every line has enough.
void check_shares(const PurchaseInstance& made, const Order& order, Tally& tally) {
    std::map<std::string, double> got;
    for (const auto& part : order.sellers)
        for (const auto& line : part.lines) {
            REQUIRE(line.serves.size() == line.gives.size());
            std::map<std::string, double> holds;  // by content
            std::set<std::string> takers;
            for (const Need& need : made.needs)
                for (const Serves& way : need.served_by)
                    if (way.item == line.item) {
                        holds[way.content] = way.quantity * line.packs;
                        takers.insert(need.line);
                    }
            double held = 0, given = 0;
            for (const auto& [content, amount] : holds) held += amount;
            for (std::size_t k = 0; k < line.serves.size(); ++k) {
                given += line.gives[k];
                got[line.serves[k]] += line.gives[k];
                REQUIRE(takers.contains(line.serves[k]));
            }
            REQUIRE(given == Approx(held));
            tally.shared += takers.size() > holds.size();
        }
    for (const Need& need : made.needs) REQUIRE(got[need.line] >= Approx(need.quantity));
}

void compare(const ScratchFolder& folder, const PurchaseInstance& made, Tally& tally) {
    const PurchaseAnswer answer = cheapest_order(made.needs, made.market);
    const auto theirs = outside(folder, mip_of(made.needs, made.market));
    INFO(answer.reason);
    REQUIRE(answer.order.has_value() == theirs.has_value());
    REQUIRE(answer.proven);
    if (theirs) {
        REQUIRE(answer.order->total_cents == *theirs);
        check_shares(made, *answer.order, tally);
    }
    count(tally, answer);
}

}  // namespace

TEST_CASE("1,000 generated orders cost what an independent solver says they must") {
    const ScratchFolder folder;
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
        INFO("seed " << seed);
        compare(folder, instance(seed, 8, 24), tally);
    }
    CHECK(tally.none > 10);  // what is compared really occurs
    CHECK(tally.padded > 20);
    CHECK(tally.free_carriage > 100);
    CHECK(tally.kits > 100);
    CHECK(tally.several_sellers > 100);
}

TEST_CASE(
    "1,000 generated orders in which lines take the same parts, and the same out of a kit, cost what the solver says") {
    const ScratchFolder folder;
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
        INFO("seed " << seed);
        PurchaseGenerator sharing(seed);
        PurchaseInstance made = instance(seed, 7, 18);
        sharing.share(made, sharing.between(1, 6));
        if (seed % 3 == 0)
            for (Need& need : made.needs) need.unit = "L", need.quantity += sharing.below(100) / 100.0;
        for (Offer& offer : made.market.offers)
            if (sharing.below(3) == 0) offer.available = sharing.between(1, 2);
        compare(folder, made, tally);
    }
    CHECK(tally.none > 50);
    CHECK(tally.shared > 1000);
}

TEST_CASE("so do 30 larger ones, of up to 14 lines and 40 offers") {
    const ScratchFolder folder;
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        PurchaseGenerator generator(seed);
        INFO("seed " << seed);
        compare(folder, generator.make(generator.between(10, 14), generator.between(30, 40), 4), tally);
    }
    CHECK(tally.several_sellers > 15);
}

TEST_CASE("the cheapest order from at most one and two sellers is the solver's too") {
    const ScratchFolder folder;
    int dearer = 0;
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        PurchaseGenerator generator(seed);
        const auto made = generator.make(generator.between(2, 5), generator.between(10, 20), 4);
        const auto free_choice = cheapest_order(made.needs, made.market);
        for (const int most : {1, 2}) {
            Mip mip = mip_of(made.needs, made.market);
            mip.rows.push_back({{}, -static_cast<double>(most)});  // the sellers come after the offers, in pairs
            for (int s = 0; s < 4; ++s)
                mip.rows.back().terms.emplace_back(static_cast<int>(made.market.offers.size()) + 2 * s, -1);
            const auto theirs = outside(folder, mip);
            const auto ours = cheapest_order(made.needs, made.market, {.most_sellers = most});
            INFO("seed " << seed << ", at most " << most);
            REQUIRE(ours.order.has_value() == theirs.has_value());
            if (!theirs) continue;
            REQUIRE(ours.order->total_cents == *theirs);
            CHECK(ours.order->seller_count <= most);
            dearer += ours.order->total_cents > free_choice.order->total_cents;
        }
    }
    CHECK(dearer > 10);
}

TEST_CASE("among equal totals no order has fewer sellers") {
    const ScratchFolder folder;
    int several = 0;
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        PurchaseGenerator generator(seed);
        auto made = generator.make(generator.between(3, 5), generator.between(10, 18), 4);
        for (Offer& offer : made.market.offers)
            offer.pack_cents = std::max<std::int64_t>(1, offer.pack_cents / 1000) * 1000;
        for (Seller& seller : made.market.sellers) seller.carriage_cents = seed % 2 == 0 ? 0 : 1000;
        const auto ours = cheapest_order(made.needs, made.market);
        if (!ours.order) continue;
        Mip mip = mip_of(made.needs, made.market);
        for (int s = 0; s < 4; ++s)
            mip.cost[made.market.offers.size() + 2 * static_cast<std::size_t>(s)] += 1;  // a cent for each
        INFO("seed " << seed);
        CHECK(ours.order->total_cents + ours.order->seller_count == *outside(folder, mip));
        several += ours.order->seller_count > 1;
    }
    CHECK(several > 50);
}

TEST_CASE("the next best order is the cheapest that the solver finds without one of the items") {
    const ScratchFolder folder;
    int found = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        PurchaseGenerator generator(seed);
        const auto made = generator.make(generator.between(2, 5), generator.between(10, 16), 3);
        const auto best = cheapest_order(made.needs, made.market);
        if (!best.order) continue;
        std::optional<std::int64_t> theirs;
        for (const auto& part : best.order->sellers)
            for (const auto& line : part.lines) {
                Mip mip = mip_of(made.needs, made.market);
                mip.most[line.offer] = 0;  // generated items have one offer each
                const auto without = outside(folder, mip);
                if (without && (!theirs || *without < *theirs)) theirs = without;
            }
        const auto ours = next_best_order(made.needs, made.market, *best.order);
        INFO("seed " << seed);
        REQUIRE(ours.has_value() == theirs.has_value());
        if (!theirs) continue;
        CHECK(ours->total_cents == *theirs);
        CHECK(ours->total_cents >= best.order->total_cents);
        ++found;
    }
    CHECK(found > 20);
}
