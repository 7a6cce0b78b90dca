// What to find out next, and what is left to do where nobody can.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/buy/no_way_to_tell.h"
#include "core/buy/order_text.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/first_thing.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

// What to ask about where no job is named: every role on record for the line.
std::vector<OpenLine> lines_to_settle(const Situation& situation) {
    std::vector<OpenLine> lines;
    for (const auto& answer : situation.places().roles())
        if (answer.verdict != Verdict::not_answered) lines.push_back(open_line(answer));
    return lines;
}

// Where nobody can get at what would tell: what is left to do, with its price where the jobs are named.
std::string choices_text(Session& session, const Situation& situation, const std::vector<std::string>& jobs) {
    if (situation.narrowing().out_of_reach.empty()) return "";
    if (jobs.empty())
        return wrapped(fmt::format("What is left to do, and what it costs: casebound ask {} JOB", situation.name()), 0,
                       2);
    const auto buying = plan_buying(session, situation, {jobs, {}, {}, {}, {}});
    std::optional<UnsureAdvice> advice;
    if (buying.blocked.empty() && !buying.possible.empty())
        advice = order_while_unsure(buying.possible, buying.market, {}, {});
    const auto choices = choices_left(buying, advice, situation, currency_of(session));
    std::string out;
    for (std::size_t i = 0; i < choices.size(); ++i) out += wrapped(fmt::format("{}. {}", i + 1, choices[i]), 2, 5);
    return out;
}

// Everything that may be asked, the best first, with what it costs and what it decides on average.
std::string all_questions_text(const Situation& situation, const std::vector<OpenLine>& lines) {
    const auto& set = situation.model().set;
    const auto& left = situation.narrowing().left;
    const auto told = situation.narrowing().not_asked();
    Table table({"what may be found out", "minutes", "decides at most", "on average"});
    for (const auto& question : questions(set, left, lines, told))
        table.row({named(question.column->attribute.title, question.column->attribute.name),
                   plain_number(question.effort_minutes, 0), plural(question.settles_most, "place"),
                   plain_number(question.settles, 1)});
    const auto least = least_minutes(set, left, lines, told);
    return table.text() + (least
                               ? wrapped(fmt::format(
                                     "All of it, asked in this order: about {} min; in the best possible order {} min.",
                                     plain_number(greedy_minutes(set, left, lines, told), 0), plain_number(*least, 0)))
                               : "");
}

// Takes out what nobody can get at; how many places wait for it.
std::size_t leave_out_of_reach(std::vector<FirstThing>& first, const Situation& situation) {
    const auto& hidden = situation.narrowing().out_of_reach;
    std::set<std::string> titles;
    std::erase_if(first, [&](const FirstThing& one) {
        const bool out = !one.attributes.empty() &&
                         std::all_of(one.attributes.begin(), one.attributes.end(), [&](const std::string& name) {
                             return std::find(hidden.begin(), hidden.end(), name) != hidden.end();
                         });
        if (out) titles.insert(one.titles.begin(), one.titles.end());
        return out;
    });
    return titles.size();
}

// What the answers rest on and nobody here has looked at: no place waits for it, and an order is right only if it is
// true.
std::string look_for_yourself(const Situation& situation, const std::vector<std::string>& hearsay) {
    std::string out = wrapped(right_only_if(told_words(situation, hearsay)), 0, 2);
    for (const auto& fact : situation.narrowing().facts)
        if (std::find(hearsay.begin(), hearsay.end(), fact.said()) != hearsay.end())
            out += fmt::format("  {}\n", tell_command(situation, fact.attribute));
    return out;
}

// Of a job it is known what nobody has said anything of.
std::string nothing_to_ask(const Situation& situation, const std::vector<std::string>& jobs,
                           const std::vector<std::string>& hearsay) {
    return (hearsay.empty() ? wrapped("Nothing to find out: no place waits for an answer.")
                            : look_for_yourself(situation, hearsay)) +
           (jobs.empty() ? wrapped(fmt::format("Of a job, with what nobody has said yet: casebound ask {} JOB",
                                               situation.name()),
                                   0, 2)
                         : "");
}

std::vector<std::string> hearsay_behind(const std::vector<RoleAnswer>& answers) {
    std::set<std::string> said;
    for (const auto& answer : answers)
        for (const auto& leaf : answer.told)
            if (leaf.evidence() > Evidence::measured) said.insert(leaf.text());
    return {said.begin(), said.end()};
}

Result run_ask(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto jobs = jobs_typed(session.catalog(), {args.words.begin() + 1, args.words.end()});
    std::vector<FirstThing> first;
    std::vector<OpenLine> lines;
    std::vector<LookUp> look_up;
    std::vector<std::string> hearsay;
    std::size_t out_of_reach = 0;
    if (jobs.empty()) {
        lines = lines_to_settle(*situation);
        hearsay = hearsay_behind(situation->places().roles());
    } else {
        const auto list = in_words(make_parts_list(situation->places(), jobs), session.catalog());
        first = first_things(list);
        look_up = to_look_up(list);
        out_of_reach = leave_out_of_reach(first, *situation);
        lines = open_lines(list);
        hearsay = list.hearsay;
    }
    const auto& set = situation->model().set;
    const auto& left = situation->narrowing().left;
    const auto open = static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [&](const OpenLine& line) { return !line.settled(left); }) +
        static_cast<std::ptrdiff_t>(out_of_reach));
    const auto told = situation->narrowing().not_asked();
    const auto next = first.empty() ? next_question(set, left, lines, told) : std::nullopt;
    const auto exit = open == 0 && first.empty() && look_up.empty() ? Exit::yes : Exit::cannot_tell;
    if (session.json()) {
        auto json = document("ask");
        json["vehicle"] = json_of(*situation);
        json["open"] = open;
        json["next"] = next ? json_of(*next) : Json(nullptr);
        json["first"] = json_list(first);
        json["right_only_if"] = told_words(*situation, hearsay);
        json["look_up"] = Json::array();
        for (const auto& one : look_up)
            json["look_up"].push_back({{"role", one.role}, {"title", one.title}, {"how", one.how}});
        return {exit, json_text(json)};
    }
    const auto about = look_up_text(look_up, *situation) + wrapped(situation->headline(), 0, 2);
    if (!first.empty()) return {exit, first_things_text(first, *situation) + about};
    if (!next && open == 0) return {exit, (look_up.empty() ? nothing_to_ask(*situation, jobs, hearsay) : "") + about};
    if (!next)
        return {exit,
                wrapped(fmt::format("{} open, and nothing {} would tell them apart.", plural(open, "place"),
                                    situation->narrowing().out_of_reach.empty() ? "on record" : "that can be got at")) +
                    choices_text(session, *situation, jobs) + about};
    auto out = question_text(*next, situation->name(), open);
    if (const auto choices = out_of_reach > 0 ? choices_text(session, *situation, jobs) : ""; !choices.empty())
        out += wrapped(fmt::format("{} for what nobody can get at. What is left:",
                                   plural(out_of_reach, "place waits", "places wait")),
                       0, 2) +
               choices;
    if (session.full()) out += "\n" + all_questions_text(*situation, lines);
    return {exit, out + about};
}

}  // namespace

std::vector<Command> ask_commands() {
    return {
        {"ask",
         "VEHICLE [JOB...]",
         "the next thing to find out",
         1,
         any_number,
         {},
         run_ask,
         "casebound ask van pan-service"},
    };
}

}  // namespace casebound
