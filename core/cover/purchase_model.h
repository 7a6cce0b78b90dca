// From needs and offers with names to the bare cover problem, and back. Shared by the ways of asking for an order.
#pragma once

#include <string>
#include <vector>

#include "core/cover/cover_problem.h"
#include "core/cover/market.h"
#include "core/cover/sharing.h"

namespace casebound {

// Which offers and sellers there are in the problem, sorted by name, and the needs in whole numbers. A column is a way
// to deal out one pack among the lines; what is not dealt out makes needs of groups of lines (sharing.h).
class PurchaseModel {
public:
    // Offers that come too late or stand in `without` (by offer) are left out; those that serve no line can only help
    // to reach a threshold or a minimum. Only lines of the same possibility (by need; none: all of one) share pieces:
    // but one of them comes true. Keeps references.
    // Throws Error(bad_data).
    PurchaseModel(const std::vector<Need>& needs, const Market& market, const PurchaseLimits& limits,
                  const std::vector<char>& without = {}, const std::vector<std::size_t>& possibility = {});

    const CoverProblem& problem() const { return problem_; }  // with possibilities: one column an offer
    std::vector<std::size_t> possibilities() const;           // of the problem's needs
    const Offer& offer(std::size_t offer) const { return market_.offers[offers_[offer]]; }  // of the problem's
    std::size_t place(std::size_t offer) const { return offers_[offer]; }                   // in the market
    std::vector<Unmet> unmet() const;
    // Of problem(). `may_go_back`: packs, by offer, that count towards no threshold.
    Order order(const CoverAnswer& answer, const std::vector<int>& may_go_back = {}) const;

private:
    void check() const;
    void check_offer(const Offer& offer) const;
    void check_contents() const;
    void add_sellers();
    void add_offers(const std::vector<char>& without);
    void add_lots(std::size_t offer);
    void add_columns();
    void add_column(std::size_t offer, const std::vector<Lot>& way);
    std::vector<std::vector<Lot>> ways(const std::vector<Lot>& pack) const;
    void add_groups();
    void add_group(const NeedGroup& group);
    std::vector<int> packs_by_offer(const CoverAnswer& answer) const;
    std::vector<std::int64_t> given_to(const NeedGroup& group) const;
    bool in_time(const Offer& offer) const;
    std::size_t possibility(std::size_t need) const { return possibility_.empty() ? 0 : possibility_[need]; }
    const Seller& seller(std::size_t index) const { return market_.sellers[sellers_[index]]; }
    bool can_reach_minimum(std::size_t seller) const;
    std::vector<std::int64_t> held(const std::vector<int>& packs) const;
    std::vector<int> to_be_had() const;
    std::string why_not_at_all(std::size_t need) const;
    std::string reason(std::size_t need, const std::vector<std::int64_t>& held) const;
    struct Given {               // of one answer
        std::vector<int> packs;  // by offer, without padding
        std::vector<int> padding;
        std::vector<LotShare> shares;
    };
    SellerOrder seller_order(std::size_t seller, const Given& given, const std::vector<int>& may_go_back) const;
    OrderLine order_line(std::size_t offer, const Given& given) const;
    std::vector<Bought> bought(const std::vector<LotShare>& shares) const;

    const std::vector<Need>& needs_;
    const Market& market_;
    PurchaseLimits limits_;
    CoverProblem problem_;
    std::vector<std::size_t> sellers_, offers_;  // of the problem: places in the market
    std::vector<std::size_t> possibility_;       // by need
    std::vector<std::int64_t> wanted_;           // by need, in millionths
    std::vector<Lot> lots_;                      // of offers to needs, in millionths
    std::vector<std::size_t> class_of_;          // by need: those alike are one
    std::vector<std::size_t> first_of_;          // by class: its first need
    std::vector<std::int64_t> class_wanted_;     // in millionths
    std::vector<Lot> dealt_;                     // of columns to classes
    std::vector<NeedGroup> groups_;              // of classes: the problem's needs
};

}  // namespace casebound
