// The parts list of one or several jobs: what to find out, the lines by job, what stays in the case, kits, cautions.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/page/page_first.h"
#include "core/page/page_form.h"
#include "core/page/page_question.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/verdict/parts_list.h"
#include "core/work/why.h"

namespace casebound {

namespace {

std::string why_address(const std::string& vehicle, const std::string& item) {
    return address("/vehicle/" + vehicle + "/why", {{"item", item}});
}

void write_line_verdict(Html& html, const ListLine& line) {
    const bool looked = line.reach == Reach::look_first ||
                        (line.reach == Reach::disturbs && line.answer.verdict != Verdict::not_answered);
    if (looked) write_look_first(html);
    else write_verdict(html, line.answer.verdict);
}

void write_option(Html& html, const ListLine& line, const Option& option, const std::string& where,
                  const Situation& situation) {
    const auto item = html.in("li");
    if (option.containers.empty()) {
        for (std::size_t i = 0; i < option.members.size(); ++i) {
            html.text(i == 0 ? "" : i == 1 ? ", the same part as " : ", ");
            html.link(why_address(situation.name(), option.members[i].item), option.members[i].item);
        }
        if (option.members.empty()) html.text(fmt::format("{} (no part on record)", named(option.title, option.group)));
    } else {
        html.link(why_address(situation.name(), option.group), option.group);
        html.text(fmt::format(": {}", containers_text(option.containers, line.answer.unit)));
    }
    if (!where.empty()) html.element("span", fmt::format(" where {}", where), {{"class", "where"}});
    if (!option.claimed.empty()) html.element("p", claimed_text(option), {{"class", "hint"}});
}

std::string where_on(const Situation& situation, const Bits& on, const ListLine& line) {
    return where_words(situation.model().set, on, situation.narrowing().left, line.answer.speaks_of());
}

void write_order(Html& html, const ListLine& line, const Situation& situation) {
    const bool cases = line.answer.verdict == Verdict::check_first &&
                       (!line.none_where.empty() || !line.blank_where.empty());
    if ((line.options.empty() && !cases) || line.answer.verdict == Verdict::not_answered) {
        html.element("p", missing_text(line));
        return;
    }
    if (line.options.size() > 1)
        html.element(
            "p", line.answer.verdict == Verdict::fits ? "Any one of these:" : "One of these, when it is known which:",
            {{"class", "hint"}});
    const auto list = html.in("ul", {{"class", "order"}});
    const auto worded = line_cases(line, situation, [](const ListLine&, const Option& one) { return one.group; });
    for (std::size_t i = 0; i < worded.size(); ++i) {
        const auto where = where_on(situation, worded[i].on, line);
        if (i < line.options.size()) write_option(html, line, line.options[i], where, situation);
        else
            html.element("li",
                         fmt::format("{} where {}", worded[i].what == "none" ? "none needed" : worded[i].what, where));
    }
}

// What nobody may overlook: it is never folded away.
std::vector<std::string> warnings_of(const ListLine& line, const Situation& situation) {
    std::vector<std::string> warnings;
    if (const auto held = held_back(line); !held.empty()) warnings.push_back("not yet: " + held);
    if (!line.only_where.empty()) warnings.push_back("needed only where " + where_on(situation, line.applies, line));
    if (!line.companion_of.empty()) warnings.push_back(line.companion_of);
    if (line.answer.verdict == Verdict::not_recorded)
        warnings.insert(warnings.end(), line.notes.begin(), line.notes.end());
    return warnings;
}

std::vector<std::string> notes_of(const ListLine& line) {
    std::vector<std::string> notes;
    if (!line.kits.empty()) notes.push_back(fmt::format("already in kit {}", fmt::join(line.kits, ", ")));
    if (const auto reuse = reuse_text(line); !reuse.empty()) notes.push_back(reuse);
    if (const auto* best = line.answer.best())
        for (const auto& caution : best->cautions) notes.push_back(caution.text);
    if (line.answer.verdict != Verdict::not_recorded)  // those are not folded away
        notes.insert(notes.end(), line.notes.begin(), line.notes.end());
    return notes;
}

void write_stand_ins(Html& html, const ListLine& line, const Situation& situation) {
    if (line.stand_ins.empty()) return;
    html.element("h4", "Offered as a replacement");
    const auto list = html.in("ul");
    for (const auto& swap : line.stand_ins) {
        const auto item = html.in("li");
        html.link(address("/swap", {{"wanted", swap.wanted}, {"offered", swap.offered}, {"for", situation.name()}}),
                  swap.offered);
        html.text(fmt::format(": {}", swap_words(swap.verdict)));
    }
}

void write_line_why(Html& html, const ListLine& line, const Situation& situation) {
    const auto details = html.in("details", {{"class", "why"}});
    html.element("summary", fmt::format("More, and why: {}", line.answer.title));
    write_list(html, notes_of(line), "notes");
    write_stand_ins(html, line, situation);
    for (const auto& group : line.answer.groups) {
        if (group.on.none() && group.against.empty()) continue;
        {
            const auto head = html.in("p");
            html.link(why_address(situation.name(), group.key), group_in_short(situation, line.answer, group));
            html.text(fmt::format(" ({}): {}", named(group.title, group.key), verdict_words(group.verdict)));
        }
        auto leaves = group.leaves;
        leaves.insert(leaves.end(), group.against.begin(), group.against.end());
        write_leaves(html, leaves, &situation, {}, 5);  // the item's own page shows all
    }
    write_leaves(html, line.answer.none_leaves, &situation, "None needed because");
    write_leaves(html, line.answer.told, &situation, "Because of what is told");
    write_leaves(html, line.answer.withdrawn, &situation, "No longer counts");
    if (!line.answer.deciding.empty())
        html.element("p", fmt::format("It hangs on: {}.", attribute_titles(situation, line.answer.deciding)));
    html.element("p", fmt::format("Weakest evidence: {}.", evidence_words(line.answer.weakest)));
}

void write_stay_flag(Html& html, const ListLine& line, const PartsList& list, const Situation& situation) {
    for (const auto& stay : list.stays)
        if (stay.role == line.answer.role)
            html.element("p",
                         stay.where.empty() ? "STAYS IN THE CASE"
                                            : "MAY STAY IN THE CASE: where " + where_on(situation, stay.on, line),
                         {{"class", "stays-flag"}});
}

bool open_place(Verdict verdict) {
    return verdict == Verdict::not_recorded || verdict == Verdict::check_first ||
           verdict == Verdict::sources_disagree || verdict == Verdict::does_not_fit;
}

void write_line(Html& html, const Visit& visit, const ListLine& line, const PartsList& list,
                const Situation& situation) {
    const bool settled = meaning_of(line) == Meaning::good;
    const auto item = html.in("li", {{"class", line.blocks() ? "line blocks" : settled ? "line good" : "line"}});
    html.element("h4", line.answer.title);
    {
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_line_verdict(html, line);
        if (const auto need = need_text(line); need != "-")
            html.element("span", fmt::format("need {}", need), {{"class", "need"}});
    }
    write_stay_flag(html, line, list, situation);
    write_order(html, line, situation);
    if (open_place(line.answer.verdict) || !line.doubts.empty())
        write_note_link(html, visit, situation.name(), line.answer.role, line.answer.title);
    write_list(html, warnings_of(line, situation), "notes");
    write_line_why(html, line, situation);
}

std::string titles_of(const PartsList& list, const std::vector<std::string>& jobs) {
    std::vector<std::string> titles;
    for (std::size_t i = 0; i < list.jobs.size() && i < list.titles.size(); ++i)
        if (std::find(jobs.begin(), jobs.end(), list.jobs[i]) != jobs.end()) titles.push_back(list.titles[i]);
    return titles.empty() ? "Also needed" : fmt::format("{}", fmt::join(titles, " and "));
}

enum class Folded { no, looked_at, no_place };

// As on the short list: what waits is never folded away.
Folded folded(const ListLine& line) {
    if (line.answer.verdict == Verdict::none_needed && line.doubts.empty()) return Folded::no_place;
    const bool looked_at = !line.must_order() && !line.waits() && line.answer.verdict != Verdict::not_answered &&
                           line.companion_of.empty();
    return looked_at ? Folded::looked_at : Folded::no;
}

using Lines = std::vector<const ListLine*>;

void write_cards(Html& html, const Visit& visit, const Lines& lines, const PartsList& list, const Situation& situation,
                 Folded which) {
    const auto any = [&](const ListLine* line) { return folded(*line) == which; };
    if (std::none_of(lines.begin(), lines.end(), any)) return;
    const auto cards = html.in("ul", {{"class", "lines"}});
    for (const auto* line : lines)
        if (any(line)) write_line(html, visit, *line, list, situation);
}

void write_folded(Html& html, const Visit& visit, const Lines& lines, const PartsList& list, const Situation& situation,
                  Folded which, std::string_view words) {
    std::vector<std::string> titles;
    for (const auto* line : lines)
        if (folded(*line) == which) titles.push_back(line->answer.title);
    if (titles.empty()) return;
    const auto details = html.in("details");
    html.element("summary", fmt::format("{}, {}: {}", words, titles.size(), fmt::join(titles, ", ")));
    write_cards(html, visit, lines, list, situation, which);
}

// Each line once, under the job or jobs that it is for.
void write_lines(Html& html, const Visit& visit, const PartsList& list, const Situation& situation) {
    std::vector<std::string> headings;
    std::map<std::string, std::vector<const ListLine*>> by_heading;
    for (const auto& line : list.lines) {
        const auto heading = titles_of(list, line.jobs);
        if (by_heading[heading].empty()) headings.push_back(heading);
        by_heading[heading].push_back(&line);
    }
    const auto section = html.in("section", {{"id", "parts"}, {"aria-labelledby", "parts-title"}});
    html.element("h2", "Parts", {{"id", "parts-title"}});
    for (const auto& heading : headings) {
        html.element("h3", heading);
        const auto& all = by_heading[heading];
        write_cards(html, visit, all, list, situation, Folded::no);
        write_folded(html, visit, all, list, situation, Folded::looked_at, "Look at, order if worn");
        write_folded(html, visit, all, list, situation, Folded::no_place, "No such place here");
    }
}

void write_stays(Html& html, const PartsList& list, const Situation& situation) {
    if (list.stays.empty()) return;
    const auto section = html.in("section", {{"class", "stays"}, {"aria-labelledby", "stays"}});
    html.element("h2", "Stays in the case", {{"id", "stays"}});
    for (const auto& stay : list.stays) {
        const auto one = html.in("div");
        html.element("h3", stay.where.empty()
                               ? stay.title
                               : fmt::format("{}: may stay, where {}", stay.title,
                                             where_words(situation.model().set, stay.on, situation.narrowing().left)));
        html.element("p", fmt::format("{} out, {} in.", stay.count, stay.count), {{"class", "count"}});
        html.element("p", fmt::format("Where: {}.", stay.place));
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
    const auto line = html.in("p", {{"class", list.ready() ? "ready" : "ready not"}, {"role", "status"}});
    write_mark(html, list.ready() ? "yes" : "check");
    if (!list.hearsay.empty())
        html.element("strong", fmt::format("Right only if this is true: {}. Look for yourself before ordering.",
                                           fmt::join(told_words(situation, list.hearsay), ", ")));
    html.element("span",
                 fmt::format("{} Weakest evidence: {}.",
                             open.empty() ? (list.nothing_to_order() ? "Nothing to order: there is no such place."
                                             : list.hearsay.empty()  ? "Ready to order."
                                                                     : "Ready to order, if so.")
                                          : fmt::format("Not ready to order: {}.", fmt::join(open, ", ")),
                             evidence_words(list.weakest)));
    html.link("#parts", "To the parts");
}

// Every hold and every doubt, and what is still to check.
void write_in_the_way(Html& html, const PartsList& list, const Situation& situation) {
    std::vector<std::string> texts;
    for (const auto& one : in_the_way(list, situation))
        texts.push_back(fmt::format("In the way: {}: {}", one.title, one.why));
    write_list(html, texts, "in-the-way");
}

void write_cautions(Html& html, Session& session, const PartsList& list) {
    std::vector<std::string> texts;
    for (const auto& question : list.domain_questions)
        texts.push_back(fmt::format("Before ordering, find out: {}", question));
    for (const auto& caution : list.cautions) texts.push_back(fmt::format("Caution: {}", caution.text));
    for (const auto& domain : session.missing_domains())
        texts.push_back(fmt::format("Not answered: {} is not loaded; its lines are left open.", domain));
    write_list(html, texts, "cautions");
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
    auto list = make_parts_list(situation->places(), jobs);
    for (auto& line : list.lines) line.answer = with_deciding(std::move(line.answer), *situation);
    page.title = fmt::format("{}: parts for {}", situation->name(), fmt::join(list.titles, " and "));
    page.invented |= list.invented;
    write_ready(html, list, *situation);
    const auto first = first_things(list);
    if (first.empty() || !visit.asked("ask").empty()) write_question(html, visit, *situation, open_lines(list));
    else write_first_things(html, visit, *situation, first);
    write_lines(html, visit, list, *situation);
    write_stays(html, list, *situation);
    write_in_the_way(html, list, *situation);
    write_kits(html, list, situation->name());
    write_cautions(html, session, list);
    Fields asked;
    for (const auto& job : jobs) asked.emplace_back("job", job);
    {
        const auto line = html.in("p", {{"class", "pinned"}});
        html.link(address("/vehicle/" + situation->name() + "/order", asked), "What to order, and the price",
                  {{"class", "button"}});
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
