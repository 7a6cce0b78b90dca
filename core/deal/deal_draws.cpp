#include "core/deal/deal_draws.h"

#include <algorithm>
#include <cmath>

#include "core/deal/deal_paths.h"
#include "core/ground/random_draw.h"

namespace casebound {

namespace {

struct Drawn {
    DealFigures figures;
    bool works{}, good_sign{};
};

// One uniform number an input, whatever the path, so that paths are compared under the same luck.
Drawn draw(const Deal& deal, const std::vector<DealInput>& inputs, Draws& draws) {
    Drawn drawn;
    double sale_luck = 0;
    for (const DealInput& input : inputs) {
        double luck = draws.uniform();
        if (input.estimate == &deal.sale_as_is) sale_luck = luck;
        if (deal.sale_opened && input.estimate == &*deal.sale_opened) luck = sale_luck;  // the same buyers
        for (const auto figure : input.sets)
            drawn.figures.*figure = triangular(input.estimate->low, input.estimate->likely, input.estimate->high, luck);
    }
    if (deal.works.alpha > 0) drawn.figures.works = draws.beta(deal.works.alpha, deal.works.beta);
    drawn.works = draws.uniform() < drawn.figures.works;
    const double luck = draws.uniform();
    if (deal.look) drawn.good_sign = luck < (drawn.works ? deal.look->good_if_works : deal.look->good_if_not);
    return drawn;
}

double whole_result(const Deal& deal, const Policy& policy, Path path, const Drawn& drawn) {
    const DealFigures& f = drawn.figures;
    const double works = drawn.works ? 1 : 0;
    const double cash = path == Path::look_first ? look_cash(deal, f, policy, works, drawn.good_sign)
                                                 : path_cash(deal, f, path, works, policy.after_failure, false);
    return cash - f.purchase - f.diagnosis - deal.spent;
}

double point(const std::vector<double>& sorted, double share) {
    return sorted[std::min(sorted.size() - 1, static_cast<std::size_t>(share * static_cast<double>(sorted.size())))];
}

double worst(const Deal& deal, const Policy& policy, Path path) {
    const DealFigures bad = bad_figures(deal);
    double least = 0;
    bool first = true;
    for (const bool works : {false, true})
        for (const bool good : {false, true}) {
            const double result = whole_result(deal, policy, path, {bad, works, good});
            least = first ? result : std::min(least, result);
            first = false;
        }
    return least;
}

Spread spread_of(Path path, std::vector<double>& results) {
    std::sort(results.begin(), results.end());
    const auto n = static_cast<double>(results.size());
    double sum = 0, squares = 0;
    for (const double result : results) sum += result;
    for (const double result : results) squares += (result - sum / n) * (result - sum / n);
    const auto losses = std::lower_bound(results.begin(), results.end(), 0.0) - results.begin();
    return {path,
            sum / n,
            std::sqrt(squares / (n - 1) / n),
            point(results, 0.05),
            point(results, 0.95),
            static_cast<double>(losses) / n,
            0};
}

}  // namespace

DealDraws draw_deal(const Deal& deal, const std::vector<Path>& paths, const DrawPlan& plan) {
    const Policy policy = policy_at(deal, mean_figures(deal));
    const auto inputs = inputs_of(deal);
    Draws draws(plan.seed);
    std::vector<std::vector<double>> results(paths.size());
    std::vector<double> chances;
    for (int n = 0; n < plan.draws; ++n) {
        const Drawn drawn = draw(deal, inputs, draws);
        chances.push_back(drawn.figures.works);
        for (std::size_t i = 0; i < paths.size(); ++i)
            results[i].push_back(whole_result(deal, policy, paths[i], drawn));
    }
    DealDraws done;
    for (std::size_t i = 0; i < paths.size(); ++i) {
        done.spreads.push_back(spread_of(paths[i], results[i]));
        done.spreads.back().worst = worst(deal, policy, paths[i]);
    }
    std::sort(chances.begin(), chances.end());
    done.chance_low = point(chances, 0.05);
    done.chance_high = point(chances, 0.95);
    return done;
}

}  // namespace casebound
