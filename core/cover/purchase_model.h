// From needs and offers with names to the bare cover problem, and back. Shared by the ways of asking for an order.
#pragma once

#include <string>
#include <vector>

#include "core/cover/cover_problem.h"
#include "core/cover/market.h"
#include "core/cover/sharing.h"

namespace casebound {

// Which offers and sellers there are in the problem, sorted by name, and the needs in whole numbers: one for each
// group of lines that share what they take (sharing.h).
class PurchaseModel {
public:
    // Offers that come too late or stand in `without` (by offer) are left out; those that serve no line can only help
    // to reach a threshold or a minimum. Only lines of the same possibility (by need; none: all of one) share pieces:
    // but one of them comes true. Keeps references.
    // Throws Error(bad_data).
    PurchaseModel(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits,
                  const std::vector<char>& without = {}, const std::vector<std::size_t>& possibility = {});

    const CoverProblem& problem() const { return problem_; }  // one column an offer
    std::vector<std::size_t> possibilities() const;           // of the problem's needs
    const Offer& offer(std::size_t column) const { return market_.offers[offers_[column]]; }
    std::size_t place(std::size_t column) const { return offers_[column]; }  // of its offer in the market
    std::vector<Unmet> unmet() const;
    // Of problem(). `may_go_back`: packs, by column, that count towards no threshold.
    Order order(const CoverAnswer& answer, const std::vector<int>& may_go_back = {}) const;

private:
    void check() const;
    void check_offer(const Offer& offer) const;
    void check_contents() const;
    void add_sellers();
    void add_offers(const std::vector<char>& without);
    void add_lots(std::size_t column);
    void add_groups();
    void add_group(const NeedGroup& group);
    std::vector<std::int64_t> given_to(const NeedGroup& group) const;
    bool in_time(const Offer& offer) const;
    std::size_t possibility(std::size_t need) const { return possibility_.empty() ? 0 : possibility_[need]; }
    const Seller& seller(std::size_t index) const { return market_.sellers[sellers_[index]]; }
    bool can_reach_minimum(std::size_t seller) const;
    std::vector<std::int64_t> held(const std::vector<int>& packs) const;
    std::vector<int> to_be_had() const;
    std::string why_not_at_all(std::size_t need) const;
    std::string reason(std::size_t need, const std::vector<std::int64_t>& held) const;
    SellerOrder seller_order(std::size_t seller, const CoverAnswer& answer, const std::vector<int>& may_go_back,
                             const std::vector<LotShare>& shares) const;
    OrderLine order_line(std::size_t column, const CoverAnswer& answer, const std::vector<LotShare>& shares) const;
    std::vector<Bought> bought(const std::vector<LotShare>& shares) const;

    const std::vector<Need>& needs_;
    const Market& market_;
    PurchaseLimits limits_;
    CoverProblem problem_;
    std::vector<std::size_t> sellers_, offers_;  // of the problem: places in the market
    std::vector<std::size_t> possibility_;       // by need
    std::vector<std::int64_t> wanted_;           // by need, in millionths
    std::vector<Lot> lots_;                      // in millionths, by column
    std::vector<NeedGroup> groups_;              // of the problem's needs
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
