// Fix it, fit a unit, or pass it on: the answer of `decide` as a page, with the tree and the figures it rests on.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/decision_asked.h"
#include "core/contract/answer_lines.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/html/svg.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"

namespace casebound {

namespace {

struct Figure {
    std::string_view key, label, hint;
};

constexpr Figure main_figures[]{
    {"purchase", "Purchase and transport, still to pay", ""},
    {"diagnosis", "Diagnosis, still to pay", ""},
    {"fix", "The cheap fix: parts, fluid, paid hours", ""},
    {"works", "Chance that the cheap fix works", "0.6, or 30%/60%/80%"},
    {"unit", "A unit, fitted, less the old one's value", ""},
    {"sale", "What it brings once it runs", ""},
    {"as_is", "What it brings as it is", ""},
};
constexpr Figure more_figures[]{
    {"unit_item", "The unit's part number", "its cheapest offer on file is taken"},
    {"unit_extra", "What a unit needs besides", ""},
    {"as_is_opened", "What it brings once it has been opened", ""},
    {"worked", "Like fixes of yours that worked", ""},
    {"failed", "Like fixes of yours that did not", ""},
    {"reusable", "Share of the cheap fix that a unit can use", ""},
    {"spent", "Spent already", ""},
    {"margin", "Margin wanted", ""},
    {"sale_cost", "Fixed cost of selling", ""},
    {"sale_fee", "Share of the price that selling takes", ""},
    {"fix_hours", "Own hours for the fix", ""},
    {"unit_hours", "Own hours for the unit", ""},
    {"hour", "What an own hour is worth", ""},
    {"look", "Something to look at first", "such as: what lies in the pan"},
    {"look_cost", "What looking costs", ""},
    {"look_good_if_works", "Chance of a good sign if the fix would work", ""},
    {"look_good_if_not", "Chance of a good sign if it would not", ""},
};

std::vector<std::string> keys() {
    std::vector<std::string> all;
    for (const auto& one : main_figures) all.emplace_back(one.key);
    for (const auto& one : more_figures) all.emplace_back(one.key);
    return all;
}

Field field_of(const Figure& figure) {
    return {std::string(figure.key), std::string(figure.label), Field::Kind::number, "", std::string(figure.hint)};
}

// Own closed jobs, or the cheapest order, give a figure that is not typed.
Field job_field(const Visit& visit, const Situation& situation, const std::string& name, const std::string& label) {
    Field field{name,
                label,
                Field::Kind::choice,
                "",
                "Own closed jobs of it, or its cheapest order, fill what is left empty.",
                "",
                {{"", "none"}}};
    for (const auto& job : jobs_for(situation, visit.session)) field.options.emplace_back(job.key, job.title);
    return field;
}

Form figures_form(const Visit& visit, const Situation& situation) {
    const auto& vehicle = situation.vehicle().name;
    Form form{"decide", "Your figures", "Work it out", {}, {}, {{"go", "1"}}, vehicle_address(vehicle, "/decide")};
    for (const auto& one : main_figures) form.fields.push_back(field_of(one));
    form.fields.front().hint =
        "LIKELY, or LOW/LIKELY/HIGH, such as 330/420/620. Left empty: what own jobs say, or invented demo figures that "
        "are named.";
    for (const auto& one : more_figures) form.more.push_back(field_of(one));
    form.fields.insert(form.fields.begin(), job_field(visit, situation, "job", "The job of the cheap fix"));
    form.more.push_back(job_field(visit, situation, "unit-job", "The job of the unit"));
    form.more.push_back({"symptom", "Only jobs whose note speaks of"});
    form.more.push_back({"bought", "It is bought: purchase and diagnosis are paid", Field::Kind::check});
    form.more.push_back({"failed-fix", "The cheap fix was tried and did not help", Field::Kind::check});
    return form;
}

std::string whole(double amount) { return plain_number(std::round(amount), 0); }

std::string percent(double share) { return whole(share * 100) + " %"; }

std::optional<double> likely_of(const DecisionAsked& all, std::string_view key) {
    for (const auto& figure : all.asked.figures)
        if (figure.key == key) return all.shown(figure).likely;
    return std::nullopt;
}

std::string in_money(const std::string& amount, const std::string& currency) {
    return currency.empty() ? amount : fmt::format("{} {}", amount, currency);
}

std::string in_words_of(const std::string& currency) { return currency.empty() ? "" : ", in " + currency; }

// The cheap fix turns out one way or the other; when it works, its result follows from the other two.
void add_outcomes(Branch& branch, const DecisionAsked& all, double expected, const std::string& currency) {
    const auto& likely = all.decision.likely;
    const auto chance = likely_of(all, "works");
    branch.chance = true;
    branch.amount.clear();
    if (chance && *chance > 0)
        branch.branches.push_back({fmt::format("works, {}", percent(*chance)),
                                   in_money(whole((expected - (1 - *chance) * likely.worst) / *chance), currency)});
    else branch.branches.push_back({"on average", in_money(whole(expected), currency)});
    branch.branches.push_back(
        {fmt::format("does not: {}", path_words(likely.after_failure)), in_money(whole(likely.worst), currency)});
}

// Where the answer is "cannot tell", no path is marked as the one to take.
bool is_recommended(const DecisionAsked& all, Path path) { return all.to_go_by() && path == all.decision.recommended; }

Branch tree_of(const DecisionAsked& all, const std::string& currency) {
    Branch root;
    for (const auto& one : all.decision.likely.paths) {
        Branch branch{std::string(path_words(one.path)), in_money(whole(one.whole), currency), false,
                      is_recommended(all, one.path)};
        if (one.path == Path::fix_first) add_outcomes(branch, all, one.whole, currency);
        root.branches.push_back(std::move(branch));
    }
    return root;
}

void write_paths(Html& html, const DecisionAsked& all, const std::string& currency) {
    const auto& decision = all.decision;
    HtmlTable table(html, {"path", "at likely", "expected", "chance of a loss", "5 % to 95 %", "worst"},
                    fmt::format("What each path brings{}", in_words_of(currency)));
    for (const auto& one : decision.likely.paths) {
        std::vector<std::string> row{std::string(path_words(one.path)), whole(one.whole),
                                     whole(decision.expected.result(one.path).whole)};
        for (const auto& spread : decision.spreads)
            if (spread.path == one.path)
                row.insert(row.end(),
                           {percent(spread.chance_of_loss),
                            fmt::format("{} to {}", whole(spread.low_5), whole(spread.high_95)), whole(spread.worst)});
        table.row(row, is_recommended(all, one.path));
    }
}

std::string break_even(double chance, std::string_view other) {
    if (chance <= 0)
        return fmt::format("At the likely figures alone, fixing first is better than {} whatever its chance.", other);
    if (chance > 1) return fmt::format("At the likely figures alone, fixing first is never as good as {}.", other);
    return fmt::format("At the likely figures alone, fixing first is as good as {} from a chance of {} % on.", other,
                       fixed(std::round(chance * 1000) / 10, 1));
}

void write_rest(Html& html, const DecisionAsked& all, const std::string& currency) {
    const auto& decision = all.decision;
    const auto &likely = decision.likely, &expected = decision.expected;
    std::vector<std::string> texts{all.worst_words(currency)};
    if (expected.bid_ceiling)
        texts.push_back(fmt::format("Bid ceiling: {} for purchase and transport.",
                                    in_money(whole(*expected.bid_ceiling), currency)));
    if (likely.against_unit.chance) texts.push_back(break_even(*likely.against_unit.chance, "a unit"));
    if (likely.against_pass_on.chance) texts.push_back(break_even(*likely.against_pass_on.chance, "passing it on"));
    if (expected.looking)
        texts.push_back(
            fmt::format("Looking first is worth up to {}.", in_money(whole(expected.looking->value), currency)));
    texts.push_back(fmt::format("Spent already: {}. It is gone either way and does not move the recommendation.",
                                in_money(whole(decision.spent), currency)));
    if (!all.asked.rate_note.empty()) texts.push_back(all.asked.rate_note);
    write_list(html, texts);
    HtmlTable table(html, {"when", "floor price", "with own hours", "likely asking price"}, "What to ask at least");
    for (const auto& floor : decision.floors)
        table.row({floor.outcome, whole(floor.price), whole(floor.with_hours), whole(floor.asked)});
}

void write_swings(Html& html, const Decision& decision, const std::string& currency) {
    HtmlTable table(html, {"figure", "from", "result at its low", "result at its high"},
                    fmt::format("What matters most to {}{}", path_words(decision.weighed), in_words_of(currency)));
    for (const auto& swing : decision.swings)
        table.row({swing.input, swing.origin, whole(swing.low_result), whole(swing.high_result)});
}

void write_figures(Html& html, const DecisionAsked& all) {
    HtmlTable table(html, {"figure", "low", "likely", "high", "from"}, "The figures it rests on");
    for (const auto& one : all.asked.figures) {
        const auto text = [&](double value) {  // as it was typed: 3.5 hours, 22.50 for each
            return one.share ? plain_number(value * 100, 1) + " %" : plain_number(value, 2);
        };
        const auto shown = all.shown(one);
        table.row({spaced(one.key), text(shown.low), text(shown.likely), text(shown.high), shown.origin}, one.demo());
    }
}

void write_decision(Html& html, const DecisionAsked& all, const std::string& currency) {
    const auto& [vehicle, asked, decision] = all;
    const bool demo = !asked.defaults.empty();
    for (const auto& held : asked.held)
        html.element("p", fmt::format("CANNOT TELL UNTIL this is settled: {}", held), {{"class", "refused"}});
    if (demo)
        html.element("p",
                     fmt::format("CANNOT TELL: {} of {} figures are not this vehicle's.", asked.defaults.size(),
                                 asked.figures.size()),
                     {{"class", "total"}});
    if (demo)
        html.element("p",
                     fmt::format("DEMO DEFAULTS, invented: {}. Type your own figures before deciding.",
                                 spaced(fmt::format("{}", fmt::join(asked.defaults, ", ")))),
                     {{"class", "refused"}});
    html.element("p", fmt::format("{}{}", demo ? "If these figures were true: " : "", decision.reason),
                 {{"class", "total"}});
    write_tree(html, fmt::format("The decision, results at the likely figures{}", in_words_of(currency)),
               tree_of(all, currency));
    write_paths(html, all, currency);
    write_rest(html, all, currency);
    write_swings(html, decision, currency);
    write_figures(html, all);
    write_list(html, asked.notes);
}

void show_decide(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "fix it or pass it on");
    const auto name = situation->name();
    auto& html = page.main;
    Args args{{name}, {}};
    for (auto& word : key_value_args_asked(visit, keys())) args.words.push_back(std::move(word));
    for (const char* flag : {"bought", "failed-fix"})
        if (!visit.asked(flag).empty()) args.options[flag] = {};
    for (const char* option : {"job", "unit-job", "symptom"})
        if (!visit.asked(option).empty()) args.options[option] = {visit.asked(option)};
    try {
        const auto decision = decision_asked(visit.session, args);
        page.invented |= !decision.asked.defaults.empty();
        write_decision(html, decision, visit.currency());
        write_currency_hint(html, visit);
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data) throw;
        visit.refused = Refusal{"decide", error.all()};
    }
    write_form(html, visit, figures_form(visit, *situation));
    write_vehicle_links(html, visit, name);
}

}  // namespace

std::vector<Route> decide_routes() { return {{"/vehicle/*/decide", "", show_decide}}; }

}  // namespace casebound
