#include "core/cover/purchase.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "core/cover/cover_search.h"
#include "core/cover/purchase_model.h"
#include "core/cover/spec_ways.h"
#include "core/ground/text_layout.h"

namespace casebound {

namespace {

std::string names(const std::vector<Unmet>& unmet) {
    std::vector<std::string> all;
    for (const Unmet& one : unmet) all.push_back(one.title.empty() ? one.line : one.title);
    return listed_titles(all);
}

std::string no_order(const std::vector<Unmet>& unmet, const PurchaseLimits& limits) {
    if (!unmet.empty()) return fmt::format("cannot be covered: {}", names(unmet));
    if (limits.most_sellers)
        return fmt::format("no order from at most {} seller{} covers every line", *limits.most_sellers,
                           *limits.most_sellers == 1 ? "" : "s");
    return "the minimum orders cannot all be reached";
}

// Pairs of seller and item in an order, by name.
std::set<std::pair<std::string, std::string>> pairs_of(const Order& order) {
    std::set<std::pair<std::string, std::string>> pairs;
    for (const SellerOrder& part : order.sellers)
        for (const OrderLine& line : part.lines) pairs.emplace(part.seller, line.item);
    return pairs;
}

// The best of several ways to choose specs, each looked at only below what the ones before cost.
struct Cheapest {
    void try_way(const PurchaseModel& model) {
        auto unmet = model.unmet();
        const bool first = ways++ == 0;
        if (!unmet.empty()) {
            if (first || unmet.size() < answer.unmet.size()) answer.unmet = std::move(unmet);
            return;
        }
        answer.unmet.clear();
        const CoverAnswer found = cheapest_cover(model.problem(), below);
        answer.proven = answer.proven && found.proven;
        if (found.found || !found.proven) answer.at_least_cents = at_least = std::min(at_least, found.at_least);
        if (!found.found) return;
        below = found.cost;
        answer.order = model.order(found);
    }

    PurchaseAnswer answer;
    int ways = 0;
    std::optional<std::int64_t> below;
    std::int64_t at_least = never_free_cents;
};

}  // namespace

PurchaseAnswer cheapest_order(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits) {
    const SpecWays specs = spec_ways(needs, market);
    Cheapest cheapest;
    for (const std::vector<Need>& way : specs.ways) cheapest.try_way(PurchaseModel(way, market, limits));
    PurchaseAnswer answer = std::move(cheapest.answer);
    if (!specs.all) answer.proven = false, answer.at_least_cents = 0;
    if (answer.order) answer.unmet.clear();
    else answer.reason = no_order(answer.unmet, limits);
    return answer;
}

std::optional<Order> next_best_order(const std::vector<Need>& needs, const Market& market, const Order& best,
                                     const PurchaseLimits& limits) {
    const SpecWays specs = spec_ways(needs, market);
    std::optional<Order> next;
    std::optional<std::int64_t> below;
    for (const auto& [seller, item] : pairs_of(best)) {
        std::vector<char> without;
        for (const Offer& offer : market.offers) without.push_back(offer.seller == seller && offer.item == item);
        for (const std::vector<Need>& way : specs.ways) {
            const PurchaseModel model(way, market, limits, without);
            if (!model.unmet().empty()) continue;
            const CoverAnswer found = cheapest_cover(model.problem(), below);
            if (!found.found) continue;
            below = found.cost;
            next = model.order(found);
        }
    }
    return next;
}

}  // namespace casebound
