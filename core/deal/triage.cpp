#include "core/deal/triage.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

constexpr double nothing = 1e-9;  // of an amount: what rounding leaves

double amount(const Estimate& cost, Cost which) {
    return which == Cost::low ? cost.low : which == Cost::high ? cost.high : cost.likely;
}

// The best course from a set of ways tried in vain, each result weighted by the share of the causes that are left: so
// every course is linear in the shares, and the best of them never bends downwards.
class Courses {
public:
    Courses(const TriageCase& one, const Shares& shares, Cost cost) : one_(one), cost_(cost) {
        if (one.ways.size() > most_ways)
            throw Error(Exit::bad_data, fmt::format("{} ways to mend: at most {} are weighed: tell more of the trouble",
                                                    one.ways.size(), most_ways));
        mended_.assign(one.ways.size(), 0);
        for (std::size_t cause = 0; cause < shares.size(); ++cause) {
            all_ += shares[cause];
            if (one.mends[cause]) mended_[*one.mends[cause]] += shares[cause];
        }
        best_.resize(std::size_t{1} << one.ways.size());
        for (std::size_t tried = best_.size(); tried-- > 0;) best_[tried] = best_from(tried);
    }

    Ceiling from_here() const { return {best_[0].amount - all_ * one_.figures.before, best_[0].first}; }

private:
    Ceiling best_from(std::size_t tried) const {
        double left = all_, spent_in_vain = 0;
        for (std::size_t way = 0; way < mended_.size(); ++way)
            if (tried >> way & 1) left -= mended_[way], spent_in_vain += amount(one_.ways[way], cost_);
        left = std::max(left, 0.0);
        const auto& f = one_.figures;
        Ceiling best{left * (tried != 0 ? f.opened : f.as_is), {Path::pass_on, {}}};
        const auto take = [&](double result, FirstStep first) {
            if (result > best.amount + nothing) best = {result, first};
        };
        if (f.unit) take(left * (f.sale - *f.unit + f.reusable_share * spent_in_vain), {Path::unit_now, {}});
        for (std::size_t way = 0; way < mended_.size(); ++way)
            if (!(tried >> way & 1))
                take(mended_[way] * f.sale - left * amount(one_.ways[way], cost_) +
                         best_[tried | std::size_t{1} << way].amount,
                     {Path::fix_first, way});
        return best;
    }

    const TriageCase& one_;
    Cost cost_;
    double all_ = 0;
    std::vector<double> mended_;  // share of the causes that each way mends
    std::vector<Ceiling> best_;   // by the ways tried, as bits
};

double best_if(const TriageCase& one, std::size_t cause) {
    Shares sure(one.mends.size(), 0.0);
    sure[cause] = 1;
    return ceiling_of(one, sure).amount;
}

// Where no price is told: the ceiling now, at which an answer is worth most.
double price_or_ceiling(std::optional<double> price, double ceiling) { return price.value_or(std::max(ceiling, 0.0)); }

}  // namespace

Ceiling ceiling_of(const TriageCase& one, const Shares& shares, Cost cost) {
    return Courses(one, shares, cost).from_here();
}

double ceiling_if_known(const TriageCase& one, const Shares& shares) {
    double sum = 0;
    for (std::size_t cause = 0; cause < shares.size(); ++cause)
        if (shares[cause] > 0) sum += shares[cause] * best_if(one, cause);
    return sum;
}

std::optional<Shares> shares_after(const Shares& shares, const Chances& chances, std::size_t answer) {
    Shares after(shares.size());
    for (std::size_t cause = 0; cause < shares.size(); ++cause) after[cause] = shares[cause] * chances[cause][answer];
    const double sum = std::accumulate(after.begin(), after.end(), 0.0);
    if (sum <= 0) return std::nullopt;
    for (auto& share : after) share /= sum;
    return after;
}

QuestionWorth worth_of(const TriageCase& one, const Shares& shares, const Chances& chances,
                       std::optional<double> price) {
    const auto now = ceiling_of(one, shares);
    const double asked = price_or_ceiling(price, now.amount);
    QuestionWorth worth;
    worth.before = now.amount;
    for (std::size_t answer = 0; !chances.empty() && answer < chances.front().size(); ++answer) {
        auto after = shares_after(shares, chances, answer);
        if (!after) continue;
        AnswerWorth given;
        given.answer = answer;
        for (std::size_t cause = 0; cause < shares.size(); ++cause)
            given.chance += shares[cause] * chances[cause][answer];
        given.ceiling = ceiling_of(one, *after);
        given.shares = std::move(*after);
        given.buy = given.ceiling.amount >= asked;
        worth.value += given.chance * std::max(0.0, given.ceiling.amount - asked);
        worth.answers.push_back(std::move(given));
    }
    worth.value -= std::max(0.0, now.amount - asked);
    if (worth.value < nothing) worth.value = 0;
    return worth;
}

double worth_of_knowing(const TriageCase& one, const Shares& shares, std::optional<double> price) {
    const auto now = ceiling_of(one, shares).amount;
    const double asked = price_or_ceiling(price, now);
    double sum = 0;
    for (std::size_t cause = 0; cause < shares.size(); ++cause)
        if (shares[cause] > 0) sum += shares[cause] * std::max(0.0, best_if(one, cause) - asked);
    return std::max(0.0, sum - std::max(0.0, now - asked));
}

Chances as_said(const Chances& chances, double right) {
    auto said = chances;
    for (auto& row : said)
        for (auto& chance : row)
            chance = right * chance + (1 - right) * (1 - chance) / static_cast<double>(row.size() - 1);
    return said;
}

}  // namespace casebound
