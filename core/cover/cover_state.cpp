#include "core/cover/cover_state.h"

#include <algorithm>
#include <bit>
#include <string_view>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

// Of 25 bits the ranks of an order's columns use 14, those of its sellers 6, their number 5: enough at a workshop's
// size. Where amounts are so large that fewer bits are left, ties are still broken the same way every time.
constexpr int most_bits = 25, least_bits = 12, number_bits = 5, rank_bits = 6;
constexpr int need_bits = 47, order_bits = 59;  // of the largest fine worth of a need, and of an order
constexpr std::int64_t most_whole = std::int64_t{1} << (order_bits - least_bits);

int width(std::int64_t value) { return static_cast<int>(std::bit_width(static_cast<std::uint64_t>(value))); }

// Adds and multiplies amounts that must stay countable.
class Tally {
public:
    explicit Tally(std::string_view what) : what_(what) {}
    std::int64_t product(std::int64_t a, std::int64_t b) const {
        if (a < 0 || b < 0 || (a > 0 && b > most_whole / a)) refuse();
        return a * b;
    }
    void add(std::int64_t amount) {
        if (amount < 0 || amount > most_whole - sum_) refuse();
        sum_ += amount;
    }
    std::int64_t sum() const { return sum_; }

private:
    [[noreturn]] void refuse() const {
        throw Error(
            Exit::bad_data,
            fmt::format("order: {}: negative, or too large to be counted exactly: check prices, packs and needs",
                        what_));
    }
    std::string_view what_;
    std::int64_t sum_{};
};

}  // namespace

void FineCosts::measure(const CoverProblem& problem) {
    Tally whole_order("the order as a whole"), need("the price of a need");
    std::vector<std::int64_t> dearest_way(problem.needs.size());
    for (const CoverColumn& c : problem.columns) {
        need.product(problem.offers[c.offer].goods_cents, problem.cost_per_cent);
        for (const CoverGift& gift : c.gives) {
            const std::int64_t packs = gift.amount < 1
                                           ? -1
                                           : (problem.needs[gift.need] + std::int64_t{gift.amount} - 1) / gift.amount;
            dearest_way[gift.need] = std::max(dearest_way[gift.need], need.product(c.cost, packs));
        }
    }
    std::int64_t dearest_whole = 1;
    for (const std::int64_t way : dearest_way) {
        whole_order.add(way);
        dearest_whole = std::max(dearest_whole, way);
    }
    std::int64_t largest_extra = 0;
    for (const CoverSeller& seller : problem.sellers) {
        Tally extra("carriage and minimum order of a seller");
        extra.add(extra.product(seller.carriage_cents, problem.cost_per_cent));
        extra.add(extra.product(seller.minimum_cents, problem.cost_per_cent));
        extra.product(seller.free_from_cents == never_free_cents ? 0 : seller.free_from_cents, problem.cost_per_cent);
        largest_extra = std::max(largest_extra, extra.sum());
        whole_order.add(extra.sum());
    }
    whole_order.add(dearest_whole);
    bits = std::min(
        {most_bits, need_bits - width(dearest_whole + largest_extra), order_bits - width(whole_order.sum())});
    if (bits < least_bits) whole_order.add(most_whole);
    dearest = fine(dearest_whole + largest_extra);
}

FineCosts::FineCosts(const CoverProblem& problem) {
    measure(problem);
    cent = fine(problem.cost_per_cent);
    const int number_bit = bits - number_bits, rank_bit = number_bit - rank_bits;
    for (const CoverColumn& c : problem.columns)
        column.push_back(fine(c.cost) + (static_cast<std::int64_t>(column.size()) >> (most_bits - bits)));
    for (const CoverSeller& seller : problem.sellers) {
        const auto rank = static_cast<std::int64_t>(use.size());
        use.push_back(seller.counted ? (std::int64_t{1} << number_bit) + (rank << rank_bit) : 0);
        carriage.push_back(seller.carriage_cents * cent);
    }
}

CoverState::CoverState(const CoverProblem& problem)
    : needed(problem.needs), packs(problem.columns.size()), barred(problem.columns.size()),
      goods(problem.sellers.size()), used(problem.sellers.size()),
      shopping(problem.sellers.size(), Shopping::undecided) {
    for (const CoverOffer& offer : problem.offers) left.push_back(offer.available);
}

bool CoverState::covered() const {
    return std::all_of(needed.begin(), needed.end(), [](int amount) { return amount == 0; });
}

bool CoverState::may_take(const CoverProblem& problem, std::size_t column) const {
    const std::size_t offer = problem.columns[column].offer;
    return !barred[column] && left[offer] > 0 && shopping[problem.offers[offer].seller] != Shopping::closed;
}

void CoverState::take(const CoverProblem& problem, const FineCosts& costs, std::size_t column) {
    const CoverColumn& taken = problem.columns[column];
    const CoverOffer& offer = problem.offers[taken.offer];
    for (const CoverGift& gift : taken.gives) needed[gift.need] = std::max(0, needed[gift.need] - gift.amount);
    ++packs[column];
    --left[taken.offer];
    if (taken.counts) goods[offer.seller] += offer.goods_cents;
    paid += costs.column[column];
    if (used[offer.seller]) return;
    used[offer.seller] = 1;
    paid += costs.use[offer.seller];
    sellers_used += problem.sellers[offer.seller].counted;
}

}  // namespace casebound
