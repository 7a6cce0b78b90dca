// `decide`: small fix, unit, pass on or look first, from figures that each say where they come from.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/decision_asked.h"
#include "core/buy/order_text.h"
#include "core/contract/answer_lines.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/json_of.h"
#include "core/session/ask_domains.h"
#include "core/session/command.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

std::string whole(double amount) { return plain_number(std::round(amount), 0); }

// "expected" rests on the means of the ranges, as the recommendation does.
std::string paths_text(const Decision& decision) {
    Table table({"path", "at likely", "expected", "chance of a loss", "5 % .. 95 %", "worst"});
    for (const auto& path : decision.likely.paths) {
        std::vector<std::string> row{std::string(path_words(path.path)),
                                     whole(path.whole),
                                     whole(decision.expected.result(path.path).whole),
                                     "-",
                                     "-",
                                     "-"};
        for (const auto& spread : decision.spreads)
            if (spread.path == path.path) {
                row[3] = whole(spread.chance_of_loss * 100) + " %";
                row[4] = fmt::format("{} .. {}", whole(spread.low_5), whole(spread.high_95));
                row[5] = whole(spread.worst);
            }
        table.row(row);
    }
    return table.text();
}

std::string figures_text(const DecisionAsked& all) {
    Table table({"figure", "low / likely / high", "where it comes from"});
    for (const auto& one : all.asked.figures) {
        const auto e = all.shown(one);
        const auto value = [&](double amount) {
            return one.share ? fmt::format("{} %", plain_number(amount * 100, 1)) : plain_number(amount, 2);
        };
        table.row({dashed(one.key),
                   e.low == e.high ? value(e.likely)
                                   : fmt::format("{} / {} / {}", value(e.low), value(e.likely), value(e.high)),
                   one.demo() ? "DEMO DEFAULT, invented" : e.origin});
    }
    return table.text();
}

// A recommendation on invented figures is labelled before it is made.
std::string head_text(const DealAsked& asked, const Decision& decision, const std::string& vehicle) {
    if (!asked.held.empty()) {
        std::string out = wrapped(fmt::format("{}: CANNOT TELL UNTIL this is settled:", vehicle), 0, 2);
        for (const auto& one : asked.held) out += wrapped(one, 2, 4);
        return out + wrapped(fmt::format("If the chance of the fix were as given: {}", decision.reason), 0, 2);
    }
    if (asked.defaults.empty())
        return wrapped(
            fmt::format("{}: {}. {}", vehicle, capitalised(path_words(decision.recommended)), decision.reason), 0, 2);
    return wrapped(fmt::format("{}: CANNOT TELL: {} of {} figures are not this vehicle's.", vehicle,
                               asked.defaults.size(), asked.figures.size()),
                   0, 2) +
           wrapped(fmt::format("DEMO DEFAULTS, invented: {}. Type your own figures before deciding.",
                               dashed(fmt::format("{}", fmt::join(asked.defaults, ", ")))),
                   0, 2) +
           wrapped(fmt::format("If these figures were true: {}", decision.reason), 0, 2);
}

std::string break_even_text(const BreakEven& even) {
    if (even.words.empty()) return "";
    const bool shown = even.chance && *even.chance > 0 && *even.chance <= 1;
    return wrapped("Break-even, at the likely figures, " + even.words +
                       (shown ? fmt::format(" ({} %)", fixed(std::round(*even.chance * 1000) / 10, 1)) : "") + ".",
                   0, 2);
}

std::string looking_text(const DealAsked& asked, const Looking& looking) {
    const auto& look = *asked.deal.look;
    return wrapped(
        fmt::format(
            "Looking first ({}) is worth up to {}, and costs {}. A good sign comes in {} % of "
            "cases: then {} at a chance of {} %; else {} at {} %.",
            look.what, whole(looking.value),
            look.cost.origin == "not given" ? "nothing that was given: look-cost=AMOUNT" : whole(look.cost.mean()),
            fixed(looking.good_sign * 100, 1), path_words(looking.then_if_good), fixed(looking.works_if_good * 100, 1),
            path_words(looking.then_if_bad), fixed(looking.works_if_bad * 100, 1)),
        0, 2);
}

std::string floors_text(const Decision& decision) {
    Table table({"floor price, asked", "cash back", "own hours too", "likely sale asks"});
    for (const auto& floor : decision.floors)
        table.row({floor.outcome, whole(floor.price), whole(floor.with_hours), whole(floor.asked)});
    return table.text() + wrapped(decision.floors_explained, 2, 2);
}

std::string swings_text(const DecisionAsked& all) {
    const auto& decision = all.decision;
    std::string out;
    for (const auto& swing : decision.swings)
        if (swing.width() > 0)
            out += wrapped(fmt::format("{} ({}): {} .. {}", swing.input, swing.origin, whole(swing.low_result),
                                       whole(swing.high_result)),
                           2, 4);
    if (!out.empty())
        return fmt::format("What matters most ({} from low to high):\n", path_words(decision.weighed)) + out;
    const bool ranges = std::any_of(all.asked.figures.begin(), all.asked.figures.end(), [&](const DealFigure& figure) {
        const auto shown = all.shown(figure);
        return shown.low < shown.high;
    });
    return wrapped(ranges ? fmt::format("What matters most: no figure that is a range moves the result of {}.",
                                        path_words(decision.weighed))
                          : "What matters most: every figure is one number; give LOW/LIKELY/HIGH to see it.",
                   0, 2);
}

std::string jobs_text(const DealAsked& asked) {
    std::string out = asked.rate_note.empty() ? "" : wrapped(asked.rate_note, 0, 2);
    std::vector<std::string> causes;
    for (const auto& [cause, count] : asked.causes) causes.push_back(fmt::format("{} ({})", cause, count));
    if (!causes.empty()) out += wrapped(fmt::format("Causes found in them: {}.", fmt::join(causes, ", ")), 2, 4);
    for (const auto& note : asked.notes) out += wrapped(note, 0, 2);
    return out;
}

std::string bid_text(const DealAsked& asked, const Assessment& expected) {
    if (!expected.bid_ceiling) return "";
    return wrapped(fmt::format("Bid ceiling: {} for purchase and transport, {}.", whole(*expected.bid_ceiling),
                               asked.deal.margin > 0 ? "which leaves an expected margin of " + whole(asked.deal.margin)
                                                     : "with no margin: margin=AMOUNT"),
                   0, 2);
}

// Where every figure comes from, what the floor prices are, and from which chance on each path is the better one.
std::string all_figures_text(const DecisionAsked& all) {
    const auto& decision = all.decision;
    return "\n" + break_even_text(decision.likely.against_unit) + break_even_text(decision.likely.against_pass_on) +
           "\n" + floors_text(decision) + "\n" + figures_text(all);
}

std::string decision_text(const DecisionAsked& all, const std::string& currency, bool full) {
    const auto& [vehicle, asked, decision] = all;
    const auto& expected = decision.expected;
    std::string out = head_text(asked, decision, vehicle) + "\n" +
                      wrapped(fmt::format("Result of each path, in {}:",
                                          currency.empty()
                                              ? "your own currency (casebound shop set currency=EUR, or another)"
                                              : currency),
                              0, 2) +
                      paths_text(decision) + wrapped(all.worst_words(""), 0, 2) + bid_text(asked, expected);
    if (expected.looking) out += looking_text(asked, *expected.looking);
    out += swings_text(all);
    out += wrapped(fmt::format("Spent already: {}. It is gone either way and does not move the recommendation.",
                               whole(decision.spent)),
                   0, 2);
    out += jobs_text(asked);
    return out + (full ? all_figures_text(all)
                       : wrapped(fmt::format("Every figure with its source, floor prices, break-even: casebound decide "
                                             "{} ... --full",
                                             vehicle),
                                 0, 2));
}

Json decision_json(const DecisionAsked& all) {
    const auto& [vehicle, asked, decision] = all;
    const auto& likely = decision.likely;
    const auto& expected = decision.expected;
    Json json{{"recommended", path_words(decision.recommended)},
              {"reason", decision.reason},
              {"spent", decision.spent},
              {"worst", decision.worst},
              {"worst_at_likely", likely.worst},
              {"after_failure", path_words(expected.after_failure)},
              {"demo_defaults", asked.defaults},
              {"own_rate", asked.rate_note},
              {"held", asked.held},
              {"notes", asked.notes}};
    json["figures"] = Json::array();
    for (const auto& one : asked.figures) {
        const auto e = all.shown(one);
        json["figures"].push_back({{"key", one.key},
                                   {"low", e.low},
                                   {"likely", e.likely},
                                   {"high", e.high},
                                   {"origin", e.origin},
                                   {"closed_jobs", one.closed_jobs},
                                   {"demo", one.demo()}});
    }
    json["causes"] = Json::array();
    for (const auto& [cause, count] : asked.causes) json["causes"].push_back({{"cause", cause}, {"jobs", count}});
    json["bid_ceiling"] = expected.bid_ceiling ? Json(*expected.bid_ceiling) : Json(nullptr);
    json["break_even_unit"] = likely.against_unit.chance ? Json(*likely.against_unit.chance) : Json(nullptr);
    json["break_even_pass_on"] = likely.against_pass_on.chance ? Json(*likely.against_pass_on.chance) : Json(nullptr);
    json["value_of_looking"] = expected.looking ? Json(expected.looking->value) : Json(nullptr);
    for (const auto& path : likely.paths)
        json["paths"].push_back({{"path", path_words(path.path)},
                                 {"result", path.whole},
                                 {"expected", expected.result(path.path).whole},
                                 {"to_come", path.to_come},
                                 {"hours_value", path.hours_value}});
    json["spreads"] = Json::array();
    for (const auto& one : decision.spreads)
        json["spreads"].push_back({{"path", path_words(one.path)},
                                   {"mean", one.mean},
                                   {"standard_error", one.standard_error},
                                   {"low_5", one.low_5},
                                   {"high_95", one.high_95},
                                   {"chance_of_loss", one.chance_of_loss},
                                   {"worst", one.worst}});
    json["floors"] = Json::array();
    for (const auto& floor : decision.floors)
        json["floors"].push_back({{"outcome", floor.outcome},
                                  {"price", floor.price},
                                  {"with_hours", floor.with_hours},
                                  {"asked", floor.asked}});
    json["swings"] = Json::array();
    for (const auto& swing : decision.swings)
        json["swings"].push_back({{"input", swing.input},
                                  {"origin", swing.origin},
                                  {"low_result", swing.low_result},
                                  {"high_result", swing.high_result}});
    return json;
}

Result run_decide(Session& session, const Args& args) {
    const auto all = decision_asked(session, args);
    const auto exit = all.to_go_by() ? Exit::yes : Exit::cannot_tell;
    const auto cautions = evidence_cautions(session, all.vehicle);
    if (!session.json()) {
        auto text = decision_text(all, currency_of(session), session.full());
        for (const auto& caution : cautions) text += wrapped(fmt::format("Caution: {}.", caution), 0, 2);
        return {exit, text};
    }
    auto json = document("decide");
    json["vehicle"] = all.vehicle;
    json["cautions"] = cautions;
    json["decision"] = decision_json(all);
    return {exit, json_text(json)};
}

}  // namespace

std::vector<Command> decide_commands() {
    return {
        {"decide",
         "VEHICLE [KEY=LIKELY|LOW/LIKELY/HIGH...]",
         "fix first, unit now, pass on or look first; purchase: with transport; fix: the cheap fix, parts and paid "
         "hours; "
         "unit: a replacement unit, fitted; sale: once it runs; as-is: as it stands; works: the chance that the fix "
         "holds, or worked and failed: how often it did; look: what a closer look costs",
         1,
         any_number,
         {{"job", "JOB", "the job of the cheap fix (again for more): own closed jobs of it, or its cheapest order",
           true},
          {"unit-job", "JOB", "the job of the replacement unit, likewise", true},
          {"without", "PLACE", "a place of those jobs that nothing need be bought for", true},
          {"symptom", "WORDS", "only closed jobs whose start note speaks of it"},
          {"bought", "", "purchase and diagnosis are paid: only what is to come counts"},
          {"failed-fix", "", "the cheap fix was tried and did not help"}},
         run_decide,
         "casebound decide van purchase=900 fix=180/220/300 --job pan-service",
         {{"KEY", as_typed(deal_keys())}}}};
}

}  // namespace casebound
