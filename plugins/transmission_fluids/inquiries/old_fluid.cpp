// old-fluid, exchange: how much old fluid is left after drain-and-fills or a continuous exchange, and how much work
// a target takes. Estimates that assume full mixing; the share that one drain takes out is never guessed.
#include <algorithm>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "science/residual.h"

namespace casebound::transmission_fluids {

namespace {

Input total() { return total_input("total"); }
Input drained() {
    return recorded(
        found_by(told(number_input("drained", "what one drain takes out, or the service refill", "L", 0.01, 200),
                      "fluid_drained"),
                 "catch it in a measuring jug."),
        fills, "service_refill_l");
}

SourceNote dilution(const Given& given) {
    return fed_by(practice("dilution with full mixing"), given, {"total", "drained"});
}
SourceNote computed_from(std::string_view how, const Given& given) {
    return fed_by(computed(how), given, {"total", "drained"});
}

// Shown instead of a guess; sources disagree, and each stands with its own line.
void say_published_shares(const Services& services, Answer& answer) {
    for (const auto& row : services.facts.rows("transmission_fluids_published", "quantity", "drained_share_of_total")) {
        const double low = row.number("low").value_or(0), high = row.number("high").value_or(0);
        std::string text = quantity_text(100 * low, low == high ? "%" : "");
        if (low != high) text += " to " + quantity_text(100 * high, "%");
        answer.lines.push_back(text_line("one drain is said to take out", text, row_source(row)));
    }
    if (!answer.lines.empty())
        answer.cautions.push_back("Published shares differ too much to work with: measure what comes out.");
}

Answer volumes_not_known(const Services& services, Answer answer) {
    say_published_shares(services, answer);
    answer.headline = "Cannot tell yet: the volumes are not known.";
    return answer;
}

Series step_series(double total, double drained, int changes) {
    Series series{"Old fluid left", "drain-and-fills", "", "old fluid", "%", false, {{"old fluid", {{0, 100}}}}, {}};
    const auto after = old_fluid_after_each(total, drained, changes);
    for (std::size_t i = 0; i < after.size(); ++i)
        series.curves[0].points.emplace_back(static_cast<double>(i + 1), 100 * after[i]);
    return series;
}

// At most so much is wanted: drawn beside the curve.
void add_target(Series& series, double percent) {
    Curve target{"at most wanted", {}};
    for (const auto& [x, y] : series.curves.front().points) target.points.emplace_back(x, percent);
    series.curves.push_back(std::move(target));
}

Grid step_grid(double total, double drained, int changes, int marked) {
    Grid grid{"After each drain-and-fill", {"change", "old fluid", "new fluid", "fluid used"}, {}, {}};
    const auto after = old_fluid_after_each(total, drained, changes);
    for (int n = 1; n <= changes; ++n) {
        const double old = 100 * after[static_cast<std::size_t>(n - 1)];
        grid.rows.push_back(
            {std::to_string(n), fixed(old, 1) + " %", fixed(100 - old, 1) + " %", quantity_text(n * drained, "L")});
    }
    if (marked > 0) grid.marked_rows.push_back(static_cast<std::size_t>(marked - 1));
    return grid;
}

std::string drains(int count) { return std::to_string(count) + (count == 1 ? " drain-and-fill" : " drain-and-fills"); }

void say_steps(double total, double drained, int changes, std::optional<int> needed, const Given& given,
               Answer& answer) {
    const double old = old_fluid_left(total, drained, changes);
    answer.headline = "About " + quantity_text(100 * old, "%", 1) + " old fluid is left after " + drains(changes) + ".";
    answer.lines.push_back(measure_line("drained each time, of all", 100 * drained / total, "%", 1,
                                        computed_from("drained / total", given)));
    answer.lines.push_back(measure_line("old fluid left after " + drains(changes), 100 * old, "%", 1, dilution(given)));
    const int shown = std::min(20, std::max({changes, needed.value_or(0), 4}));
    answer.grids.push_back(step_grid(total, drained, shown, needed && *needed <= shown ? *needed : 0));
    answer.series.push_back(step_series(total, drained, shown));
    if (const auto target = given.maybe_number("target")) add_target(answer.series.back(), *target);
}

void say_target(double target, int changes, double drained, const Given& given, Answer& answer) {
    const auto at_most = quantity_text(target, "%");
    answer.headline += " For at most " + at_most + ": " + drains(changes) + ", " +
                       quantity_text(changes * drained, "L") + " in all.";
    answer.lines.push_back(text_line("needed for at most " + at_most, drains(changes), dilution(given)));
    answer.lines.push_back(
        measure_line("fluid used for that", changes * drained, "L", 2, computed_from("number x drained", given)));
}

Answer answer_old_fluid(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto all = needed(total(), given, answer), out = needed(drained(), given, answer);
    if (!all || !out) return volumes_not_known(services, std::move(answer));
    const auto target = given.maybe_number("target");
    std::optional<int> changes;
    if (target) changes = changes_for_target(*all, *out, *target / 100);
    say_steps(*all, *out, static_cast<int>(given.number("changes")), changes, given, answer);
    if (changes) say_target(*target, *changes, *out, given, answer);
    answer.assumptions.push_back("Old and new fluid mix fully between two drains; an estimate.");
    answer.next.push_back("Drive through every gear between two drains: mixing has not happened before.");
    return answer;
}

Inquiry old_fluid_inquiry() {
    return {"old-fluid",
            "Old fluid left after drain-and-fills, and how many a target takes",
            {total(), drained(), assumed(whole(number_input("changes", "number of drain-and-fills", "", 0, 20)), "1"),
             number_input("target", "most old fluid wanted", "%", 0.1, 100)},
            answer_old_fluid,
            "total=9L drained=4L"};
}

// ---------------------------------------------------------------- continuous exchange

Series exchange_series(double total, double most_l) {
    auto series = series_of("Old fluid left by a continuous exchange", {"exchanged", "L"}, {"old fluid", "%"},
                            {"mixed at once (worst)", "pushed out (best)"});
    constexpr int steps = 30;
    for (int i = 0; i <= steps; ++i) {
        const double exchanged = most_l * i / steps;
        const auto left = continuous_exchange(total, exchanged);
        series.curves[0].points.emplace_back(exchanged, 100 * left.worst_old);
        series.curves[1].points.emplace_back(exchanged, 100 * left.best_old);
    }
    series.marks.emplace_back(total, "all the fluid once");
    return series;
}

void say_exchange(double total, double exchanged, const Given& given, Answer& answer) {
    const auto left = continuous_exchange(total, exchanged);
    answer.lines.push_back(
        measure_line("old left, worst case: new fluid mixes at once", 100 * left.worst_old, "%", 1, dilution(given)));
    answer.lines.push_back(measure_line("old left, best case: new fluid pushes the old out", 100 * left.best_old, "%",
                                        1, fed_by(practice("displacement without mixing"), given, {"total"})));
    answer.headline = "Between " + quantity_text(100 * left.best_old, "", 1) + " and " +
                      quantity_text(100 * left.worst_old, "%", 1) + " old fluid is left; the truth lies between.";
}

Answer answer_exchange(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto all = needed(total(), given, answer);
    if (!all) return volumes_not_known(services, std::move(answer));
    const auto exchanged = given.maybe_number("exchanged"), target = given.maybe_number("target");
    if (exchanged) say_exchange(*all, *exchanged, given, answer);
    if (target) {
        const double needed_l = exchange_for_target_l(*all, *target / 100);
        answer.lines.push_back(
            measure_line("to exchange for at most " + quantity_text(*target, "%") + " in the worst case", needed_l, "L",
                         1, dilution(given)));
        if (answer.headline.empty())
            answer.headline = "Exchange " + quantity_text(needed_l, "L", 1) + " to be sure of at most " +
                              quantity_text(*target, "%") + " old fluid.";
    }
    if (answer.headline.empty()) {
        answer.headline = "Cannot tell yet: neither a volume nor a target is given.";
        missing(answer, "exchanged", "the volume that goes through, or target, the most old fluid wanted.");
    }
    answer.series.push_back(exchange_series(*all, std::max(3 * *all, exchanged.value_or(0))));
    if (target) add_target(answer.series.back(), *target);
    answer.assumptions.push_back("The converter and the cooler take part in the exchange; an estimate.");
    return answer;
}

Inquiry exchange_inquiry() {
    return {"exchange",
            "Old fluid left by a continuous exchange, worst and best case",
            {total(), number_input("exchanged", "volume that goes through", "L", 0, 2000),
             number_input("target", "most old fluid wanted", "%", 0.1, 100)},
            answer_exchange,
            "total=10.2L exchanged=10.2L"};
}

}  // namespace

std::vector<Inquiry> old_fluid_inquiries() { return {old_fluid_inquiry(), exchange_inquiry()}; }

}  // namespace casebound::transmission_fluids
