// The person's own vehicles: new, tell, show, list, forget. What is told is checked against the line before
// anything is written.
#include <algorithm>
#include <cmath>
#include <filesystem>

#include <fmt/format.h>

#include "core/commands/photos_given.h"
#include "core/commands/told_changes.h"
#include "core/commands/vehicle_papers.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/vin.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/say/vehicle_text.h"
#include "core/session/ask_domains.h"
#include "core/session/command.h"
#include "core/session/tell_check.h"
#include "core/session/typed_names.h"
#include "core/sheets/sheets.h"
#include "core/shop/shop_reach.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "core/work/own_line.h"

namespace casebound {

namespace {

const std::vector<std::string> evidence_kinds{"measured", "read", "said", "seller-said", "assumed"};

bool is_evidence(std::string_view word) {
    return std::find(evidence_kinds.begin(), evidence_kinds.end(), word) != evidence_kinds.end();
}

std::pair<std::string, std::string> split_assignment(const std::string& text) {
    const auto at = text.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == text.size())
        throw Error(Exit::usage, nearest(text, evidence_kinds).empty()
                                     ? fmt::format("{}: write what it is about and what was found, such as pan depth "
                                                   "38 mm measured: casebound find WORD names what can be told",
                                                   text)
                                     : fmt::format("{}: did you mean {}?", text, nearest(text, evidence_kinds)));
    return {text.substr(0, at), text.substr(at + 1)};
}

constexpr std::string_view no_reach = "=cannot-get-at-it", in_reach = "=can-get-at-it";

bool about_reach(std::string_view word) { return word.ends_with(no_reach) || word.ends_with(in_reach); }

// "pan_depth=cannot-get-at-it": it is not asked for again until it is told, or can be got at.
void tell_reach_of(Session& session, const std::string& vehicle, const Args& args) {
    for (const auto& word : args.words) {
        if (!about_reach(word)) continue;
        const auto attribute = word.substr(0, word.find('='));
        const auto& known = session.catalog().vocabularies().attributes();
        if (!known.contains(attribute)) {
            std::vector<std::string> names;
            for (const auto& [name, owned] : known) names.push_back(name);
            const auto near = nearest(attribute, names);
            throw Error(Exit::usage, fmt::format("{}: no such attribute{}", attribute,
                                                 near.empty() ? "" : fmt::format(": did you mean {}?", near)));
        }
        tell_reach(session.shop(), vehicle, attribute, word.ends_with(in_reach), args.option("note"));
    }
}

// What to find out instead, for the jobs that are open, else for every place on record.
std::string instead_text(Session& session, const Situation& situation) {
    std::vector<OpenLine> lines;
    const auto jobs = open_jobs(session, situation.name());
    if (!jobs.empty()) lines = open_lines(make_parts_list(situation.places(), jobs));
    else
        for (const auto& answer : situation.places().roles())
            if (answer.verdict != Verdict::not_answered) lines.push_back(open_line(answer));
    const auto& left = situation.narrowing().left;
    const auto open = static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [&](const OpenLine& line) { return !line.settled(left); }));
    if (const auto next = next_question(situation.model().set, left, lines, situation.narrowing().not_asked()))
        return question_text(*next, situation.name(), open);
    const auto& narrowing = situation.narrowing();
    const bool doubted = std::any_of(narrowing.doubts.begin(), narrowing.doubts.end(), [&](const Doubt& doubt) {
        return std::find(narrowing.out_of_reach.begin(), narrowing.out_of_reach.end(), doubt.attribute) !=
               narrowing.out_of_reach.end();
    });
    if (open == 0 && !doubted) return "";
    return wrapped(
        fmt::format("Nothing that can be got at would tell. What is left to do, and what it costs: casebound "
                    "ask {} {}",
                    situation.name(), jobs.empty() ? "JOB" : fmt::format("{}", fmt::join(jobs, " "))),
        0, 2);
}

// How it is known: the option, or one of its words typed behind what is told. Neither: it is said.
std::string evidence_of(const Args& args, std::size_t from) {
    for (std::size_t i = from; i < args.words.size(); ++i)
        if (is_evidence(args.words[i])) {
            if (args.has("evidence") && args.option("evidence") != args.words[i])
                throw Error(Exit::usage, fmt::format("{}: and --evidence {}: write one of them", args.words[i],
                                                     args.option("evidence")));
            return args.words[i];
        }
    return args.option("evidence", "said");
}

std::vector<ToldFact> entries_from(const Args& args, std::size_t from) {
    std::vector<ToldFact> entries;
    const auto evidence = evidence_of(args, from);
    for (std::size_t i = from; i < args.words.size(); ++i) {
        if (is_evidence(args.words[i]) || about_reach(args.words[i])) continue;
        const auto [attribute, value] = split_assignment(args.words[i]);
        auto entry = told_fact(attribute, value, tell_evidence_from(evidence), args.option("date"));
        entry.note = args.option("note");
        entries.push_back(std::move(entry));
    }
    return entries;
}

// "pan depth, rail to floor 40 mm".
std::string told_in_words(const Vocabularies& words, const std::string& attribute, const std::string& text) {
    const auto* known = words.attribute(attribute);
    return known ? fmt::format("{} {}", named(known->title, known->name), value_words(*known, text))
                 : fmt::format("{} {}", spaced(attribute), shown_value(text));
}

// A measured number that is taken as the nearby one on record: said, because the neighbour may be another part. At the
// edge it is an open doubt, which says so itself.
std::string taken_as_text(const Situation& situation, const std::vector<ToldFact>& entries) {
    std::string out;
    const auto doubted = [&](const std::string& attribute) {
        const auto& doubts = situation.narrowing().doubts;
        return std::any_of(doubts.begin(), doubts.end(),
                           [&](const Doubt& one) { return one.of_measure && one.attribute == attribute; });
    };
    for (const auto& told : situation.told()) {
        if (!told.number || doubted(told.attribute) ||
            std::none_of(entries.begin(), entries.end(),
                         [&](const ToldFact& e) { return e.attribute == told.attribute; }))
            continue;
        std::vector<std::string> taken;
        for (const auto& value : situation.possible(told.attribute))
            if (value.number && std::abs(*value.number - *told.number) > 1e-9) taken.push_back(value.text);
        if (!taken.empty())
            out += wrapped(
                fmt::format("CHECK: {} is taken as {}: the nearest on record. Measure again before ordering by it.",
                            told_in_words(situation.judge().catalog().vocabularies(), told.attribute, told.text),
                            fmt::join(taken, " or ")),
                0, 2);
    }
    return out;
}

// What was typed without saying how it is known counts for no more than hearsay, and how to say more.
std::string said_text(const std::string& vehicle, const std::vector<ToldFact>& entries) {
    std::vector<std::string> said;
    for (const auto& entry : entries)
        if (entry.evidence == TellEvidence::said)
            said.push_back(fmt::format("{} {}", spaced(entry.attribute), entry.text));
    if (said.empty()) return "";
    return wrapped(fmt::format("Written down as said, not as measured. Measured it, or read it off the vehicle? "
                               "casebound vehicle tell {} {} measured (or read)",
                               vehicle, fmt::join(said, " ")),
                   0, 2);
}

std::string open_line_note(const Situation& situation, const std::string& name) {
    if (!situation.model().open) return "";
    return wrapped(fmt::format("No loaded pack knows {0}: every place of a job is not recorded until it is written "
                               "down. What you tell is kept, and asked for where a statement needs it. Write down what "
                               "you find: casebound note {1} PLACE PART --says WHO",
                               situation.model().title, name),
                   0, 2);
}

// The words from `from` on as ATTRIBUTE=VALUE, however they were typed.
Args with_tellings(Session& session, const Args& typed, std::size_t from) {
    Args args = typed;
    const std::vector<std::string> words(
        typed.words.begin() + static_cast<std::ptrdiff_t>(std::min(from, typed.words.size())), typed.words.end());
    const auto& vocabularies = session.catalog().vocabularies();
    const auto meant = typed.has("take-back") ? attributes_typed(vocabularies, words)
                                              : tellings_typed(vocabularies, words);
    args.words.resize(std::min(from, typed.words.size()));
    args.words.insert(args.words.end(), meant.begin(), meant.end());
    return args;
}

Result run_new(Session& session, const Args& args) {
    const auto& name = args.words.at(0);
    const bool called = args.words.size() > 1 && args.words[1].find('=') == std::string::npos &&
                        !is_evidence(args.words[1]);
    const auto& what = called ? args.words[1] : name;
    if (!std::filesystem::exists(session.options().catalog))
        refuse_dry_run(args, "the catalog, which is not there yet,");
    load_shipped_packs_once(session);
    const auto known = line_meant(session, what);
    if (known.empty()) refuse_dry_run(args, fmt::format("{}, in a pack of your own,", what));
    Vehicle vehicle{name, known.empty() ? own_line_key(what) : known, args.option("market"), args.option("vin"), ""};
    const auto typed = entries_from(with_tellings(session, args, called ? 2 : 1), called ? 2 : 1);
    check_number(session, vehicle);
    std::vector<ToldFact> entries;
    if (known.empty()) {  // a refused name leaves no line behind
        ShopVehicles(session.shop()).create(name, vehicle.line, vehicle.market, vehicle.vin, {});
        add_own_line(session, what, name);
        entries = checked_tellings(session, vehicle, typed);
        ShopTold(session.shop()).tell(name, entries);
    } else {
        entries = checked_tellings(session, vehicle, typed);
        ShopVehicles(session.shop()).create(name, vehicle.line, vehicle.market, vehicle.vin, entries);
    }
    const auto situation = session.situation(name);
    if (session.json()) return vehicle_json(session, *situation);
    return {Exit::yes, wrapped(fmt::format("{}: {}", name, situation->headline())) + said_text(name, entries) +
                           taken_as_text(*situation, entries) + vin_notes(situation->vehicle()) +
                           cautions_text(session, *situation) + open_line_note(*situation, name) +
                           wrapped(situation->model().open ? fmt::format("Next: casebound list {} JOB", name)
                                                           : fmt::format("Next: casebound ask {}", name))};
}

// What stands before something more is told. Of a vehicle whose facts contradict each other: nothing can be said.
std::vector<std::string> cautions_said(Session& session, const std::string& name) {
    try {
        return evidence_cautions(session, *session.situation(name));
    } catch (const Error&) { return {}; }
}

Result run_tell(Session& session, const Args& as_typed) {
    const auto args = with_tellings(session, as_typed, 1);
    if (args.words.size() < 2) throw Error(Exit::usage, "vehicle tell: what was found out is missing");
    const auto& name = args.words.at(0);
    const auto vehicle = session.vehicle(name);
    const auto before = ShopTold(session.shop()).standing(name);
    const auto said = session.json() ? std::vector<std::string>{} : cautions_said(session, name);
    std::vector<ToldFact> entries;
    if (args.has("take-back")) {
        ShopTold(session.shop()).untell(name, {args.words.begin() + 1, args.words.end()}, args.option("note"));
    } else {
        tell_reach_of(session, name, args);
        entries = checked_tellings(session, vehicle, entries_from(args, 1));
        ShopTold(session.shop()).tell(name, entries);
    }
    const auto situation = session.situation(name);
    if (session.json()) return vehicle_json(session, *situation);
    const bool reach = std::any_of(args.words.begin(), args.words.end(), about_reach);
    std::string out = wrapped(fmt::format("{}: {}", name, situation->headline())) +
                      (reach ? instead_text(session, *situation) : "") + said_text(name, entries) +
                      changed_text(*situation, before, ShopTold(session.shop()).standing(name), entries) +
                      taken_as_text(*situation, entries);
    for (const auto& fact : situation->narrowing().facts)
        if (!fact.applies) {
            const auto* attribute = session.catalog().vocabularies().attribute(fact.attribute);
            if (attribute && !attribute->finding)
                out += wrapped(
                    fmt::format("Noted, but {} does not tell versions of this line apart.", attribute->title), 2, 2);
        }
    return {Exit::yes, out + cautions_text(session, *situation, said)};
}

Result run_show(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto history = ShopTold(session.shop()).history(args.words.at(0));
    if (session.json()) return vehicle_json(session, *situation);
    bool invented = false;
    for (const auto origin : situation->model().origins) invented |= session.catalog().invented(origin);
    std::string out = spread(situation->name(), invented_label(invented)) + wrapped(situation->headline());
    if (!situation->vehicle().vin.empty())
        out += wrapped(fmt::format("identification number {}", situation->vehicle().vin), 2) +
               vin_notes(situation->vehicle());
    for (const auto& one : out_of_reach(session.shop(), situation->name()))
        out += wrapped(fmt::format("cannot be got at: {} ({}{}{})", attribute_titles(*situation, {one.attribute}),
                                   one.entered, one.note.empty() ? "" : "; ", one.note),
                       2, 2);
    out += "\n" +
           told_text(session.catalog().vocabularies(),
                     session.full() ? history : ShopTold(session.shop()).standing(args.words.at(0))) +
           "\n";
    return {Exit::yes, out + still_open_text(*situation) + cautions_text(session, *situation)};
}

Result run_vehicles(Session& session, const Args&) {
    const auto vehicles = ShopVehicles(session.shop()).all();
    if (session.json()) {
        auto json = document("vehicles");
        json["vehicles"] = Json::array();
        for (const auto& vehicle : vehicles)
            json["vehicles"].push_back({{"name", vehicle.name},
                                        {"line", vehicle.line},
                                        {"market", vehicle.market},
                                        {"created", vehicle.created}});
        return {Exit::yes, json_text(json)};
    }
    if (vehicles.empty()) return {Exit::yes, "No vehicle yet: casebound vehicle new NAME LINE\n"};
    Table table({"vehicle", "what it is", "since"});
    const bool loaded = std::filesystem::exists(session.options().catalog);  // the yard is told without one as well
    for (const auto& vehicle : vehicles) {
        std::string title = vehicle.line;
        if (loaded)  // its title alone: what it can be is not asked here
            for (const auto& line : session.catalog().facts().rows("lines", "line", vehicle.line))
                title = line.text("title");
        table.row({vehicle.name, named(title, vehicle.line), vehicle.created});
    }
    return {Exit::yes, table.text()};
}

const std::vector<OptionSpec> telling{
    {"evidence", "KIND", "how it is known (default: said); or the word alone, behind the values", false,
     evidence_kinds},
    {"date", "DATE", "when it was found out, YYYY-MM-DD (default: today)"},
    photo_option,
    {"note", "TEXT", "anything to remember about it"},
    dry_run};

std::vector<OptionSpec> with(std::vector<OptionSpec> options, const std::vector<OptionSpec>& more) {
    options.insert(options.end(), more.begin(), more.end());
    return options;
}

}  // namespace

std::vector<Command> vehicle_commands() {
    return {
        {"vehicle new", "NAME [LINE|\"WHAT IT IS\"] [ATTRIBUTE=VALUE...]",
         "add a vehicle; one that no pack has is called as it is said aloud", 1, any_number,
         with({{"vin", "NUMBER", "identification number, checked by 49 CFR 565"},
               {"market", "MARKET", "north-america, or another; decides how a failed check digit counts"}},
              telling),
         one_write_with_photos<run_new>, "casebound vehicle new van \"Harbour Van 2.2\" year=2006 read"},
        {"vehicle tell", "VEHICLE ATTRIBUTE=VALUE...",
         "record what was found out, with its evidence; FINDING+=VALUE: beside what stands; "
         "ATTRIBUTE=cannot-get-at-it: ask for something else (=can-get-at-it takes it back)",
         2, any_number, with({{"take-back", "", "withdraw what was told about these attributes"}}, telling),
         one_write_with_photos<run_tell>, "casebound vehicle tell van pan depth 41 mm measured"},
        correct_command(),
        {"vehicle show",
         "VEHICLE",
         "what is told and what is still possible; --full: the whole history",
         1,
         1,
         {},
         run_show,
         "casebound vehicle show van --full"},
        photo_commands().front(),
        {"vehicle list", "", "your vehicles", 0, 0, {}, run_vehicles, "casebound vehicle list"},
        forget_command(),
    };
}

}  // namespace casebound
