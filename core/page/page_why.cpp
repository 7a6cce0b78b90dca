// What fits, role by role; and why an item fits, does not, or cannot be told yet.
#include <algorithm>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_swap.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/verdict/parts_list.h"
#include "core/work/why.h"

namespace casebound {

namespace {

std::string why_address(const Situation& situation, const std::string& item) {
    return address("/vehicle/" + situation.name() + "/why", {{"item", item}});
}

void write_role(Html& html, const Visit& visit, const Situation& situation, const RoleAnswer& answer) {
    const auto item = html.in("li", {{"class", "line"}});
    {
        const auto head = html.in("div", {{"class", "head"}});
        html.element("h2", answer.title);
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_verdict(html, answer.verdict);
    }
    if (answer.verdict == Verdict::not_answered) html.element("p", fmt::format("not answered: {}", answer.failure));
    else write_doubts(html, situation.places().doubts(answer));
    const auto list = html.in("ul", {{"class", "order"}});
    for (const auto& group : answer.groups) {
        if (group.on.none() || (answer.verdict == Verdict::fits && group.verdict != Verdict::fits)) continue;
        const auto one = html.in("li");
        html.link(why_address(situation, group.key), group_in_short(situation, answer, group));
        html.element("span", " " + named(group.title, group.key), {{"class", "where"}});
    }
    if (!answer.deciding.empty())
        html.element("li", "it hangs on: " + attribute_titles(situation, answer.deciding), {{"class", "where"}});
    if (answer.verdict != Verdict::fits && answer.verdict != Verdict::none_needed) {
        const auto one = html.in("li");
        write_note_link(html, visit, situation.name(), answer.role, answer.title);
    }
}

void show_fits(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "what fits");
    const auto& judge = situation->judge();
    const auto roles = judge.roles_on_record();
    constexpr std::size_t most = 40;
    const auto stretch = stretch_of(visit, roles.size(), most);
    auto& html = page.main;
    if (roles.empty()) html.element("p", "Not recorded: nobody has said what fits this line. Load a pack that does.");
    {
        const auto list = html.in("ul", {{"class", "lines"}});
        for (std::size_t i = stretch.from; i < stretch.to; ++i) {
            const auto answer = with_deciding(situation->places().role(roles[i]), *situation);
            page.invented |= answer.invented;
            write_role(html, visit, *situation, answer);
        }
    }
    write_stretch(html, visit, stretch, most);
    write_vehicle_links(html, visit, situation->name());
}

std::vector<std::string> worded_cautions(const Situation& situation, const GroupAnswer& group) {
    auto texts = texts_of(group.cautions);
    for (auto& text : texts) text = in_titles(situation.judge().catalog(), text);
    return texts;
}

void write_why(Html& html, const Situation& situation, const std::string& item, const Why& why) {
    const auto& group = *why.group;
    const auto section = html.in("section");
    html.element("h2", fmt::format("{} as {}", item, why.role.title));
    {
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_verdict(html, why.verdict());
    }
    write_doubts(html, situation.places().doubts(why.role));
    if (!why.lowered.empty()) html.element("p", fmt::format("{}: {}", item, why.lowered));
    write_leaves(html, why.leaves(), &situation, "It fits by");
    write_leaves(html, group.against, &situation, "Against it");
    write_leaves(html, why.role.told, &situation, "Because of what is told");
    if (group.verdict != Verdict::fits) {
        const auto& set = situation.model().set;
        const auto where = group.on_line == set.all()
                               ? std::string("every version of this line")
                               : "where " + where_words(set, group.on_line, set.all(), why.role.speaks_of());
        html.element("p",
                     group.on_line.none() ? std::string(fits_none_words(group)) : fmt::format("It fits {}.", where));
    }
    if (!why.role.deciding.empty())
        html.element("p", fmt::format("It hangs on: {}.", attribute_titles(situation, why.role.deciding)));
    write_list(html, worded_cautions(situation, group), "cautions");
    html.element("p", fmt::format("Weakest evidence: {}.", evidence_words(why.weakest())));
}

void write_by_stand_in(Html& html, const Situation& situation, const std::string& item,
                       const std::vector<RoleAnswer>& roles) {
    const auto found = stand_ins_of(situation.places(), item, roles);
    for (const auto& one : found) {
        html.element("h2", fmt::format("In place of {}, which fits as {}",
                                       group_words(situation.judge().catalog(), one.best), one.role));
        write_swap(html, one.answer, situation.judge().catalog());
    }
    if (!found.empty()) return;
    {
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_verdict(html, Verdict::not_recorded);
    }
    html.element(
        "p", fmt::format("Nobody has said where {} goes on a {}. That is not a no.", item, situation.model().title));
}

void write_which(Html& html, const Visit& visit, const Situation& situation) {
    write_form(html, visit,
               {"why",
                "Another part or fluid",
                "Does it fit?",
                {{"item", "Part number or group", Field::Kind::words, "", "", "", {}, true}},
                {},
                {},
                vehicle_address(situation.name(), "/why")});
}

void show_why(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "does it fit?");
    auto& html = page.main;
    const auto item = visit.asked("item");
    if (item.empty()) return write_which(html, visit, *situation);
    page.title = fmt::format("{}: {}", situation->name(), item);
    try {
        const auto [groups, kit] = groups_asked(visit.session.catalog(), item);
        const auto roles = situation->places().roles();
        const auto found = whys(visit.session.catalog(), *situation, item, roles, groups);
        if (kit)
            html.element("p",
                         fmt::format("A kit: {}. It is as good as the worst part in it.",
                                     in_titles(visit.session.catalog(), fmt::format("{}", fmt::join(groups, "; ")))));
        for (const auto& why : found) {
            page.invented |= why.role.invented;
            write_why(html, *situation, kit ? group_words(visit.session.catalog(), why.group->key) : item, why);
        }
        if (found.empty()) write_by_stand_in(html, *situation, item, roles);
    } catch (const Error& error) {
        if (error.exit() != Exit::usage) throw;
        visit.refused = Refusal{"why", error.all()};
    }
    write_which(html, visit, *situation);
    if (visit.refused) {
        const auto line = html.in("p");
        html.link("/catalog", "Look it up in the catalog", {{"class", "button"}});
    }
    write_vehicle_links(html, visit, situation->name());
}

}  // namespace

std::vector<Route> why_routes() { return {{"/vehicle/*/fits", "", show_fits}, {"/vehicle/*/why", "", show_why}}; }

}  // namespace casebound
