#include "science/quantity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

constexpr double highest_need_l = 100;
constexpr std::size_t most_containers = 12;
constexpr std::size_t most_states = 400'000;
constexpr std::int64_t nl_per_l = 1'000'000'000;

std::int64_t to_nl(double litres) { return std::llround(litres * 1e9); }
double to_l(std::int64_t nanolitres) { return static_cast<double>(nanolitres) / 1e9; }

// Packs bought so far. Costs are in hundredths.
struct State {
    std::int64_t volume_nl = 0;
    std::int64_t cost = 0;
    std::array<int, most_containers> counts{};

    int count() const { return std::accumulate(counts.begin(), counts.end(), 0); }
};

// One question: hold at least hold_nl, leftovers counted from need_nl.
struct Problem {
    std::int64_t need_nl;
    std::int64_t hold_nl;
    std::int64_t worth;  // hundredths per litre
    std::int64_t usable_nl;

    // Buying beyond this never pays.
    std::int64_t enough_nl() const { return worth > 0 ? std::max(hold_nl, need_nl + usable_nl) : hold_nl; }
    // Hundredths per litre of leftover, in 1e-9 hundredths. Cannot overflow:
    // prices, needs and sizes are bounded.
    std::int64_t worth_at(std::int64_t volume_nl) const {
        return worth * std::clamp<std::int64_t>(volume_nl - need_nl, 0, usable_nl);
    }
    std::int64_t net_cost(const State& s) const { return s.cost * nl_per_l - worth_at(s.volume_nl); }
};

bool better(const Problem& problem, const State& a, const State& b) {
    const auto net_a = problem.net_cost(a), net_b = problem.net_cost(b);
    if (net_a != net_b) return net_a < net_b;
    if (a.volume_nl != b.volume_nl) return a.volume_nl < b.volume_nl;
    if (a.count() != b.count()) return a.count() < b.count();
    return a.counts > b.counts;
}

// Search over the containers one after the other, cheapest litre first. A layer is
// every purchase of the containers so far that may still lead to the best one.
class Search {
public:
    Search(const Problem& problem, const std::vector<Container>& containers)
        : problem_(problem), containers_(containers), order_(containers.size()) {
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
            return per_litre(containers_[a]) < per_litre(containers_[b]);
        });
    }

    std::optional<State> run() {
        std::vector<State> layer{State{}};
        keep_best(layer.front());
        for (std::size_t i = 0; i < order_.size(); ++i) {
            layer = expand(layer, order_[i]);
            prune(layer, i + 1);
        }
        return best_;
    }

private:
    static double per_litre(const Container& container) {
        return static_cast<double>(container.price_hundredths) / to_l(to_nl(container.size_l));
    }

    void keep_best(const State& state) {
        if (state.volume_nl < problem_.hold_nl) return;
        if (!best_ || better(problem_, state, *best_)) best_ = state;
    }

    std::vector<State> expand(const std::vector<State>& layer, std::size_t container) {
        const std::int64_t size_nl = to_nl(containers_[container].size_l);
        const int most = containers_[container].at_most.value_or(std::numeric_limits<int>::max());
        std::vector<State> next;
        for (State state : layer) {
            next.push_back(state);
            for (int n = 0; n < most && state.volume_nl < problem_.enough_nl(); ++n) {
                state.volume_nl += size_nl;
                state.cost += containers_[container].price_hundredths;
                ++state.counts[container];
                keep_best(state);
                next.push_back(state);
            }
            check_size(next.size());
        }
        return next;
    }

    static void check_size(std::size_t states) {
        if (states > most_states)
            refuse("packs offered", "more than 400000 ways to combine them", "fewer pack sizes or a smaller need");
    }

    // No purchase that starts with `state` and adds containers from `from` on nets less.
    double lower_bound(const State& state, std::size_t from) const {
        double bound = std::numeric_limits<double>::infinity();
        if (from == order_.size()) return bound;
        const double cheapest = per_litre(containers_[order_[from]]);
        for (const std::int64_t target : {std::max(problem_.hold_nl, state.volume_nl), problem_.enough_nl()}) {
            if (target < state.volume_nl) continue;
            const auto missing_nl = static_cast<double>(target - state.volume_nl);
            bound = std::min(bound, static_cast<double>(state.cost) * 1e9 + missing_nl * cheapest -
                                        static_cast<double>(problem_.worth_at(target)));
        }
        return bound;
    }

    bool hopeless(const State& state, std::size_t from) const {
        if (!best_) return false;
        const auto net = static_cast<double>(problem_.net_cost(*best_));
        return lower_bound(state, from) > net + 1e-9 * std::abs(net) + 1;
    }

    // Drops what a larger, strictly cheaper purchase beats, all but the best of
    // one volume, and what cannot reach the best any more.
    void prune(std::vector<State>& layer, std::size_t from) const {
        std::sort(layer.begin(), layer.end(), [](const State& a, const State& b) {
            if (a.volume_nl != b.volume_nl) return a.volume_nl > b.volume_nl;
            if (a.cost != b.cost) return a.cost < b.cost;
            if (a.count() != b.count()) return a.count() < b.count();
            return a.counts > b.counts;
        });
        std::vector<State> kept;
        auto least = std::numeric_limits<std::int64_t>::max();
        for (const State& state : layer) {
            const bool same = !kept.empty() && kept.back().volume_nl == state.volume_nl;
            if (same || state.cost > least || hopeless(state, from)) continue;
            least = state.cost;
            kept.push_back(state);
        }
        layer = std::move(kept);
    }

    const Problem& problem_;
    const std::vector<Container>& containers_;
    std::vector<std::size_t> order_;
    std::optional<State> best_;
};

ContainerChoice to_choice(const State& state, const Problem& problem, std::size_t containers) {
    return {std::vector<int>(state.counts.begin(), state.counts.begin() + static_cast<std::ptrdiff_t>(containers)),
            to_l(state.volume_nl), to_l(state.volume_nl - problem.need_nl), state.cost,
            static_cast<double>(problem.worth_at(state.volume_nl)) / 1e9};
}

void check_containers(const std::vector<Container>& containers) {
    in_range("number of pack sizes offered", static_cast<double>(containers.size()), 1,
             static_cast<double>(most_containers), "");
    for (const Container& container : containers) {
        in_range("pack size", container.size_l, 0.1, 250, "L");
        in_range("pack price", static_cast<double>(container.price_hundredths), 0, 1e6,
                 "hundredths of the currency unit");
        if (container.at_most) in_range("packs there are", *container.at_most, 0, 1e6, "");
        if (container.price_hundredths == 0 && !container.at_most)
            refuse("packs there are of one that costs nothing", "no number", "0 to 1000000; own stock has an end");
    }
}

}  // namespace

double have_ready_l(const DrainAndFill& job) {
    if (job.kind == CapacityKind::dry_fill)
        refuse("capacity for a drain-and-fill", "a dry fill",
               "a measured drain or a service refill; a dry fill is that of an empty unit");
    above("drained volume", job.drained_l, 0, highest_need_l, "L");
    in_range("number of changes", job.changes, 1, 20, "");
    in_range("allowance", job.allowance, 0, 0.25, "");
    in_range("spill", job.spill_l, 0, 5, "L");
    in_range("filter and cooler volume", job.filter_and_cooler_l, 0, 20, "L");
    return job.changes * job.drained_l * (1 + job.allowance) + job.spill_l + job.filter_and_cooler_l;
}

double have_ready_for_unit_l(double dry_fill_l, double cooler_l) {
    above("dry fill", dry_fill_l, 0, highest_need_l, "L");
    in_range("cooler volume", cooler_l, 0, 20, "L");
    return (dry_fill_l + cooler_l) * 1.05;
}

std::optional<ContainerAdvice> choose_containers(double need_l, const std::vector<Container>& containers,
                                                 double reserve_l, LeftoverWorth worth) {
    above("volume needed", need_l, 0, highest_need_l, "L");
    in_range("reserve", reserve_l, 0, 20, "L");
    in_range("worth of a leftover litre", static_cast<double>(worth.hundredths_per_l), 0, 1e5,
             "hundredths of the currency unit");
    in_range("leftover that will be used", worth.usable_l, 0, highest_need_l, "L");
    check_containers(containers);
    Problem problem{to_nl(need_l), to_nl(need_l), worth.hundredths_per_l, to_nl(worth.usable_l)};
    const auto cheapest = Search(problem, containers).run();
    if (!cheapest) return std::nullopt;
    ContainerAdvice advice{to_choice(*cheapest, problem, containers.size()), false, std::nullopt};
    const std::int64_t safe_nl = problem.need_nl + to_nl(reserve_l);
    advice.reserve_too_small = cheapest->volume_nl < safe_nl;
    if (!advice.reserve_too_small) return advice;
    problem.hold_nl = safe_nl;
    if (const auto safe = Search(problem, containers).run())
        advice.with_reserve = to_choice(*safe, problem, containers.size());
    return advice;
}

}  // namespace casebound::transmission_fluids
