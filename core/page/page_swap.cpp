// May OFFERED stand in for WANTED? One way only.
#include "core/page/page_swap.h"

#include <fmt/format.h>

#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/shop/shop_vehicles.h"
#include "core/work/why.h"

namespace casebound {

namespace {

void write_part(Html& html, std::string_view title, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    html.element("h3", title);
    write_list(html, texts);
}

Form swap_form(Session& session) {
    Field vehicle{
        "for", "On a vehicle", Field::Kind::choice, "", "Its conditions are met or not; without one they stay open.",
        "",    {{"", "none"}}};
    for (const auto& one : ShopVehicles(session.shop()).all()) vehicle.options.emplace_back(one.name, one.name);
    return {"swap",
            "",
            "May it stand in?",
            {{"wanted",
              "Wanted",
              Field::Kind::words,
              "",
              "The part or fluid called for: a number, or a group.",
              "",
              {},
              true},
             {"offered", "Offered", Field::Kind::words, "", "What one has, or is offered.", "", {}, true},
             vehicle},
            {},
            {},
            "/swap"};
}

void show_swap(Visit& visit, Page& page) {
    page.title = "May it stand in?";
    auto& html = page.main;
    const auto wanted = visit.asked("wanted"), offered = visit.asked("offered");
    if (wanted.empty() != offered.empty())
        visit.refused = Refusal{"swap",
                                {wanted.empty() ? "wanted: say which part or fluid is called for"
                                                : "offered: say what is offered in its place"}};
    if (!wanted.empty() && !offered.empty()) {
        try {
            const auto situation = visit.asked("for").empty() ? nullptr : visit.session.situation(visit.asked("for"));
            const auto answer = swap_on(visit.session, situation.get(), wanted, offered);
            page.title = fmt::format("{} in place of {}", in_titles(visit.session.catalog(), offered),
                                     in_titles(visit.session.catalog(), wanted));
            for (const auto& key : {answer.wanted_group, answer.offered_group})
                if (const auto group = visit.session.catalog().group(key))
                    page.invented |= of_the_demo(visit.session, group->origin);
            if (situation) page.under = fmt::format("{}: {}", situation->name(), situation->headline());
            write_swap(html, answer, visit.session.catalog());
            const auto line = html.in("p");
            html.link(address("/swap", {{"wanted", offered}, {"offered", wanted}}), "And the other way round?",
                      {{"class", "button"}});
        } catch (const Error& error) {
            if (error.exit() != Exit::usage && error.exit() != Exit::no_input) throw;
            visit.refused = Refusal{"swap", error.all()};
        }
    }
    write_form(html, visit, swap_form(visit.session));
}

}  // namespace

void write_swap(Html& html, const SwapAnswer& made, const Catalog& catalog) {
    const auto answer = in_words(made, catalog);
    {
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_swap_verdict(html, answer.verdict);
        html.element("span", fmt::format("{} for {}", answer.offered, answer.wanted));
    }
    write_list(html, answer.reasons);
    write_part(html, "Only where", answer.conditions);
    write_part(html, "On condition", answer.requirements);
    write_part(html, "Also fit", answer.also_requires);
    write_part(html, "It differs", answer.differences);
    write_part(html, "Cautions", texts_of(answer.cautions));
    write_leaves(html, answer.leaves, nullptr, "By these rows");
    write_leaves(html, answer.withdrawn, nullptr, "No longer counts");
    if (!answer.leaves.empty()) html.element("p", fmt::format("Weakest evidence: {}.", evidence_words(answer.weakest)));
}

std::vector<Route> swap_routes() { return {{"/swap", "Stand-ins", show_swap}}; }

}  // namespace casebound
