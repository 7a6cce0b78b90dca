#include "purchase.h"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "cover_search.h"
#include "purchase_model.h"

namespace casebound {

namespace {

std::string names(const std::vector<Unmet>& unmet) {
    std::string text;
    for (const Unmet& line : unmet) text += (text.empty() ? "" : ", ") + line.line;
    return text;
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

}  // namespace

std::string cents_text(std::int64_t cents) {
    const std::int64_t size = cents < 0 ? -cents : cents;
    return fmt::format("{}{}.{:02}", cents < 0 ? "-" : "", size / 100, size % 100);
}

PurchaseAnswer cheapest_order(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits) {
    const PurchaseModel model(needs, market, limits);
    PurchaseAnswer answer;
    answer.unmet = model.unmet();
    CoverAnswer found;
    if (answer.unmet.empty()) found = cheapest_cover(model.problem());
    answer.proven = found.proven;
    answer.at_least_cents = found.at_least;
    if (found.found) answer.order = model.order(found);
    else answer.reason = no_order(answer.unmet, limits);
    return answer;
}

std::optional<Order> next_best_order(const std::vector<Need>& needs, const Market& market, const Order& best,
                                     const PurchaseLimits& limits) {
    std::optional<Order> next;
    std::optional<std::int64_t> below;
    for (const auto& [seller, item] : pairs_of(best)) {
        std::vector<char> without;
        for (const Offer& offer : market.offers) without.push_back(offer.seller == seller && offer.item == item);
        const PurchaseModel model(needs, market, limits, without);
        if (!model.unmet().empty()) continue;
        const CoverAnswer found = cheapest_cover(model.problem(), below);
        if (!found.found) continue;
        below = found.cost;
        next = model.order(found);
    }
    return next;
}

}  // namespace casebound
