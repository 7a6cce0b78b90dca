#include "core/page/page_line.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/page/page_frame.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/say/short_list.h"

namespace casebound {

namespace {

void write_line_verdict(Html& html, const ListLine& line) {
    const bool looked = line.reach == Reach::look_first ||
                        (line.reach == Reach::disturbs && line.answer.verdict != Verdict::not_answered);
    if (looked) write_look_first(html);
    else write_verdict(html, line.answer.verdict);
}

void write_option(Html& html, const ListLine& line, const Option& option, const std::string& where,
                  const Situation& situation) {
    const auto item = html.in("li");
    if (const auto open = amount_open_text(line, option); !open.empty()) {
        html.link(why_address(situation.name(), option.group), open);
    } else if (option.containers.empty()) {
        for (std::size_t i = 0; i < option.members.size(); ++i) {
            html.text(i == 0 ? "" : i == 1 ? ", the same part as " : ", ");
            html.link(why_address(situation.name(), option.members[i].item), option.members[i].item);
        }
        if (option.members.empty()) html.text(fmt::format("{} (no part on record)", named(option.title, option.group)));
    } else {
        html.link(why_address(situation.name(), option.group), option.group);
        html.text(fmt::format(": {}", containers_text(option.containers, line.answer.unit)));
    }
    html.text(with_words(situation, option.goes_with));
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
std::vector<std::string> warnings_of(const ListLine& line, const SaidOnce& once, const Situation& situation) {
    std::vector<std::string> warnings;
    if (const auto held = once.of(line); !held.empty()) warnings.push_back("not yet: " + held);
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
                  group_words(situation.judge().catalog(), swap.offered));
        html.text(fmt::format(": {}", swap_words(swap.verdict)));
    }
}

void write_line_why(Html& html, const ListLine& line, const Situation& situation) {
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
                         stay.where.empty() ? fmt::format("STAYS BEHIND: {}", stay.place)
                                            : fmt::format("MAY STAY BEHIND (where {}): {}",
                                                          where_on(situation, stay.on, line), stay.place),
                         {{"class", "stays-flag"}});
}

bool open_place(Verdict verdict) {
    return verdict == Verdict::not_recorded || verdict == Verdict::check_first ||
           verdict == Verdict::sources_disagree || verdict == Verdict::does_not_fit;
}

// All of it at arm's length: place, verdict, count, what to order or by what it hangs.
void write_line_head(Html& html, const ListLine& line, const Situation& situation) {
    const auto summary = html.in("summary");
    html.element("h4", line.answer.title);
    write_line_verdict(html, line);
    if (const auto need = need_text(line); need != "-") {
        const auto count = html.in("span", {{"class", "need"}});
        html.element("span", "need ", {{"class", "only-read"}});
        html.text(need);
    }
    html.element("span", order_in_short(line, situation), {{"class", "what"}});
}

std::string_view class_of(const ListLine& line) {
    const auto meaning = meaning_of(line);
    if (line.blocks()) return meaning == Meaning::stop ? "line blocks stop" : "line blocks";
    return meaning == Meaning::good ? "line good" : "line";
}

// What is recorded of it is opened; what nobody may overlook is not.
void write_line(Html& html, const Visit& visit, const ListLine& line, const PartsList& list, const SaidOnce& once,
                const Situation& situation) {
    const auto item = html.in("li", {{"class", std::string(class_of(line))}});
    const bool to_say = open_place(line.answer.verdict) || !line.doubts.empty();
    const bool unrecorded = line.answer.verdict == Verdict::not_recorded ||
                            (line.amount_open && line.answer.verdict == Verdict::fits);
    {
        const auto details = html.in("details", {{"class", "part"}});
        write_line_head(html, line, situation);
        write_order(html, line, situation);
        if (to_say && !unrecorded) write_note_link(html, visit, situation.name(), line.answer.role, line.answer.title);
        write_line_why(html, line, situation);
    }
    write_stay_flag(html, line, list, situation);
    write_list(html, warnings_of(line, once, situation), "notes");
    if (unrecorded) write_note_link(html, visit, situation.name(), line.answer.role, line.answer.title);
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
        if (any(line)) write_line(html, visit, *line, list, SaidOnce(list), situation);
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

}  // namespace

std::string why_address(const std::string& vehicle, const std::string& item) {
    return address("/vehicle/" + vehicle + "/why", {{"item", item}});
}

void write_lines(Html& html, const Visit& visit, const PartsList& list, const Situation& situation) {
    std::vector<std::string> headings;
    std::map<std::string, std::vector<const ListLine*>> by_heading;
    for (const auto& line : list.lines) {
        const auto heading = titles_of(list, line.jobs);
        if (by_heading[heading].empty()) headings.push_back(heading);
        by_heading[heading].push_back(&line);
    }
    const auto waits = SaidOnce(list).texts();
    if (waits.size() > 1 || question_comes_first(list)) {  // else it is what to find out first
        for (const auto& text : waits) html.element("p", fmt::format("Not yet: {}.", text), {{"class", "only-if"}});
    }
    const auto section = html.in("section", {{"id", "parts"}, {"aria-labelledby", "parts-title"}});
    html.element("h2", "Parts", {{"id", "parts-title"}, {"class", "only-read"}});
    for (const auto& heading : headings) {
        html.element("h3", heading, headings.size() > 1 ? HtmlAttributes{} : HtmlAttributes{{"class", "only-read"}});
        const auto& all = by_heading[heading];
        write_cards(html, visit, all, list, situation, Folded::no);
        write_folded(html, visit, all, list, situation, Folded::looked_at, "Look at, order if worn");
        write_folded(html, visit, all, list, situation, Folded::no_place, "No such place here");
    }
}

}  // namespace casebound
