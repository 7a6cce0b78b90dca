// Which decision of a partly decided order to branch on: the one that is expected to raise the bound most, one side times
// the other, by what such decisions have brought before (pseudo-costs: Benichou and others, Mathematical Programming 1,
// 1971, from memory). It decides how fast, never what, is proven.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "core/cover/cover_bound.h"

namespace casebound {

struct CoverFork {
    // Yes or no: one more pack of a column, or no more of it; bought from a seller, or not; and if bought from, above the
    // threshold of carriage, or below it.
    enum class Of : std::uint8_t { column, seller, threshold };
    Of of{};
    std::size_t which{};
    double share{};  // of yes, in the last rounds of the bound
    double cost{};   // fine, of what is in doubt; above 0

    bool likely() const { return share > 0.5; }
    double doubt(bool yes) const { return yes ? 1 - share : share; }
    CoverState decided(const CoverProblem& problem, const FineCosts& costs, const CoverState& state, bool yes) const;
};

class CoverForks {
public:
    CoverForks(const CoverProblem& problem, const FineCosts& costs);

    // Nothing when all is nearly whole. `bound` has looked at the state.
    std::optional<CoverFork> best(const CoverState& state, const CoverBound& bound) const;
    // The bound rose by so much, in fine cost, once it was decided.
    void learn(const CoverFork& fork, bool yes, std::int64_t rise);

private:
    struct Rises {  // for one whole of doubt
        double sum{};
        int count{};
    };
    struct BothSides {
        Rises yes, no;
        const Rises& of(bool taken) const { return taken ? yes : no; }
    };
    double expected(const CoverFork& fork, bool yes) const;
    double weight(const CoverFork& fork) const;

    const CoverProblem& problem_;
    const FineCosts& costs_;
    static constexpr std::size_t kinds = 3;              // of Of
    std::array<std::vector<BothSides>, kinds> of_each_;  // then by column or seller
    std::array<BothSides, kinds> of_all_;                // for one of cost
};

}  // namespace casebound
