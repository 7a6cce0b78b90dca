#include "core/cover/cover_fork.h"

#include <algorithm>
#include <cmath>

namespace casebound {

namespace {

constexpr double nearly_whole = 0.03;  // what is this near to it is not worth a branch of its own
constexpr double trust_in_all = 4;     // what others of its kind brought counts as so many decisions of its own

}  // namespace

CoverState CoverFork::decided(const CoverProblem& problem, const FineCosts& costs, const CoverState& state,
                              bool yes) const {
    CoverState child = state;
    if (of == Of::seller) child.shopping[which] = yes ? Shopping::open : Shopping::closed;
    else if (of == Of::threshold) child.shopping[which] = yes ? Shopping::free : Shopping::pays;
    else if (yes) child.take(problem, costs, which);
    else child.barred[which] = 1;
    return child;
}

CoverForks::CoverForks(const CoverProblem& problem, const FineCosts& costs) : problem_(problem), costs_(costs) {
    for (auto& each : of_each_) each.resize(problem.sellers.size());
    of_each_[static_cast<std::size_t>(CoverFork::Of::column)].resize(problem.columns.size());
}

// Of what such decisions brought: its own, and, as long as these are few, those of all of its kind. Before there are any,
// what is in doubt itself.
double CoverForks::expected(const CoverFork& fork, bool yes) const {
    const auto kind = static_cast<std::size_t>(fork.of);
    const auto &own = of_each_[kind][fork.which].of(yes), &all = of_all_[kind].of(yes);
    const double average = (all.count > 0 ? all.sum / all.count : 1) * fork.cost;
    return (own.sum + average * trust_in_all) / (own.count + trust_in_all) * fork.doubt(yes);
}

double CoverForks::weight(const CoverFork& fork) const {
    return std::max(expected(fork, true), 1.0) * std::max(expected(fork, false), 1.0);
}

std::optional<CoverFork> CoverForks::best(const CoverState& state, const CoverBound& bound) const {
    std::optional<CoverFork> best;
    double most = 0;
    const auto consider = [&](const CoverFork& fork) {
        if (std::min(fork.share, 1 - fork.share) < nearly_whole) return;
        const double weighed = weight(fork);
        if (weighed > most) most = weighed, best = fork;
    };
    for (std::size_t s = 0; s < problem_.sellers.size(); ++s) {
        const bool open = state.must_use(s);
        if (!bound.has_candidates(s) || costs_.carriage[s] == 0 || state.shopping[s] == Shopping::closed ||
            state.shopping[s] > Shopping::open || (open && state.goods[s] >= problem_.sellers[s].free_from_cents))
            continue;
        const auto& bundle = bound.bundle(s);
        consider({open ? CoverFork::Of::threshold : CoverFork::Of::seller, s,
                  open ? bundle.share_free : bundle.share_open, static_cast<double>(costs_.carriage[s])});
    }
    for (const auto& c : bound.candidates())
        if (state.may_take(problem_, c.column))
            consider({CoverFork::Of::column, c.column, c.share - std::floor(c.share),
                      static_cast<double>(std::max<std::int64_t>(c.cost, 1))});
    return best;
}

void CoverForks::learn(const CoverFork& fork, bool yes, std::int64_t rise) {
    const auto add = [&](BothSides& sides, double one) {
        auto& rises = yes ? sides.yes : sides.no;
        rises.sum += one;
        ++rises.count;
    };
    const auto kind = static_cast<std::size_t>(fork.of);
    const double one = static_cast<double>(std::max<std::int64_t>(rise, 0)) / fork.doubt(yes);
    add(of_each_[kind][fork.which], one);
    add(of_all_[kind], one / fork.cost);
}

}  // namespace casebound
