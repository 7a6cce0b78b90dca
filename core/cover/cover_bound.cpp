#include "core/cover/cover_bound.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace casebound {

namespace {

// Tuned on generated orders of 15 and 30 needs; they decide how fast, never what, is proven.
constexpr double blend = 0.15;  // weight of the newest round in the shares
constexpr double memory = 0.5;  // weight of the last direction in the next
constexpr int patience = 9;     // rounds without progress before shorter steps
constexpr double shorter = 0.66, longer = 1.1, longest = 2;
constexpr int hopeful = 5;  // times what half of the rounds brought: more than that the other half will not

int packs_for(int amount, int pack) { return (amount + pack - 1) / pack; }

double to_double(std::int64_t value) { return static_cast<double>(value); }

std::vector<int> pack_sizes(const CoverProblem& problem, std::size_t need) {
    std::vector<int> sizes;
    for (const CoverColumn& column : problem.columns)
        for (const CoverGift& gift : column.gives)
            if (gift.need == need && std::min(gift.amount, problem.needs[need]) > 1)
                sizes.push_back(std::min(gift.amount, problem.needs[need]));
    std::sort(sizes.begin(), sizes.end());
    sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
    return sizes;
}

}  // namespace

CoverBound::CoverBound(const CoverProblem& problem, const FineCosts& costs)
    : problem_(problem), costs_(costs), columns_of_(problem.sellers.size()), rounded_of_(problem.needs.size()) {
    for (std::size_t j = 0; j < problem.columns.size(); ++j)
        columns_of_[problem.offers[problem.columns[j].offer].seller].push_back(j);
    for (std::size_t i = 0; i < problem.needs.size(); ++i)
        for (const int by : pack_sizes(problem, i)) {
            rounded_of_[i].push_back(rows());
            rounded_.push_back({i, by});
        }
}

// The cheapest way to each need, a column's cost shared out by the part of each need that it meets.
CoverPrices CoverBound::first_prices() const {
    CoverPrices prices(rows());
    for (std::size_t j = 0; j < problem_.columns.size(); ++j) {
        double parts = 0;
        const auto part = [&](const CoverGift& gift) {
            return std::min(1.0, static_cast<double>(gift.amount) / std::max(1, problem_.needs[gift.need]));
        };
        for (const CoverGift& gift : problem_.columns[j].gives) parts += part(gift);
        for (const CoverGift& gift : problem_.columns[j].gives) {
            const auto price = std::llround(to_double(costs_.column[j]) / parts /
                                            std::max(1, problem_.needs[gift.need]));
            std::int64_t& known = prices[gift.need];
            known = known == 0 ? price : std::min<std::int64_t>(known, price);
        }
    }
    return prices;
}

void CoverBound::add_gift(Candidate& c, const CoverGift& gift) {
    const int amount = std::min(gift.amount, needed_[gift.need]);
    if (amount == 0) return;
    gifts_.push_back({gift.need, amount});
    c.limit = std::max(c.limit, packs_for(needed_[gift.need], amount));
    for (const std::size_t row : rounded_of_[gift.need])
        gifts_.push_back({row, std::min(packs_for(amount, rounded_[row - problem_.needs.size()].by), needed_[row])});
}

void CoverBound::add_candidate(const CoverState& state, std::size_t column, std::size_t seller) {
    if (!state.may_take(problem_, column)) return;
    const CoverColumn& taken = problem_.columns[column];
    Candidate c;
    c.column = column;
    c.seller = seller;
    c.cost = costs_.column[column];
    c.goods = taken.counts ? problem_.offers[taken.offer].goods_cents : 0;
    c.first = static_cast<std::uint32_t>(gifts_.size());
    for (const CoverGift& gift : taken.gives) add_gift(c, gift);
    c.last = static_cast<std::uint32_t>(gifts_.size());
    if (c.first == c.last) return;
    c.limit = std::min(c.limit, state.left[taken.offer]);
    for (const CoverGift& gift : gifts(c))
        if (is_need(gift)) reach_[gift.need] += static_cast<std::int64_t>(gift.amount) * c.limit;
    candidates_.push_back(c);
}

void CoverBound::look_at(const CoverState& state) {
    state_ = &state;
    candidates_.clear();
    gifts_.clear();
    starts_.assign(1, 0);
    bundles_.assign(problem_.sellers.size(), {});
    reach_.assign(problem_.needs.size(), 0);
    needed_ = state.needed;
    for (const Rounded& row : rounded_) needed_.push_back(packs_for(state.needed[row.need], row.by));
    for (std::size_t s = 0; s < problem_.sellers.size(); ++s) {
        for (const std::size_t column : columns_of_[s]) add_candidate(state, column, s);
        starts_.push_back(candidates_.size());
    }
    hopeless_ = false;
    for (std::size_t i = 0; i < reach_.size(); ++i) hopeless_ = hopeless_ || reach_[i] < state.needed[i];
}

// Least fine cost of `lacking` more cents of goods, packs cut if need be; padding costs its price. At any theta
//   theta * lacking - sum over candidates of max(0, theta * goods - reduced) * limit
// is a valid bound; the theta of the pack that completes the filling is the best one.
std::int64_t CoverBound::fill(std::size_t seller, std::int64_t lacking, std::int64_t& theta) {
    theta = 0;
    if (lacking <= 0) return 0;
    ratios_.clear();
    for (const Candidate& c : of(seller))
        if (c.reduced >= 0 && c.goods > 0 && c.reduced < costs_.cent * c.goods)
            ratios_.emplace_back(to_double(c.reduced) / to_double(c.goods), &c);
    std::make_heap(ratios_.begin(), ratios_.end(), std::greater<>());
    std::int64_t still = lacking;
    std::int64_t last = costs_.cent;
    for (auto rest = ratios_.end(); rest != ratios_.begin(); --rest) {
        const Candidate& c = *ratios_.front().second;
        still -= c.goods * c.limit;
        if (still <= 0) {
            last = c.reduced / c.goods;
            break;
        }
        std::pop_heap(ratios_.begin(), rest, std::greater<>());
    }
    std::int64_t cost = last * lacking;
    for (const auto& [ratio, c] : ratios_) cost -= std::max<std::int64_t>(0, last * c->goods - c->reduced) * c->limit;
    if (cost <= 0) return 0;
    theta = last;
    return cost;
}

// Reduced costs of a seller's candidates; returns what those below zero bring, and adds their goods.
std::int64_t CoverBound::reduce(std::size_t seller, const CoverPrices& prices, std::int64_t& goods) {
    std::int64_t gain = 0;
    for (Candidate& c : of(seller)) {
        std::int64_t reduced = c.cost;
        for (std::uint32_t g = c.first; g < c.last; ++g) reduced -= prices[gifts_[g].need] * gifts_[g].amount;
        c.reduced = reduced;
        if (reduced >= 0) continue;
        gain += reduced * c.limit;
        goods += c.goods * c.limit;
    }
    return gain;
}

void CoverBound::ask(std::size_t seller, const CoverPrices& prices) {
    const CoverSeller& asked = problem_.sellers[seller];
    const Shopping how = state_->shopping[seller];
    Bundle& b = bundles_[seller];
    std::int64_t goods = state_->goods[seller];
    const std::int64_t bundle = reduce(seller, prices, goods) + (state_->used[seller] ? 0 : costs_.use[seller]);
    if (how != Shopping::free)
        b.pays = bundle + costs_.carriage[seller] + fill(seller, asked.minimum_cents - goods, b.pays_theta);
    if (how != Shopping::pays && asked.free_from_cents != never_free_cents)
        b.free = bundle + fill(seller, std::max(asked.minimum_cents, asked.free_from_cents) - goods, b.free_theta);
}

bool CoverBound::stays_closed(std::size_t seller) const {
    return state_->shopping[seller] == Shopping::closed || (!state_->used[seller] && !has_candidates(seller));
}

// Who is bought from: those that must be, and of the others those that lower the bound, as many as are allowed.
void CoverBound::choose() {
    willing_.clear();
    int room = problem_.most_sellers - state_->sellers_used;
    for (std::size_t s = 0; s < bundles_.size(); ++s) {
        Bundle& b = bundles_[s];
        const bool counted = problem_.sellers[s].counted && !state_->used[s];
        b.chosen = state_->must_use(s) && state_->shopping[s] != Shopping::closed;
        if (b.chosen) room -= counted;
        if (b.chosen || stays_closed(s) || b.best() >= 0) continue;
        if (counted) willing_.push_back(s);
        else b.chosen = true;
    }
    const auto more = std::min(static_cast<std::size_t>(std::max(room, 0)), willing_.size());
    std::partial_sort(willing_.begin(), willing_.begin() + static_cast<std::ptrdiff_t>(more), willing_.end(),
                      [&](std::size_t a, std::size_t b) { return bundles_[a].best() < bundles_[b].best(); });
    for (std::size_t i = 0; i < more; ++i) bundles_[willing_[i]].chosen = true;
    for (Bundle& b : bundles_) b.counts = b.chosen ? b.best() : 0;
}

std::int64_t CoverBound::at(const CoverPrices& prices) {
    bound_ = state_->paid;
    for (std::size_t row = 0; row < prices.size(); ++row) bound_ += prices[row] * needed_[row];
    for (std::size_t s = 0; s < bundles_.size(); ++s)
        if (!stays_closed(s)) ask(s, prices);
    choose();
    for (const Bundle& b : bundles_) bound_ += b.counts;
    return bound_;
}

// Who was chosen in this round; and the slope: what is needed less what the chosen bundles give, as part of the need.
void CoverBound::remember(std::vector<double>& slope) {
    for (Bundle& b : bundles_) {
        b.share_open += blend * ((b.chosen ? 1 : 0) - b.share_open);
        b.share_free += blend * ((b.chosen && b.is_free() ? 1 : 0) - b.share_free);
    }
    for (std::size_t row = 0; row < slope.size(); ++row) slope[row] = needed_[row];
    for (Candidate& c : candidates_) {
        const Bundle& b = bundles_[c.seller];
        const bool taken = b.chosen && c.reduced < b.theta() * c.goods;
        c.share += blend * ((taken ? c.limit : 0) - c.share);
        if (!taken) continue;
        for (const CoverGift& gift : gifts(c)) slope[gift.need] -= static_cast<double>(gift.amount) * c.limit;
    }
    for (std::size_t row = 0; row < slope.size(); ++row) slope[row] /= std::max(1, needed_[row]);
}

// Prices are moved as worth of a whole need, so that large needs do not drown small ones.
struct CoverBound::Ascent {
    std::vector<double> now, centre, along, newest;
    std::int64_t best = -FineCosts::impossible;
    double step{};
    int idle{};
};

void CoverBound::judge(Ascent& ascent, std::int64_t bound, const CoverPrices& trial, CoverPrices& prices) const {
    ++ascent.idle;
    if (bound > ascent.best) {
        const double agree = std::inner_product(ascent.along.begin(), ascent.along.end(), ascent.newest.begin(), 0.0);
        if (agree > 0) ascent.step = std::min(longest, ascent.step * longer);
        if (bound > ascent.best + (std::abs(ascent.best) >> 14)) ascent.idle = 0;
        ascent.best = bound;
        prices = trial;
        ascent.centre = ascent.now;
    }
    if (ascent.idle < patience) return;
    ascent.step *= shorter;
    ascent.idle = 0;
    ascent.now = ascent.centre;
}

// The direction to go on in; returns its length squared.
double CoverBound::turn(Ascent& ascent, bool first) const {
    double size = 0;
    for (std::size_t row = 0; row < ascent.along.size(); ++row) {
        double& along = ascent.along[row];
        along = first ? ascent.newest[row] : memory * along + (1 - memory) * ascent.newest[row];
        if (ascent.now[row] > 0 || along > 0) size += along * along;
    }
    return size;
}

std::int64_t CoverBound::raise(CoverPrices& prices, std::int64_t enough, int rounds, double step, Rounds which) {
    CoverPrices trial = prices;
    Ascent ascent{std::vector<double>(rows()), {}, std::vector<double>(rows()), std::vector<double>(rows())};
    ascent.step = step;
    for (std::size_t row = 0; row < rows(); ++row) ascent.now[row] = to_double(prices[row]) * needed_[row];
    std::int64_t first = 0;
    for (int round = 0; round < rounds; ++round) {
        const std::int64_t bound = at(trial);
        remember(ascent.newest);
        judge(ascent, bound, trial, prices);
        if (ascent.best >= enough) break;
        if (round == 0) first = ascent.best;
        if (which == Rounds::while_hopeful && 2 * (round + 1) == rounds &&
            enough - ascent.best > hopeful * (ascent.best - first))
            break;
        const double size = turn(ascent, round == 0);
        if (size < 1e-6) break;
        const double stride = ascent.step * to_double(std::max<std::int64_t>(enough - bound, 1)) / size;
        for (std::size_t row = 0; row < rows(); ++row) {
            if (needed_[row] == 0) continue;
            ascent.now[row] = std::clamp(ascent.now[row] + stride * ascent.along[row], 0.0, to_double(costs_.dearest));
            trial[row] = static_cast<std::int64_t>(ascent.now[row] / needed_[row] + 0.5);
        }
    }
    return at(prices);
}

std::int64_t CoverBound::with(const Candidate& c) const {
    const Bundle& b = bundles_[c.seller];
    const auto extra = [&](std::int64_t theta) { return std::max<std::int64_t>(0, c.reduced - theta * c.goods); };
    return without(c.seller) + std::min(b.pays + extra(b.pays_theta), b.free + extra(b.free_theta));
}

}  // namespace casebound
