// How cheap can a partly decided order still become? A proven lower bound: each need is given a price, and each
// seller is asked for its best bundle at these prices (Lagrangian relaxation of the needs; carriage, threshold
// and minimum order stay with the seller, packs may be cut to reach them). Any prices give a valid bound, in
// integers, without rounding; subgradient steps only look for better ones.
//
// A need of several units also counts in packs: if 6 L are needed, two packs of at most 5 L are (rounding of
// Chvatal and Gomory). Each such row has its own price.
#pragma once

#include <span>
#include <vector>

#include "core/cover/cover_state.h"

namespace casebound {

using CoverPrices = std::vector<std::int64_t>;  // fine cost of one unit, by row: the needs, then the rounded rows

class CoverBound {
public:
    CoverBound(const CoverProblem& problem, const FineCosts& costs);

    struct Candidate {  // a column that may still be taken and gives something that is needed
        std::size_t column{}, seller{};
        std::int64_t cost{}, goods{};
        std::int64_t reduced{};         // cost less what it gives, at the last prices
        int limit{};                    // more packs give nothing more
        std::uint32_t first{}, last{};  // its gifts, cut to what is needed
        double share{};                 // packs chosen, over the last rounds
    };
    struct Bundle {  // of one seller, fine, at the last prices
        std::int64_t pays = FineCosts::impossible, free = FineCosts::impossible;
        std::int64_t pays_theta{}, free_theta{};  // worth of a cent of goods towards minimum or threshold
        std::int64_t counts{};                    // its part of the bound
        bool chosen{};
        double share_open{}, share_free{};  // of the last rounds
        std::int64_t best() const { return std::min(pays, free); }
        bool is_free() const { return free < pays; }
        std::int64_t theta() const { return is_free() ? free_theta : pays_theta; }
    };

    std::size_t rows() const { return problem_.needs.size() + rounded_.size(); }
    CoverPrices first_prices() const;

    void look_at(const CoverState& state);       // the calls below are about this state
    bool hopeless() const { return hopeless_; }  // some need cannot be met any more

    std::int64_t at(const CoverPrices& prices);
    // Betters the prices, for so many rounds or until the bound reaches `enough`; or half of them, when by what these
    // brought it will not. Ends as at(prices).
    enum class Rounds : std::uint8_t { all, while_hopeful };
    std::int64_t raise(CoverPrices& prices, std::int64_t enough, int rounds, double step, Rounds which = Rounds::all);

    // The bound if one more pack of it is bought; if the seller must be bought from; if it must not.
    std::int64_t with(const Candidate& candidate) const;
    std::int64_t with_open(std::size_t seller) const { return without(seller) + bundles_[seller].best(); }
    std::int64_t without(std::size_t seller) const { return bound_ - bundles_[seller].counts; }

    const std::vector<Candidate>& candidates() const { return candidates_; }
    std::span<const CoverGift> gifts(const Candidate& c) const {
        return {gifts_.data() + c.first, gifts_.data() + c.last};
    }
    bool is_need(const CoverGift& gift) const { return gift.need < problem_.needs.size(); }
    const Bundle& bundle(std::size_t seller) const { return bundles_[seller]; }
    bool has_candidates(std::size_t seller) const { return starts_[seller] < starts_[seller + 1]; }

private:
    struct Rounded {
        std::size_t need{};
        int by{};
    };
    struct Ascent;

    std::span<Candidate> of(std::size_t seller) {
        return {candidates_.data() + starts_[seller], candidates_.data() + starts_[seller + 1]};
    }
    void add_candidate(const CoverState& state, std::size_t column, std::size_t seller);
    void add_gift(Candidate& c, const CoverGift& gift);
    std::int64_t reduce(std::size_t seller, const CoverPrices& prices, std::int64_t& goods);
    void ask(std::size_t seller, const CoverPrices& prices);
    std::int64_t fill(std::size_t seller, std::int64_t lacking, std::int64_t& theta);
    bool stays_closed(std::size_t seller) const;
    void choose();
    void remember(std::vector<double>& slope);
    void judge(Ascent& ascent, std::int64_t bound, const CoverPrices& trial, CoverPrices& prices) const;
    double turn(Ascent& ascent, bool first) const;

    const CoverProblem& problem_;
    const FineCosts& costs_;
    std::vector<std::vector<std::size_t>> columns_of_;  // by seller
    std::vector<Rounded> rounded_;
    std::vector<std::vector<std::size_t>> rounded_of_;  // by need: rows
    const CoverState* state_{};
    bool hopeless_{};
    std::vector<int> needed_;            // by row
    std::vector<std::int64_t> reach_;    // by need
    std::vector<Candidate> candidates_;  // by seller
    std::vector<std::size_t> starts_;
    std::vector<CoverGift> gifts_;
    std::vector<Bundle> bundles_;
    std::vector<std::pair<double, const Candidate*>> ratios_;
    std::vector<std::size_t> willing_;
    std::int64_t bound_{};
};

}  // namespace casebound
