#include "core/deal/deal_paths.h"

#include <initializer_list>
#include <utility>

namespace casebound {

namespace {

DealFigures set_all(const Deal& deal, double (*pick)(const Estimate&)) {
    DealFigures figures;
    for (const DealInput& input : inputs_of(deal))
        for (const auto figure : input.sets) figures.*figure = pick(*input.estimate);
    return figures;
}

Path better(const Deal& deal, const DealFigures& f, Path after_failure, double works, bool opened) {
    Path best = Path::pass_on;
    double most = path_cash(deal, f, best, works, after_failure, opened);
    for (const Path path : {Path::unit_now, Path::fix_first}) {
        const double cash = path_cash(deal, f, path, works, after_failure, opened);
        if (cash > most) best = path, most = cash;
    }
    return best;
}

}  // namespace

Estimate exactly(double amount, std::string origin) { return {amount, amount, amount, std::move(origin)}; }

Chance chance_beta(double alpha, double beta, std::string origin) {
    return {exactly(alpha / (alpha + beta), std::move(origin)), alpha, beta};
}

Chance chance_from_jobs(double worked, double failed, std::string origin) {
    return chance_beta(worked + 1, failed + 1, std::move(origin));
}

std::string_view path_words(Path path) {
    switch (path) {
        case Path::fix_first: return "fix first";
        case Path::unit_now: return "unit now";
        case Path::pass_on: return "pass on";
        case Path::look_first: return "look first";
        case Path::walk_away: break;
    }
    return "walk away";
}

std::vector<DealInput> inputs_of(const Deal& deal) {
    std::vector<DealInput> inputs{{"purchase and transport", &deal.purchase, {&DealFigures::purchase}},
                                  {"diagnosis", &deal.diagnosis, {&DealFigures::diagnosis}},
                                  {"cheap fix", &deal.cheap_fix, {&DealFigures::cheap_fix}},
                                  {"replacement unit", &deal.unit, {&DealFigures::unit}},
                                  {"sale, running", &deal.sale_running, {&DealFigures::running}},
                                  {"sale, as it is", &deal.sale_as_is, {&DealFigures::as_is}}};
    if (deal.sale_opened) inputs.push_back({"sale, once opened", &*deal.sale_opened, {&DealFigures::opened}});
    else inputs.back().sets.push_back(&DealFigures::opened);
    if (deal.look) inputs.push_back({deal.look->what, &deal.look->cost, {&DealFigures::look}});
    inputs.push_back({"chance that the cheap fix works", &deal.works.share, {&DealFigures::works}});
    return inputs;
}

DealFigures likely_figures(const Deal& deal) {
    return set_all(deal, [](const Estimate& e) { return e.likely; });
}

DealFigures mean_figures(const Deal& deal) {
    DealFigures figures = set_all(deal, [](const Estimate& e) { return e.mean(); });
    figures.works = deal.works.mean();
    return figures;
}

DealFigures bad_figures(const Deal& deal) {
    DealFigures figures = set_all(deal, [](const Estimate& e) { return e.high; });
    figures.running = deal.sale_running.low;
    figures.as_is = deal.sale_as_is.low;
    figures.opened = deal.sale_opened ? deal.sale_opened->low : deal.sale_as_is.low;
    figures.works = 0;
    return figures;
}

double good_sign_chance(const Look& look, double works) {
    return works * look.good_if_works + (1 - works) * look.good_if_not;
}

// Bayes' rule.
double works_after(const Look& look, double works, bool good_sign) {
    const double good = good_sign_chance(look, works);
    if (good_sign) return good > 0 ? works * look.good_if_works / good : works;
    return good < 1 ? works * (1 - look.good_if_works) / (1 - good) : works;
}

double path_cash(const Deal& deal, const DealFigures& f, Path path, double works, Path after_failure, bool opened) {
    const double unit_after_fix = f.running - f.unit + deal.reusable_share * f.cheap_fix;
    if (path == Path::unit_now) return deal.fix_failed ? unit_after_fix : f.running - f.unit;
    if (path == Path::pass_on) return opened || deal.fix_failed ? f.opened : f.as_is;
    const double failed = after_failure == Path::unit_now ? unit_after_fix : f.opened;
    return works * f.running + (1 - works) * failed - f.cheap_fix;
}

double look_cash(const Deal& deal, const DealFigures& f, const Policy& policy, double works, bool good_sign) {
    return path_cash(deal, f, good_sign ? policy.if_good : policy.if_bad, works, policy.after_failure,
                     deal.look->opens) -
           f.look;
}

Policy policy_at(const Deal& deal, const DealFigures& f) {
    Policy policy;
    policy.after_failure = f.running - f.unit + deal.reusable_share * f.cheap_fix >= f.opened ? Path::unit_now
                                                                                              : Path::pass_on;
    if (!deal.look || deal.fix_failed) return policy;
    const auto then = [&](bool good) {
        return better(deal, f, policy.after_failure, works_after(*deal.look, f.works, good), deal.look->opens);
    };
    policy.if_good = then(true);
    policy.if_bad = then(false);
    return policy;
}

}  // namespace casebound
