#include "core/cover/cover_search.h"

#include <algorithm>

#include "core/cover/cover_fork.h"
#include "core/cover/cover_guess.h"

namespace casebound {

namespace {

// Tuned on generated orders of 15 and 30 needs; they decide how fast, never what, is proven.
constexpr int start_turns = 3, start_rounds = 40, node_rounds = 12;
constexpr double start_step = 1.0, step = 0.8;
constexpr int guess_every = 16;  // nodes
constexpr std::int64_t quick_nodes = 250;
constexpr int deepening_steps = 4;

// The decision that a state comes from, and the bound before it.
struct Decided {
    const CoverFork* fork{};
    bool yes{};
    std::int64_t bound{};
};

class Search {
public:
    Search(const CoverProblem& problem, std::optional<std::int64_t> below)
        : problem_(problem), costs_(problem), bound_(problem_, costs_), forks_(problem_, costs_),
          guess_(problem_, costs_), limit_(below ? costs_.fine(*below) : FineCosts::impossible) {}

    CoverAnswer run() {
        CoverState root(problem_);
        bound_.look_at(root);
        if (bound_.hopeless()) return answer_;
        CoverPrices prices = bound_.first_prices();
        start(root, prices);
        const std::int64_t low = bound_.at(prices);
        if (!search(root, prices, std::min(quick_nodes, problem_.most_nodes)))
            answer_.proven = deepen(root, prices, low);
        answer_.at_least = answer_.proven ? answer_.cost : costs_.whole(low);
        return answer_;
    }

private:
    void keep(const std::vector<int>& packs) {
        const auto found = settled(problem_, costs_, packs, limit_);
        if (!found) return;
        limit_ = found->cost;
        answer_.found = true;
        answer_.cost = costs_.whole(found->cost);
        answer_.packs = packs;
        answer_.padding = found->padding;
    }

    void keep_bettered(const std::vector<int>& packs) {
        const std::int64_t before = limit_;
        keep(packs);
        if (limit_ < before) keep(guess_.bettered(packs, std::vector<char>(problem_.sellers.size(), 1)));
    }

    std::int64_t try_sellers(const CoverState& root, const CoverPrices& prices, const std::vector<char>& open) {
        const auto complete = guess_.complete(root, prices, open);
        if (!complete) return FineCosts::impossible;
        const auto packs = guess_.bettered(*complete, open);
        keep(packs);
        return guess_.roughly(packs);
    }

    void start(const CoverState& root, CoverPrices& prices) {
        std::vector<char> open(problem_.sellers.size(), 1);
        try_sellers(root, prices, open);
        for (int turn = 0; turn < start_turns; ++turn) {
            if (bound_.raise(prices, limit_, start_rounds, turn == 0 ? start_step : step) >= limit_) return;
            for (std::size_t s = 0; s < open.size(); ++s) open[s] = bound_.bundle(s).share_open > 0.5;
            try_sellers(root, prices, open);
        }
        flip_sellers(root, prices, open);
    }

    void flip_sellers(const CoverState& root, const CoverPrices& prices, std::vector<char>& open) {
        std::int64_t least = try_sellers(root, prices, open);
        for (bool again = true; again;) {
            again = false;
            for (char& one : open) {
                one = !one;
                const std::int64_t cost = try_sellers(root, prices, open);
                if (cost < least) least = cost, again = true;
                else one = !one;
            }
        }
    }

    // Looks at everything below the limit; false when it has looked at so many nodes and had to stop.
    bool search(CoverState root, const CoverPrices& prices, std::int64_t most_nodes) {
        stop_at_ = most_nodes;
        visit(root, prices, {});
        return answer_.nodes < stop_at_;
    }

    // A search under a low limit is short, and if it finds anything it ends with the cheapest. So the limit is raised
    // in steps from the proven bound to the best order known.
    bool deepen(const CoverState& root, const CoverPrices& prices, std::int64_t low) {
        const std::int64_t high = limit_;
        for (int part = high == FineCosts::impossible ? deepening_steps : 1; part <= deepening_steps; ++part) {
            const std::int64_t limit = part == deepening_steps ? high : low + (high - low) / deepening_steps * part;
            limit_ = limit;
            if (!search(root, prices, problem_.most_nodes)) return false;
            if (limit_ < limit) break;
        }
        return true;
    }

    void guess_from(const CoverState& state, const CoverPrices& prices) {
        std::vector<char> open(problem_.sellers.size());
        for (std::size_t s = 0; s < open.size(); ++s) open[s] = bound_.bundle(s).chosen;
        const auto packs = guess_.complete(state, prices, open);
        if (!packs) return;
        keep(*packs);
        if (guess_.roughly(*packs) < limit_ + limit_ / 50) keep(guess_.bettered(*packs, open));
    }

    void visit(CoverState& state, CoverPrices prices, Decided decided) {
        if (answer_.nodes >= stop_at_ || state.sellers_used > problem_.most_sellers) return;
        ++answer_.nodes;
        if (state.covered()) return keep_bettered(state.packs);
        std::int64_t bound = 0;
        for (int again = 0; again < 2; ++again) {
            bound_.look_at(state);
            bound = bound_.hopeless()
                        ? limit_
                        : bound_.raise(prices, limit_, node_rounds, step, CoverBound::Rounds::while_hopeful);
            const bool bounded = limit_ < FineCosts::impossible;  // else a dead end tells of no rise
            if (decided.fork && again == 0 && bounded)
                forks_.learn(*decided.fork, decided.yes, std::min(bound, limit_) - decided.bound);
            if (bound >= limit_) return;
            if (answer_.nodes % guess_every == 1) guess_from(state, prices);
            if (!rule_out(state)) break;
        }
        branch(state, prices, bound);
    }

    // What cannot be part of a cheaper order. Returns whether it was enough to look again.
    bool rule_out(CoverState& state) const {
        std::size_t count = 0;
        for (const auto& c : bound_.candidates()) {
            if (bound_.with(c) < limit_) continue;
            state.barred[c.column] = 1;
            ++count;
        }
        for (std::size_t s = 0; s < problem_.sellers.size(); ++s) {
            Shopping& how = state.shopping[s];
            if (how != Shopping::undecided || state.used[s] || !bound_.has_candidates(s)) continue;
            if (bound_.with_open(s) >= limit_) how = Shopping::closed;
            else if (problem_.most_sellers == without_end && bound_.without(s) >= limit_) how = Shopping::open;
            count += how != Shopping::undecided;
        }
        return count * 5 > bound_.candidates().size();
    }

    void branch(const CoverState& state, const CoverPrices& prices, std::int64_t bound) {
        const auto fork = forks_.best(state, bound_);
        if (!fork) return branch_need(state, prices);
        for (const bool yes : {fork->likely(), !fork->likely()}) {
            CoverState child = fork->decided(problem_, costs_, state, yes);
            visit(child, prices, {&*fork, yes, bound});
        }
    }

    // The need with the fewest ways left, most expensive first among equals.
    std::size_t scarcest_need(const CoverState& state, const CoverPrices& prices) const {
        std::vector<int> ways(problem_.needs.size());
        for (const auto& c : bound_.candidates())
            for (const CoverGift& gift : bound_.gifts(c))
                if (bound_.is_need(gift)) ways[gift.need] += state.may_take(problem_, c.column);
        std::size_t scarcest = ways.size();
        const auto worth = [&](std::size_t i) { return prices[i] * state.needed[i]; };
        for (std::size_t i = 0; i < ways.size(); ++i) {
            if (state.needed[i] == 0) continue;
            if (scarcest == ways.size() || ways[i] < ways[scarcest] ||
                (ways[i] == ways[scarcest] && worth(i) > worth(scarcest)))
                scarcest = i;
        }
        return scarcest;
    }

    // One more pack of the first way; or none of it, and of the second; and so on.
    void branch_need(const CoverState& state, const CoverPrices& prices) {
        const std::size_t need = scarcest_need(state, prices);
        std::vector<std::pair<std::int64_t, std::size_t>> ways;
        for (const auto& c : bound_.candidates())
            for (const CoverGift& gift : bound_.gifts(c))
                if (gift.need == need && state.may_take(problem_, c.column))
                    ways.emplace_back(bound_.with(c), c.column);
        std::sort(ways.begin(), ways.end());
        CoverState rest = state;
        for (const auto& [at_least, column] : ways) {
            if (at_least >= limit_) break;
            CoverState child = rest;
            child.take(problem_, costs_, column);
            visit(child, prices, {});
            rest.barred[column] = 1;
        }
    }

    const CoverProblem& problem_;
    const FineCosts costs_;
    CoverBound bound_;
    CoverForks forks_;
    CoverGuess guess_;
    std::int64_t limit_;      // fine; only cheaper orders are of interest
    std::int64_t stop_at_{};  // nodes
    CoverAnswer answer_;
};

}  // namespace

CoverAnswer cheapest_cover(const CoverProblem& problem, std::optional<std::int64_t> below) {
    return Search(problem, below).run();
}

}  // namespace casebound
