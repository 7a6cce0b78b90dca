// The main job: list, fits, why, ask. Each builds the situation, asks core, and renders.
#include <algorithm>

#include <fmt/format.h>

#include "core/buy/no_way_to_tell.h"
#include "core/ground/text_layout.h"
#include "core/say/first_thing.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/say/short_list.h"
#include "core/session/command.h"
#include "core/shop/shop_settings.h"
#include "core/work/why.h"

namespace casebound {

namespace {

Exit exit_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::fits:
        case Verdict::none_needed: return Exit::yes;
        case Verdict::does_not_fit: return Exit::no;
        default: return Exit::cannot_tell;
    }
}

// A role or item as people type it: "pan filter" and "Pan-Filter" are one role.
std::string as_key(std::string text) {
    std::replace(text.begin(), text.end(), ' ', '-');
    return text;
}

std::string refused_note(Session& session) {
    std::string out;
    for (const auto& domain : session.missing_domains())
        out += wrapped(fmt::format("Not answered: {} is not loaded; its lines are left open.", domain), 0, 2);
    return out;
}

Result run_list(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const std::vector<std::string> jobs(args.words.begin() + 1, args.words.end());
    auto list = make_parts_list(situation->places(), jobs);
    for (auto& line : list.lines) line.answer = with_deciding(std::move(line.answer), *situation);
    const auto exit = list.ready() ? Exit::yes : Exit::cannot_tell;
    if (!session.json())
        return {exit, (session.full() ? list_text(list, *situation, true) : short_list_text(list, *situation)) +
                          refused_note(session)};
    auto json = document("list");
    json["vehicle"] = json_of(*situation);
    json["list"] = json_of(list);
    return {exit, json_text(json)};
}

Result run_fits(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    std::vector<RoleAnswer> answers;
    if (args.words.size() > 1) answers.push_back(situation->places().role(as_key(args.words[1])));
    else answers = situation->places().roles();
    Exit exit = Exit::yes;
    for (auto& answer : answers) {
        answer = with_deciding(std::move(answer), *situation);
        if (exit_of(answer.verdict) > exit) exit = exit_of(answer.verdict);
    }
    if (session.json()) {
        auto json = document("fits");
        json["vehicle"] = json_of(*situation);
        json["roles"] = json_list(answers);
        return {exit, json_text(json)};
    }
    const bool invented = std::any_of(answers.begin(), answers.end(), [](const RoleAnswer& a) { return a.invented; });
    std::string out = spread(situation->name(), invented_label(invented)) + wrapped(situation->headline()) + "\n";
    if (answers.empty()) out += wrapped("Not recorded: no application names this line. Load a pack that does.");
    if (args.words.size() > 1 || session.full()) {
        for (const auto& answer : answers) out += role_text(answer, *situation, session.full());
        return {exit, out};
    }
    Table table({"role", "verdict", "groups"});
    for (const auto& answer : answers) {
        std::vector<std::string> groups;
        for (const auto& group : answer.groups)
            if (group.on.any() && (answer.verdict != Verdict::fits || group.verdict == Verdict::fits))
                groups.push_back(group.key);
        const auto words = std::string(verdict_words(answer.verdict));
        table.row({answer.title, answer.verdict == Verdict::fits ? words : capitalised(words),
                   groups.empty()
                       ? "-"
                       : fmt::format("{}", fmt::join(groups, answer.verdict == Verdict::fits ? " or " : " / "))});
        if (!answer.deciding.empty()) table.under(fmt::format("settled by {}", fmt::join(answer.deciding, " and ")));
    }
    return {exit, out + table.text() + refused_note(session)};
}

std::string why_text(const Situation& situation, const std::string& item, const Why& why, bool full) {
    const auto left = situation.narrowing().left.count();
    const auto& group = *why.group;
    std::string out = wrapped(fmt::format("{}: {} as {}: {} of the {} left.", capitalised(verdict_words(why.verdict())),
                                          item, why.role.title, plural(group.on.count(), "configuration"), left),
                              0, 2);
    if (!why.lowered.empty()) out += wrapped(fmt::format("{}: {}", item, why.lowered), 2, 2);
    auto leaves = why.leaves();
    leaves.insert(leaves.end(), group.against.begin(), group.against.end());
    leaves.insert(leaves.end(), why.role.told.begin(), why.role.told.end());
    out += leaves_text(leaves, full);
    if (group.verdict != Verdict::fits) {
        const auto where = would_fit(situation, why.role, group);
        out += wrapped(
            where.empty() ? "It fits no configuration of this line." : fmt::format("It fits where {}.", where), 2, 2);
    }
    if (!why.role.deciding.empty())
        out += wrapped(fmt::format("Settled by {}.", fmt::join(why.role.deciding, " and ")), 2, 2);
    for (const auto& caution : group.cautions) out += wrapped(fmt::format("Caution: {}", caution.text), 2, 2);
    return out + wrapped(fmt::format("Weakest evidence: {}.", evidence_words(why.weakest())), 2);
}

// An item that no application names may still stand in for one that does.
std::string by_stand_in(Session& session, const Situation& situation, const std::string& item,
                        const std::vector<RoleAnswer>& roles, Exit& exit) {
    std::string out;
    for (const auto& one : stand_ins_of(situation.places(), item, roles)) {
        out += wrapped(fmt::format("{}: in place of {}, which fits as {}", swap_words(one.answer.verdict), one.best,
                                   one.role),
                       0, 2) +
               swap_text(one.answer, session.full());
        exit = one.answer.verdict == SwapVerdict::yes  ? Exit::yes
               : one.answer.verdict == SwapVerdict::no ? Exit::no
                                                       : Exit::cannot_tell;
    }
    return out;
}

Result run_why(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto& item = args.words.at(1);
    const auto [groups, kit] = groups_asked(session.catalog(), item);
    const auto roles = situation->places().roles();
    const auto found = whys(session.catalog(), *situation, item, roles, groups);
    const auto rank = [](Exit one) { return one == Exit::yes ? 0 : one == Exit::cannot_tell ? 1 : 2; };
    Exit exit = found.empty() ? Exit::cannot_tell : exit_of(found.front().verdict());
    for (const auto& why : found)  // an item in several roles: the best counts; a kit: the worst
        if (const auto one = exit_of(why.verdict()); kit ? rank(one) > rank(exit) : rank(one) < rank(exit)) exit = one;
    if (session.json()) {
        auto json = document("why");
        json["vehicle"] = json_of(*situation);
        json["item"] = item;
        json["groups"] = groups;
        json["roles"] = Json::array();
        for (const auto& why : found) {
            Json one{{"role", why.role.role},
                     {"title", why.role.title},
                     {"settled_by", why.role.deciding},
                     {"verdict", verdict_name(why.verdict())},
                     {"lowered_by", why.lowered},
                     {"would_fit", would_fit(*situation, why.role, *why.group)},
                     {"told", json_list(why.role.told)},
                     {"weakest_evidence", evidence_name(why.weakest())}};
            one["group"] = json_of(*why.group);
            json["roles"].push_back(one);
        }
        return {exit, json_text(json)};
    }
    const bool invented = std::any_of(found.begin(), found.end(), [](const Why& why) { return why.role.invented; });
    std::string out = spread(fmt::format("{}, {}", situation->name(), item), invented_label(invented)) +
                      wrapped(situation->headline()) + "\n";
    if (kit)
        out += wrapped(fmt::format("A kit: {}. It is as good as the worst part in it.", fmt::join(groups, ", ")), 0, 2);
    for (const auto& why : found) out += why_text(*situation, kit ? why.group->key : item, why, session.full());
    if (found.empty()) {
        const auto stand_in = by_stand_in(session, *situation, item, roles, exit);
        out += stand_in.empty()
                   ? wrapped(fmt::format("NOT RECORDED: no application on {} names {} or its groups ({}). That is not "
                                         "a no: nobody has said.",
                                         situation->model().title, item,
                                         groups.empty() ? "none" : fmt::format("{}", fmt::join(groups, ", "))),
                             0, 2)
                   : stand_in;
    }
    return {exit, out};
}

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
    const auto choices = choices_left(buying, advice, situation, ShopSettings(session.shop()).currency());
    std::string out;
    for (std::size_t i = 0; i < choices.size(); ++i) out += wrapped(fmt::format("{}. {}", i + 1, choices[i]), 2, 5);
    return out;
}

Result run_ask(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const std::vector<std::string> jobs(args.words.begin() + 1, args.words.end());
    std::vector<FirstThing> first;
    std::vector<OpenLine> lines;
    if (jobs.empty()) {
        lines = lines_to_settle(*situation);
    } else {
        const auto list = make_parts_list(situation->places(), jobs);
        first = first_things(list);
        lines = open_lines(list);
    }
    const auto& set = situation->model().set;
    const auto& left = situation->narrowing().left;
    const auto open = static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [&](const OpenLine& line) { return !line.settled(left); }));
    const auto told = situation->narrowing().not_asked();
    const auto next = first.empty() ? next_question(set, left, lines, told) : std::nullopt;
    const auto exit = open == 0 && first.empty() ? Exit::yes : Exit::cannot_tell;
    if (session.json()) {
        auto json = document("ask");
        json["vehicle"] = json_of(*situation);
        json["open"] = open;
        json["next"] = next ? json_of(*next) : Json(nullptr);
        json["first"] = Json::array();
        for (const auto& one : first)
            json["first"].push_back({{"what", one.what}, {"lines", one.titles}, {"attributes", one.attributes}});
        return {exit, json_text(json)};
    }
    std::string out = wrapped(situation->headline()) + "\n";
    if (!first.empty()) return {exit, out + first_things_text(first, situation->name())};
    if (!next)
        return {
            exit,
            out +
                wrapped(open == 0 ? "Nothing to find out: no line waits for an answer."
                                  : fmt::format("{} open, and nothing {} would tell them apart.", plural(open, "line"),
                                                situation->narrowing().out_of_reach.empty() ? "on record"
                                                                                            : "that can be got at")) +
                (open == 0 ? "" : choices_text(session, *situation, jobs))};
    out += question_text(*next, situation->name(), open);
    if (session.full()) {
        Table table({"attribute", "min", "settles", "bits"});
        for (const auto& question : questions(set, left, lines, told))
            table.row({question.column->attribute.title, fmt::format("{:.0f}", question.effort_minutes),
                       fmt::format("{:.2f}", question.settles), fmt::format("{:.2f}", question.gain_bits)});
        out += "\n" + table.text();
        if (const auto least = least_minutes(set, left, lines, told))
            out += wrapped(
                fmt::format("Expected to settle everything: {:.1f} min asking in this order, {:.1f} min at best.",
                            greedy_minutes(set, left, lines, told), *least));
    }
    return {exit, out};
}

}  // namespace

std::vector<Command> fit_commands() {
    return {
        {"list", "VEHICLE JOB...", "the parts list of one or several jobs", 2, any_number, {}, run_list},
        {"fits", "VEHICLE [ROLE]", "what fits, role by role", 1, 2, {}, run_fits},
        {"why", "VEHICLE ITEM", "why an item fits, does not, or cannot be told yet", 2, 2, {}, run_why},
        {"ask", "VEHICLE [JOB...]", "the next thing to find out", 1, any_number, {}, run_ask},
    };
}

}  // namespace casebound
