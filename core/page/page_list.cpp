// The parts list of one or several jobs: ready or not and what to find out, the lines by job, what stays behind,
// kits, cautions; ordering and printing always in reach.
#include <algorithm>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_first.h"
#include "core/page/page_form.h"
#include "core/page/page_line.h"
#include "core/page/page_question.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/verdict/parts_list.h"
#include "core/work/why.h"

namespace casebound {

namespace {

// Which, where and how many, never folded; how to see it and get it out opens.
void write_stays(Html& html, const PartsList& list, const Situation& situation) {
    if (list.stays.empty()) return;
    const auto section = html.in("section", {{"class", "stays"}, {"aria-labelledby", "stays"}});
    html.element("h2", fmt::format("Stays behind: {}", list.stays.size()), {{"id", "stays"}});
    for (const auto& stay : list.stays) {
        const auto one = html.in("p");
        const auto count = stay_count(stay);
        html.element("strong", count.empty() ? stay.title : fmt::format("{}, {}", stay.title, count));
        html.text(fmt::format(": {}", stay.place));
        if (!stay.where.empty())
            html.text(fmt::format("; may stay, where {}",
                                  where_words(situation.model().set, stay.on, situation.narrowing().left)));
    }
    const auto details = html.in("details");
    html.element("summary", "How to see them and get them out");
    for (const auto& stay : list.stays) {
        html.element("h3", stay.title);
        html.element("p", fmt::format("To see it: {}.", stay.see));
        html.element("p", fmt::format("To get it out: {}.", stay.remove));
        write_source(html, stay.origin);
    }
}

void write_kits(Html& html, const PartsList& list, const std::string& vehicle) {
    if (std::all_of(list.kits.begin(), list.kits.end(), [](const Kit& kit) { return kit.covers.empty(); })) return;
    const auto section = html.in("section");
    html.element("h2", "Kits");
    for (const auto& kit : list.kits) {
        if (kit.covers.empty()) continue;
        {
            const auto line = html.in("p");
            html.link(why_address(vehicle, kit.item), kit.item);
            html.text(fmt::format(" ({}) covers {}.", kit.title, fmt::join(kit.covers, ", ")));
        }
        if (!kit.lacks.empty()) html.element("p", fmt::format("It does not contain: {}.", fmt::join(kit.lacks, ", ")));
        if (!kit.surplus.empty()) html.element("p", fmt::format("Also in it: {}.", fmt::join(kit.surplus, ", ")));
    }
}

void write_ready(Html& html, const PartsList& list, const Situation& situation) {
    std::vector<std::string> open;
    const auto count = [&](std::size_t lines, std::string_view words) {
        if (lines > 0) open.push_back(fmt::format("{} {}", lines, words));
    };
    count(list.to_check, "to check");
    count(list.unrecorded, "not recorded");
    count(list.disagreed, "where sources disagree");
    count(list.unfit, "that nothing fits");
    count(list.unanswered, "not answered");
    count(list.held, "that must wait");
    {
        const auto line = html.in("p", {{"class", list.ready() ? "ready good" : "ready not"}, {"role", "status"}});
        write_mark(html, list.ready() ? "yes" : "check");
        html.element("span", !open.empty()
                                 ? fmt::format("Not ready: {}.", fmt::join(open, ", "))
                                 : fmt::format("{} Weakest evidence: {}.",
                                               list.nothing_to_order() ? "Nothing to order: there is no such place."
                                               : list.hearsay.empty()  ? "Ready to order."
                                                                       : "Ready to order, if so.",
                                               evidence_words(list.weakest)));
    }
    if (!list.hearsay.empty())
        html.element("p",
                     fmt::format("Right only if this is true: {}. Look for yourself before ordering.",
                                 hearsay_joined(told_words(situation, list.hearsay))),
                     {{"class", "only-if"}});
}

// What comes before ordering in sight, the job's own cautions opened.
void write_cautions(Html& html, Session& session, const PartsList& list) {
    std::vector<std::string> texts;
    for (const auto& question : list.domain_questions)
        texts.push_back(fmt::format("Before ordering, find out: {}", question));
    for (const auto& domain : session.missing_domains())
        texts.push_back(fmt::format("Not answered: {} is not loaded; its lines are left open.", domain));
    write_list(html, texts, "cautions");
    auto of_the_job = texts_of(list.cautions);
    std::erase(of_the_job, jack_caution_of_packs);  // the foot of the page says it
    if (of_the_job.empty()) return;
    const auto details = html.in("details");
    html.element("summary", fmt::format("Cautions of this job: {}", of_the_job.size()));
    write_list(html, of_the_job, "cautions");
}

void show_list(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "parts list");
    auto& session = visit.session;
    const auto jobs = visit.all_asked("job");
    auto& html = page.main;
    if (jobs.empty()) {
        html.element("p", "Choose a job first.");
        write_jobs(html, visit, *situation);
        write_vehicle_links(html, visit, situation->name());
        return;
    }
    auto list = in_words(make_parts_list(situation->places(), jobs), session.catalog());
    for (auto& line : list.lines) line.answer = with_deciding(std::move(line.answer), *situation);
    page.title = fmt::format("{}: {}", situation->name(), fmt::join(list.titles, " and "));
    page.invented |= list.invented;
    write_ready(html, list, *situation);
    const auto first = first_things(list);
    const bool asked_for = !visit.asked("ask").empty();
    if (!asked_for && !first.empty()) write_first_things(html, visit, *situation, first);
    else if (asked_for || !list.ready())  // what is only looked at does not hold an order up
        write_question(html, visit, *situation, open_lines(list));
    write_lines(html, visit, list, *situation);
    write_stays(html, list, *situation);
    write_kits(html, list, situation->name());
    write_cautions(html, session, list);
    Fields asked;
    for (const auto& job : jobs) asked.emplace_back("job", job);
    {
        const auto line = html.in("p", {{"class", "pinned"}});
        html.link(address("/vehicle/" + situation->name() + "/order", asked), "What to order", {{"class", "button"}});
        html.text(" ");
        auto sheet = asked;
        sheet.insert(sheet.begin(), {"kind", "job"});
        html.link(address("/vehicle/" + situation->name() + "/sheets", sheet), "Print", {{"class", "button"}});
    }
    write_vehicle_links(html, visit, situation->name());
}

}  // namespace

std::vector<Route> list_routes() { return {{"/vehicle/*/list", "", show_list}}; }

}  // namespace casebound
