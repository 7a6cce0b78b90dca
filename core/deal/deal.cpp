#include "core/deal/deal.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "core/contract/answer_lines.h"
#include "core/deal/deal_draws.h"
#include "core/deal/deal_paths.h"
#include "core/ground/error.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

std::string with_sign(double amount) {
    const auto text = plain_number(std::round(amount), 0);
    return text.front() == '-' ? text : "+" + text;
}

[[noreturn]] void bad(const std::string& what) { throw Error(Exit::bad_data, "go / no-go: " + what); }

void check_share(std::string_view name, double share) {
    if (!(share >= 0 && share <= 1)) bad(fmt::format("{}: {}: give 0 to 1", name, share));
}

void check_inputs(const Deal& deal) {
    for (const DealInput& input : inputs_of(deal)) {
        const Estimate& e = *input.estimate;
        if (std::isfinite(e.low) && std::isfinite(e.high) && e.low <= e.likely && e.likely <= e.high) continue;
        bad(fmt::format("{}: low {}, likely {}, high {}: give them in that order", input.name, e.low, e.likely,
                        e.high));
    }
    const double least_cost = std::min({deal.purchase.low, deal.diagnosis.low, deal.cheap_fix.low, deal.unit.low,
                                        deal.look ? deal.look->cost.low : 0, deal.spent, deal.fixed_sale_cost,
                                        deal.fix_hours, deal.unit_hours, deal.hour_value});
    if (!(least_cost >= 0)) bad(fmt::format("a cost below 0 ({}): give costs as they are paid", least_cost));
}

void check(const Deal& deal, const DrawPlan& plan) {
    check_inputs(deal);
    check_share("chance that the cheap fix works, low", deal.works.share.low);
    check_share("chance that the cheap fix works, high", deal.works.share.high);
    const bool beta = deal.works.alpha >= 1 && deal.works.beta >= 1,
               none = deal.works.alpha == 0 && deal.works.beta == 0;
    if (!beta && !none)
        bad(fmt::format("chance that the cheap fix works: Beta({}, {}): give jobs + 1 each", deal.works.alpha,
                        deal.works.beta));
    check_share("share of the cheap fix that can be used again", deal.reusable_share);
    if (!(deal.sale_fee_rate >= 0 && deal.sale_fee_rate < 1))
        bad(fmt::format("sale fee rate: {}: give 0 to below 1", deal.sale_fee_rate));
    for (const double good : {deal.look ? deal.look->good_if_works : 0, deal.look ? deal.look->good_if_not : 0})
        check_share("chance of a good sign", good);
    if (plan.draws < 2) bad(fmt::format("draws: {}: give at least 2", plan.draws));
}

double before(const DealFigures& f) { return f.purchase + f.diagnosis; }

double hours(const Deal& deal, const Policy& policy, Path path, double works) {
    const double unit_after = policy.after_failure == Path::unit_now ? deal.unit_hours : 0;
    if (path == Path::fix_first) return deal.fix_hours + (1 - works) * unit_after;
    return path == Path::unit_now ? deal.unit_hours : 0;
}

double hours_to_come(const Deal& deal, const Policy& policy, Path path, double works) {
    if (path != Path::look_first) return hours(deal, policy, path, works);
    const double good = good_sign_chance(*deal.look, works);
    return good * hours(deal, policy, policy.if_good, works_after(*deal.look, works, true)) +
           (1 - good) * hours(deal, policy, policy.if_bad, works_after(*deal.look, works, false));
}

Looking looking_at(const Deal& deal, const DealFigures& f, const Policy& policy, double best_without) {
    const Look& look = *deal.look;
    Looking looking{good_sign_chance(look, f.works),
                    works_after(look, f.works, true),
                    works_after(look, f.works, false),
                    policy.if_good,
                    policy.if_bad,
                    0};
    const double with = looking.good_sign * look_cash(deal, f, policy, looking.works_if_good, true) +
                        (1 - looking.good_sign) * look_cash(deal, f, policy, looking.works_if_bad, false) + f.look;
    looking.value = with - best_without;
    return looking;
}

// Fixing first brings at_0 + chance * gain, the other path brings `other`.
BreakEven break_even(double at_0, double gain, double other, std::string_view against) {
    if (gain == 0) return {std::nullopt, fmt::format("against {}: the chance does not matter", against)};
    const double chance = (other - at_0) / gain;
    if (gain < 0 && chance <= 0) return {chance, fmt::format("against {}: never fix first", against)};
    if (gain < 0)
        return {chance,
                fmt::format("against {}: fix first only below a chance of {} %", against, fixed(100 * chance, 0))};
    if (chance <= 0) return {chance, fmt::format("against {}: fix first whatever the chance is", against)};
    if (chance > 1) return {chance, fmt::format("against {}: never fix first", against)};
    return {chance, fmt::format("against {}: fix first from a chance of {} % on", against, fixed(100 * chance, 0))};
}

void add_path(Assessment& assessment, const Deal& deal, const DealFigures& f, const Policy& policy, Path path,
              double to_come) {
    assessment.paths.push_back(
        {path, to_come, to_come - deal.spent, hours_to_come(deal, policy, path, f.works) * deal.hour_value});
}

void add_fix(Assessment& assessment, const Deal& deal, const DealFigures& f, const Policy& policy) {
    const auto cash = [&](Path path, double works) {
        return path_cash(deal, f, path, works, policy.after_failure, false);
    };
    const double at_0 = cash(Path::fix_first, 0), gain = cash(Path::fix_first, 1) - at_0;
    assessment.against_unit = break_even(at_0, gain, cash(Path::unit_now, 0), path_words(Path::unit_now));
    assessment.against_pass_on = break_even(at_0, gain, cash(Path::pass_on, 0), path_words(Path::pass_on));
    assessment.worst = at_0 - before(f) - deal.spent;
    add_path(assessment, deal, f, policy, Path::fix_first, cash(Path::fix_first, f.works) - before(f));
}

Assessment assess(const Deal& deal, const DealFigures& f) {
    const Policy policy = policy_at(deal, f);
    Assessment assessment;
    assessment.after_failure = policy.after_failure;
    if (!deal.fix_failed) add_fix(assessment, deal, f, policy);
    for (const Path path : {Path::unit_now, Path::pass_on})
        add_path(assessment, deal, f, policy, path,
                 path_cash(deal, f, path, f.works, policy.after_failure, false) - before(f));
    const auto poorer = [](const PathResult& a, const PathResult& b) { return a.to_come < b.to_come; };
    const double best_without = std::max_element(assessment.paths.begin(), assessment.paths.end(), poorer)->to_come;
    if (deal.look && !deal.fix_failed) {
        assessment.looking = looking_at(deal, f, policy, best_without + before(f));
        add_path(assessment, deal, f, policy, Path::look_first, best_without + assessment.looking->value - f.look);
    }
    const double most = std::max_element(assessment.paths.begin(), assessment.paths.end(), poorer)->to_come;
    if (!deal.bought) {
        assessment.bid_ceiling = most + f.purchase - deal.margin;
        add_path(assessment, deal, f, policy, Path::walk_away, 0);
    }
    assessment.best = std::max_element(assessment.paths.begin(), assessment.paths.end(), poorer)->path;
    if (deal.fix_failed) assessment.worst = assessment.result(assessment.best).whole;
    return assessment;
}

std::vector<Swing> swings_of(const Deal& deal, const DealFigures& mean, const Decision& decision) {
    std::vector<Swing> swings;
    for (const DealInput& input : inputs_of(deal)) {
        const bool drawn = input.estimate == &deal.works.share && deal.works.alpha > 0;
        const double low = drawn ? decision.chance_low : input.estimate->low,
                     high = drawn ? decision.chance_high : input.estimate->high;
        DealFigures at_low = mean, at_high = mean;
        for (const auto figure : input.sets) at_low.*figure = low, at_high.*figure = high;
        const Assessment a = assess(deal, at_low), b = assess(deal, at_high);
        swings.push_back({input.name, input.estimate->origin, a.result(decision.weighed).whole,
                          b.result(decision.weighed).whole, a.best, b.best});
    }
    std::stable_sort(swings.begin(), swings.end(),
                     [](const Swing& a, const Swing& b) { return a.width() > b.width(); });
    swings.resize(3);
    return swings;
}

std::vector<FloorPrice> floors_of(const Deal& deal, const DealFigures& f) {
    const double base = deal.spent + before(f), unit_after = f.unit - deal.reusable_share * f.cheap_fix;
    const auto ask = [&](double net) { return (net + deal.fixed_sale_cost) / (1 - deal.sale_fee_rate); };
    const auto floor = [&](std::string outcome, double cash_out, double hours, double sale) {
        return FloorPrice{std::move(outcome), cash_out, ask(cash_out), ask(cash_out + hours * deal.hour_value),
                          ask(sale)};
    };
    if (deal.fix_failed)
        return {floor("a unit after the failed fix", base + unit_after, deal.fix_hours + deal.unit_hours, f.running),
                floor("passed on", base, deal.fix_hours, f.opened)};
    return {floor("the cheap fix holds", base + f.cheap_fix, deal.fix_hours, f.running),
            floor("a unit after a failed fix", base + f.cheap_fix + unit_after, deal.fix_hours + deal.unit_hours,
                  f.running),
            floor("a unit at once", base + f.unit, deal.unit_hours, f.running), floor("passed on", base, 0, f.as_is)};
}

std::string explain_floors(const std::vector<FloorPrice>& floors) {
    std::string text =
        "A floor price looks back: the asking price that gives back all cash, a failed fix included. The result of "
        "unit now "
        "leaves the cheap fix out. The next step looks only at cash to come, and may be right below the floor.";
    for (const FloorPrice& floor : floors)
        if (floor.asked < floor.price)
            text += fmt::format(" At the likely sale, {}: asked {}, floor {}, {} short.", floor.outcome,
                                plain_number(floor.asked, 0), plain_number(floor.price, 0),
                                plain_number(floor.price - floor.asked, 0));
    return text;
}

std::string reason_for(const Deal& deal, const Decision& decision) {
    const Assessment& expected = decision.expected;
    const PathResult& best = expected.result(decision.recommended);
    const PathResult* second = nullptr;
    for (const PathResult& path : expected.paths)
        if (path.path != best.path && (!second || path.to_come > second->to_come)) second = &path;
    std::string text = fmt::format("{}: {} expected from here on, against {} for {}", path_words(best.path),
                                   with_sign(best.to_come), with_sign(second->to_come), path_words(second->path));
    if (!deal.fix_failed)
        text += fmt::format("; {}; it is put at {} %, the mean of its range", expected.against_unit.words,
                            plain_number(std::round(100 * deal.works.mean()), 0));
    if (deal.spent > 0)
        text += fmt::format("; the {} already spent is gone on every path", plain_number(deal.spent, 0));
    if (decision.likely.best != best.path)
        text += fmt::format("; too close to call: at the likely figures alone {} comes first",
                            path_words(decision.likely.best));
    return text;
}

// Walking away comes to nothing whatever the figures are: the best path beside it shows what matters.
Path weighed_path(const Assessment& expected) {
    if (expected.best != Path::walk_away) return expected.best;
    const auto rank = [](const PathResult& one) {
        return one.path == Path::walk_away ? std::numeric_limits<double>::lowest() : one.to_come;
    };
    return std::max_element(expected.paths.begin(), expected.paths.end(),
                            [&](const PathResult& a, const PathResult& b) { return rank(a) < rank(b); })
        ->path;
}

double worst_of(const Deal& deal, const Decision& decision) {
    const Path path = deal.fix_failed ? decision.recommended : Path::fix_first;
    for (const Spread& spread : decision.spreads)
        if (spread.path == path) return spread.worst;
    return decision.expected.result(path).whole;
}

std::vector<Path> drawn_paths(const Assessment& assessment) {
    std::vector<Path> paths;
    for (const PathResult& path : assessment.paths)
        if (path.path != Path::walk_away) paths.push_back(path.path);
    return paths;
}

}  // namespace

const PathResult& Assessment::result(Path path) const {
    return *std::find_if(paths.begin(), paths.end(), [&](const PathResult& one) { return one.path == path; });
}

Decision decide(const Deal& deal, const DrawPlan& plan) {
    check(deal, plan);
    const DealFigures mean = mean_figures(deal), likely = likely_figures(deal);
    Decision decision;
    decision.spent = deal.spent;
    decision.likely = assess(deal, likely);
    decision.expected = assess(deal, mean);
    decision.recommended = decision.expected.best;
    decision.weighed = weighed_path(decision.expected);
    DealDraws draws = draw_deal(deal, drawn_paths(decision.expected), plan);
    decision.spreads = std::move(draws.spreads);
    decision.worst = worst_of(deal, decision);
    decision.chance_low = draws.chance_low;
    decision.chance_high = draws.chance_high;
    decision.swings = swings_of(deal, mean, decision);
    decision.floors = floors_of(deal, likely);
    decision.floors_explained = explain_floors(decision.floors);
    decision.reason = reason_for(deal, decision);
    return decision;
}

}  // namespace casebound
