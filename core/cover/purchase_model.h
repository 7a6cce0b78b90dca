// From needs and offers with names to the bare cover problem, and back. Shared by the ways of asking for an order.
#pragma once

#include <string>
#include <vector>

#include "core/cover/cover_problem.h"
#include "core/cover/market.h"

namespace casebound {

// Which offers and sellers there are in the problem, sorted by name, and the needs in whole numbers.
class PurchaseModel {
public:
    // Offers that come too late or stand in `without` (by offer) are left out; those that serve no line can only help
    // to reach a threshold or a minimum. Keeps references.
    // Throws Error(bad_data).
    PurchaseModel(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits,
                  const std::vector<char>& without = {});

    const CoverProblem& problem() const { return problem_; }  // one column an offer
    const Offer& offer(std::size_t column) const { return market_.offers[offers_[column]]; }
    std::size_t place(std::size_t column) const { return offers_[column]; }  // of its offer in the market
    std::vector<Unmet> unmet() const;
    // Of problem(). `may_go_back`: packs, by column, that count towards no threshold.
    Order order(const CoverAnswer& answer, const std::vector<int>& may_go_back = {}) const;

private:
    void check() const;
    void check_offer(const Offer& offer) const;
    void add_sellers();
    void add_need(const Need& need);
    void add_offers(const std::vector<char>& without);
    bool in_time(const Offer& offer) const;
    const Seller& seller(std::size_t index) const { return market_.sellers[sellers_[index]]; }
    std::vector<CoverGift> gifts(const Offer& offer) const;
    bool can_reach_minimum(std::size_t seller) const;
    std::int64_t to_be_had(std::size_t need) const;
    std::string reason(std::size_t need) const;
    SellerOrder seller_order(std::size_t seller, const CoverAnswer& answer, const std::vector<int>& may_go_back) const;
    OrderLine order_line(std::size_t column, const CoverAnswer& answer) const;

    const std::vector<Need>& needs_;
    const Market& market_;
    PurchaseLimits limits_;
    CoverProblem problem_;
    std::vector<std::size_t> sellers_, offers_;  // of the problem: places in the market
    std::vector<std::int64_t> unit_;             // by need: millionths of its unit that count as one
};

// Fluids of different specs never make up one line together: the ways to choose one spec for every line. Each way is a
// set of needs of its own, to be ordered for as it stands. Chooses nothing by price.
struct SpecWays {
    std::vector<std::vector<Need>> ways;  // at least one; specs named first in a need come first
    bool all = true;                      // false: there are more ways than were asked for
};

// Specs that nobody in the market offers are left out where another is offered.
SpecWays spec_ways(const std::vector<Need>& needs, const Market& market, std::size_t most = 256);

}  // namespace casebound
