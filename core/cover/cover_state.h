// A partly decided order during the search for the cheapest one: what is still needed, what was taken, and what
// was ruled out. Costs here are "fine": a cost is followed by a tie-break, so that among equals fewer sellers
// win, then earlier sellers, then earlier columns.
#pragma once

#include <vector>

#include "core/cover/cover_problem.h"

namespace casebound {

struct FineCosts {
    // Throws Error(bad_data) for amounts that are negative, or too large to be counted exactly.
    explicit FineCosts(const CoverProblem& problem);
    std::int64_t whole(std::int64_t fine) const { return fine >> bits; }
    std::int64_t fine(std::int64_t whole) const { return whole << bits; }

    static constexpr std::int64_t impossible = std::numeric_limits<std::int64_t>::max() / 8;
    int bits{};  // of the tie-break
    std::int64_t cent{};
    std::int64_t dearest{};                           // no single need is worth more
    std::vector<std::int64_t> column, use, carriage;  // use: tie-break of buying from the seller at all

private:
    void measure(const CoverProblem& problem);
};

// `open`: it is certain that something is bought there; `pays` and `free`: and whether carriage is paid.
enum class Shopping : std::uint8_t { undecided, closed, open, pays, free };

struct CoverState {
    explicit CoverState(const CoverProblem& problem);

    bool covered() const;
    void take(const CoverProblem& problem, const FineCosts& costs, std::size_t column);
    bool must_use(std::size_t seller) const { return used[seller] || shopping[seller] > Shopping::closed; }
    bool may_take(const CoverProblem& problem, std::size_t column) const;

    std::vector<int> needed;          // by need
    std::vector<int> packs;           // by column
    std::vector<int> left;            // by offer
    std::vector<char> barred;         // by column: no more of it
    std::vector<std::int64_t> goods;  // cents, by seller
    std::vector<char> used;           // by seller
    std::vector<Shopping> shopping;   // by seller
    std::int64_t paid{};              // fine: columns and use, not carriage
    int sellers_used{};               // counted ones
};

}  // namespace casebound
