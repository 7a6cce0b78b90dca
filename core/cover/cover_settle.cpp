#include "core/cover/cover_settle.h"

#include <algorithm>

namespace casebound {

namespace {

struct Padding {
    std::int64_t cents{};
    std::vector<std::size_t> offers;  // one entry a pack
};

class Padder {
public:
    Padder(const CoverProblem& problem, const std::vector<int>& left, std::size_t seller)
        : problem_(problem), left_(left) {
        for (std::size_t o = 0; o < problem.offers.size(); ++o)
            if (problem.offers[o].seller == seller && problem.offers[o].may_pad && problem.offers[o].goods_cents > 0 &&
                left[o] > 0)
                offers_.push_back(o);
    }

    // The least sum of whole packs that is at least `gap` and at most `most` cents.
    std::optional<Padding> least(std::int64_t gap, std::int64_t most) {
        std::int64_t largest = 0;
        for (const std::size_t o : offers_) largest = std::max(largest, problem_.offers[o].goods_cents);
        most = std::min(most, gap + largest - 1);
        if (gap > most) return std::nullopt;
        reach(static_cast<std::size_t>(most) + 1);
        for (auto sum = static_cast<std::size_t>(gap); sum < last_.size(); ++sum)
            if (last_[sum] != nothing) return made_of(sum);
        return std::nullopt;
    }

private:
    static constexpr std::size_t nothing = static_cast<std::size_t>(-1), empty = nothing - 1;

    std::size_t cents(std::size_t offer) const { return static_cast<std::size_t>(problem_.offers[offer].goods_cents); }

    // last_[sum]: the offer whose pack completes the sum. Each offer in turn, as often as there are packs of it.
    void reach(std::size_t size) {
        last_.assign(size, nothing);
        last_[0] = empty;
        for (const std::size_t o : offers_) {
            std::vector<int> used(size);
            for (std::size_t sum = cents(o); sum < size; ++sum) {
                const std::size_t before = sum - cents(o);
                if (last_[sum] != nothing || last_[before] == nothing || used[before] >= left_[o]) continue;
                last_[sum] = o;
                used[sum] = used[before] + 1;
            }
        }
    }

    Padding made_of(std::size_t sum) const {
        Padding padding{static_cast<std::int64_t>(sum), {}};
        for (; sum > 0; sum -= cents(last_[sum])) padding.offers.push_back(last_[sum]);
        return padding;
    }

    const CoverProblem& problem_;
    const std::vector<int>& left_;
    std::vector<std::size_t> offers_, last_;
};

struct Extra {
    std::int64_t cost{};
    Padding padding;
};

// Carriage, or goods up to the minimum, or goods up to the threshold, whichever is least.
std::optional<Extra> extra_at(const CoverSeller& seller, std::int64_t carriage, std::int64_t cent, std::int64_t goods,
                              std::int64_t below, Padder padder) {
    std::optional<Extra> best;
    const auto offer = [&](std::optional<Padding> padding) {
        if (!padding) return;
        const std::int64_t cost = padding->cents * cent +
                                  (goods + padding->cents >= seller.free_from_cents ? 0 : carriage);
        if (cost < below) best = Extra{cost, std::move(*padding)}, below = cost;
    };
    const auto pad_to = [&](std::int64_t target) { offer(padder.least(target - goods, below / cent)); };
    if (goods >= seller.minimum_cents) offer(Padding{});
    else pad_to(seller.minimum_cents);
    if (goods < seller.free_from_cents && seller.free_from_cents != never_free_cents && carriage > 0)
        pad_to(std::max(seller.free_from_cents, seller.minimum_cents));
    return best;
}

}  // namespace

std::int64_t least_extra(const CoverSeller& seller, std::int64_t carriage, std::int64_t cent,
                         std::int64_t goods_cents) {
    const std::int64_t to_minimum = std::max<std::int64_t>(0, seller.minimum_cents - goods_cents);
    if (goods_cents >= seller.free_from_cents) return to_minimum * cent;
    const std::int64_t paying = to_minimum * cent + carriage;
    if (seller.free_from_cents == never_free_cents || seller.free_from_cents - goods_cents > paying / cent)
        return paying;
    return std::min(paying, std::max(to_minimum, seller.free_from_cents - goods_cents) * cent);
}

std::optional<SettledCover> settled(const CoverProblem& problem, const FineCosts& costs, const std::vector<int>& packs,
                                    std::int64_t below) {
    CoverState bought(problem);
    for (std::size_t j = 0; j < packs.size(); ++j)
        for (int n = 0; n < packs[j]; ++n) bought.take(problem, costs, j);
    SettledCover settled{bought.paid, std::vector<int>(problem.offers.size())};
    std::int64_t at_least = bought.paid;
    const auto least = [&](std::size_t s) {
        return least_extra(problem.sellers[s], costs.carriage[s], costs.cent, bought.goods[s]);
    };
    for (std::size_t s = 0; s < problem.sellers.size(); ++s)
        if (bought.used[s]) at_least += least(s);
    for (std::size_t s = 0; s < problem.sellers.size() && at_least < below; ++s) {
        if (!bought.used[s]) continue;
        at_least -= least(s);
        const auto extra = extra_at(problem.sellers[s], costs.carriage[s], costs.cent, bought.goods[s],
                                    below - at_least, Padder(problem, bought.left, s));
        if (!extra) return std::nullopt;
        at_least += extra->cost;
        settled.cost += extra->cost;
        for (const std::size_t o : extra->padding.offers) ++settled.padding[o];
    }
    if (at_least >= below || bought.sellers_used > problem.most_sellers) return std::nullopt;
    return settled;
}

}  // namespace casebound
