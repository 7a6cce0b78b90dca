// Good complete orders, found quickly: the search proves or betters them. Never says that one is the cheapest.
#pragma once

#include "core/cover/cover_bound.h"
#include "core/cover/cover_settle.h"

namespace casebound {

class CoverGuess {
public:
    CoverGuess(const CoverProblem& problem, const FineCosts& costs);

    // Completes a state at these prices from the sellers in `open` (by seller). Nothing when that is not possible.
    std::optional<std::vector<int>> complete(const CoverState& state, const CoverPrices& prices,
                                             const std::vector<char>& open);
    // The same packs after every single change that pays: one pack more, and all that it makes needless less.
    std::vector<int> bettered(const std::vector<int>& packs, const std::vector<char>& open);
    // Fine cost of packs, cut packs as padding.
    std::int64_t roughly(const std::vector<int>& packs);

private:
    struct Draft {
        std::vector<int> packs, spare, left;  // by column; by need, more than needed; by offer
        std::vector<std::int64_t> goods;      // by seller
        std::vector<int> bought;              // packs by seller
        std::int64_t cost{};                  // fine, of the columns
    };
    Draft empty() const;
    void add(Draft& draft, std::size_t column, int packs) const;
    bool needless(const Draft& draft, std::size_t column) const;
    void make_lean(Draft& draft, const std::vector<std::size_t>& columns, const std::vector<int>& keep) const;
    void find_rivals(const Draft& draft, std::size_t column);
    std::int64_t value(const Draft& draft) const;
    std::optional<double> cost_for_worth(const Draft& draft, std::size_t column, const CoverPrices& prices) const;

    const CoverProblem& problem_;
    const FineCosts& costs_;
    std::vector<std::size_t> dearest_first_, rank_;  // columns; and by column its place among them
    std::vector<std::vector<std::size_t>> ways_to_;  // by need: columns, dearest first
    std::vector<std::size_t> rivals_;                // found last
};

}  // namespace casebound
