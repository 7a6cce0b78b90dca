// The main job: list, fits, why. Each builds the situation, asks core, and renders.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/say/short_list.h"
#include "core/session/command.h"
#include "core/session/typed_names.h"
#include "core/verdict/part_number.h"
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

// Yes is no answer while another part might be right.
Exit exit_of(const Situation& situation, const RoleAnswer& role, Verdict verdict) {
    const auto exit = exit_of(verdict);
    return exit == Exit::yes && !situation.places().doubts(role).empty() ? Exit::cannot_tell : exit;
}

std::string refused_note(Session& session) {
    std::string out;
    for (const auto& domain : session.missing_domains())
        out += wrapped(fmt::format("Not answered: {} is not loaded; its lines are left open.", domain), 0, 2);
    return out;
}

// Which jobs there are, where none was named: a list to read, not a fault a line.
Result jobs_to_choose(Session& session, const std::string& vehicle) {
    const auto jobs = session.catalog().facts().rows("jobs");
    if (jobs.empty()) throw Error(Exit::usage, "list: JOB is missing: no loaded pack has any");
    if (session.json()) throw Error(Exit::usage, "list: JOB is missing: without --json it names them");
    Table table({"job", "what is done"});
    for (const auto& row : jobs) table.row({std::string(row.text("job")), std::string(row.text("title"))});
    return {Exit::usage, fmt::format("list: JOB is missing: one or several of\n{}Next: casebound list {} JOB...\n",
                                     table.text(), vehicle)};
}

Result run_list(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    if (args.words.size() == 1) return jobs_to_choose(session, args.words[0]);
    const auto jobs = jobs_typed(session.catalog(), {args.words.begin() + 1, args.words.end()});
    auto list = make_parts_list(situation->places(), jobs);
    for (auto& line : list.lines) line.answer = with_deciding(std::move(line.answer), *situation);
    const auto exit = list.ready() ? Exit::yes : Exit::cannot_tell;
    if (!session.json()) {
        const auto read = in_words(std::move(list), session.catalog());
        return {exit, (session.full() ? list_text(read, *situation, true) : short_list_text(read, *situation)) +
                          refused_note(session)};
    }
    auto json = document("list");
    json["vehicle"] = json_of(*situation);
    json["list"] = json_of(list);
    json["first"] = json_list(first_things(list));
    return {exit, json_text(json)};
}

// The first word of an answer, without colour where it is sorted by.
std::string answer_word(const RoleAnswer& answer) {
    const auto words = std::string(verdict_words(answer.verdict));
    return in_colour(answer.verdict, answer.verdict == Verdict::fits ? words : capitalised(words));
}

// "17 fit, 9 to check first, 12 it does not have".
std::string counted(const std::vector<RoleAnswer>& answers) {
    std::vector<std::string> parts;
    for (const auto& [verdict, words] : {std::pair{Verdict::check_first, "to check first"},
                                         {Verdict::sources_disagree, "where sources disagree"},
                                         {Verdict::not_recorded, "not recorded"},
                                         {Verdict::does_not_fit, "that nothing fits"},
                                         {Verdict::not_answered, "not answered"},
                                         {Verdict::fits, "known"},
                                         {Verdict::none_needed, "it does not have"}}) {
        const auto count = std::count_if(answers.begin(), answers.end(), [&, verdict = verdict](const RoleAnswer& one) {
            return one.verdict == verdict;
        });
        if (count) parts.push_back(fmt::format("{} {}", count, words));
    }
    return fmt::format("{}", fmt::join(parts, ", "));
}

std::string what_goes_there(const RoleAnswer& answer, const Situation& situation) {
    const auto cases = cases_of(situation, answer);
    if (answer.verdict == Verdict::not_answered) return answer.failure;
    if (cases.empty()) return "-";
    return cases_words(situation, answer, cases, answer.verdict == Verdict::fits ? " or " : " | ");
}

// What is open first; places that it does not have in one line.
std::string places_text(const std::vector<RoleAnswer>& answers, const Situation& situation) {
    Table table({"place", "answer", "what goes there"});
    std::vector<std::string> none;
    const auto rows = [&](bool settled) {
        for (const auto& answer : answers)
            if (answer.verdict == Verdict::none_needed && settled) none.push_back(named(answer.title, answer.role));
            else if (answer.verdict != Verdict::none_needed && (answer.verdict == Verdict::fits) == settled)
                table.row({named(answer.title, answer.role), answer_word(answer), what_goes_there(answer, situation)});
    };
    rows(false);
    rows(true);
    return table.text() +
           (none.empty() ? "" : wrapped(fmt::format("No such place here: {}.", fmt::join(none, ", ")), 0, 2));
}

// The next thing to find out for these places, and what is typed then.
std::string next_for(const std::vector<RoleAnswer>& answers, const Situation& situation) {
    std::vector<OpenLine> lines;
    for (const auto& answer : answers)
        if (answer.verdict != Verdict::not_answered) lines.push_back(open_line(answer));
    const auto& narrowing = situation.narrowing();
    const auto next = next_question(situation.model().set, narrowing.left, lines, narrowing.not_asked());
    return next ? brief_question_text(*next, situation.name()) : "";
}

std::string fits_text(const std::vector<RoleAnswer>& answers, const Situation& situation, bool one, bool full) {
    const bool invented = std::any_of(answers.begin(), answers.end(), [](const RoleAnswer& a) { return a.invented; });
    std::string out = spread(one ? situation.name() : fmt::format("{}: {}", situation.name(), counted(answers)),
                             invented_label(invented));
    if (answers.empty()) out += wrapped("Not recorded: nobody has said what fits this line. Load a pack that does.");
    std::string places;
    if (one || full)
        for (const auto& answer : answers) places += role_text(answer, situation, full);
    else places = places_text(answers, situation);
    const auto asked = fmt::format("casebound fits {} {}", situation.name(), one ? answers.front().role : "PLACE");
    out += one ? places + next_for(answers, situation) : next_for(answers, situation) + "\n" + places;
    if (!full && !answers.empty()) out += wrapped(fmt::format("Why, and by which source: {} --full", asked), 0, 2);
    return out + wrapped(situation.headline(), 0, 2);
}

Result run_fits(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const bool one = args.words.size() > 1;
    std::vector<RoleAnswer> answers;
    if (one)
        answers.push_back(situation->places().role(place_typed(
            session.catalog(), fmt::format("{}", fmt::join(args.words.begin() + 1, args.words.end(), " ")))));
    else answers = situation->places().roles();
    Exit exit = Exit::yes;
    for (auto& answer : answers) {
        answer = with_deciding(std::move(answer), *situation);
        exit = std::max(exit, exit_of(*situation, answer, answer.verdict));
    }
    if (!session.json())
        return {exit, fits_text(answers, *situation, one, session.full()) + (one ? "" : refused_note(session))};
    auto json = document("fits");
    json["vehicle"] = json_of(*situation);
    json["roles"] = Json::array();
    for (const auto& answer : answers) {
        json["roles"].push_back(json_of(answer));
        json["roles"].back()["doubts"] = json_list(situation->places().doubts(answer));
    }
    return {exit, json_text(json)};
}

std::string would_fit_text(const Situation& situation, const Why& why) {
    const auto& group = *why.group;
    if (group.verdict == Verdict::fits) return "";
    const auto& set = situation.model().set;
    if (group.on_line.none()) return wrapped(fits_none_words(group), 2, 2);
    const auto where = where_words(set, group.on_line, set.all(), why.role.speaks_of());
    return wrapped(fmt::format("It fits {}.", where.empty() ? "every version of this line" : "where " + where), 2, 2);
}

std::string why_text(const Situation& situation, const std::string& item, const Why& why, bool full) {
    const auto& group = *why.group;
    std::string out = wrapped(
        fmt::format("{}: {} as {}.", in_colour(why.verdict(), capitalised(verdict_words(why.verdict()))), item,
                    named(why.role.title, why.role.role)),
        0, 2);
    if (!why.lowered.empty()) out += wrapped(fmt::format("{}: {}", item, why.lowered), 2, 2);
    out += doubts_text(situation.places().doubts(why.role), 2);
    out += would_fit_text(situation, why);
    if (!why.role.deciding.empty())
        out += wrapped(fmt::format("It hangs on: {}.", attribute_titles(situation, why.role.deciding)), 2, 2) +
               next_for({why.role}, situation);
    auto leaves = why.leaves();
    leaves.insert(leaves.end(), group.against.begin(), group.against.end());
    leaves.insert(leaves.end(), why.role.told.begin(), why.role.told.end());
    out += leaves_text(leaves, full, &situation);
    for (const auto& caution : group.cautions)
        out += wrapped(fmt::format("Caution: {}", in_titles(situation.judge().catalog(), caution.text)), 2, 2);
    return out + wrapped(fmt::format("Weakest evidence: {}.", evidence_words(why.weakest())), 2);
}

// An item that no application names may still stand in for one that does.
std::string by_stand_in(Session& session, const Situation& situation, const std::string& item,
                        const std::vector<RoleAnswer>& roles, Exit& exit) {
    std::string out;
    for (const auto& one : stand_ins_of(situation.places(), item, roles)) {
        out += wrapped(fmt::format("{}: in place of {}, which fits as {}", swap_words(one.answer.verdict),
                                   group_words(session.catalog(), one.best), one.role),
                       0, 2) +
               swap_text(one.answer, session.full(), session.catalog());
        exit = one.answer.verdict == SwapVerdict::yes  ? Exit::yes
               : one.answer.verdict == SwapVerdict::no ? Exit::no
                                                       : Exit::cannot_tell;
    }
    return out;
}

// A place is no part: what fits it is another question.
void refuse_place(const Catalog& catalog, const std::string& vehicle, const std::string& typed) {
    const auto place = place_typed(catalog, typed);
    if (catalog.vocabularies().role(place) && !catalog.item(typed) && !catalog.group(typed))
        throw Error(Exit::usage, fmt::format("{}: a place, not a part: casebound fits {} {}", typed, vehicle, place));
}

Result run_why(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto item = item_meant(session.catalog(),
                                 fmt::format("{}", fmt::join(args.words.begin() + 1, args.words.end(), " ")));
    refuse_place(session.catalog(), args.words[0], item);
    const auto [groups, kit] = groups_asked(session.catalog(), item);
    const auto roles = situation->places().roles();
    const auto found = whys(session.catalog(), *situation, item, roles, groups);
    const auto rank = [](Exit one) { return one == Exit::yes ? 0 : one == Exit::cannot_tell ? 1 : 2; };
    Exit exit = found.empty() ? Exit::cannot_tell : exit_of(*situation, found.front().role, found.front().verdict());
    for (const auto& why : found)  // an item in several roles: the best counts; a kit: the worst
        if (const auto one = exit_of(*situation, why.role, why.verdict());
            kit ? rank(one) > rank(exit) : rank(one) < rank(exit))
            exit = one;
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
                     {"doubts", json_list(situation->places().doubts(why.role))},
                     {"would_fit", would_fit(*situation, why.role, *why.group)},
                     {"told", json_list(why.role.told)},
                     {"weakest_evidence", evidence_name(why.weakest())}};
            one["group"] = json_of(*why.group);
            json["roles"].push_back(one);
        }
        return {exit, json_text(json)};
    }
    const bool invented = std::any_of(found.begin(), found.end(), [](const Why& why) { return why.role.invented; });
    std::string out = spread(fmt::format("{}, {}", situation->name(), item), invented_label(invented));
    if (kit)
        out += wrapped(fmt::format("A kit: {}. It is as good as the worst part in it.",
                                   in_titles(session.catalog(), fmt::format("{}", fmt::join(groups, "; ")))),
                       0, 2);
    for (const auto& why : found)
        out += why_text(*situation, kit ? group_words(session.catalog(), why.group->key) : item, why, session.full());
    if (found.empty()) {
        const auto stand_in = by_stand_in(session, *situation, item, roles, exit);
        out += stand_in.empty() ? wrapped(fmt::format("{}: nobody has said where {} goes on a {}. That is not a no.",
                                                      in_colour(Verdict::not_recorded, "NOT RECORDED"), item,
                                                      situation->model().title),
                                          0, 2)
                                : stand_in;
    }
    return {exit, out + wrapped(situation->headline(), 0, 2)};
}

}  // namespace

std::vector<Command> fit_commands() {
    return {
        {"list",
         "VEHICLE JOB...",
         "the parts list of one or several jobs",
         1,
         any_number,
         {},
         run_list,
         "casebound list van pan-service"},
        {"fits",
         "VEHICLE [PLACE]",
         "what fits, place by place",
         1,
         any_number,
         {},
         run_fits,
         "casebound fits van pan filter"},
        {"why",
         "VEHICLE ITEM",
         "why an item fits, does not, or cannot be told yet",
         2,
         any_number,
         {},
         run_why,
         "casebound why van PF-33"},
    };
}

}  // namespace casebound
