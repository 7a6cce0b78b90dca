// One vehicle: what to find out first, its jobs, what is told, what is still possible.
#include "core/page/page_vehicle.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/vin.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_photos.h"
#include "core/page/page_question.h"
#include "core/page/page_routes.h"
#include "core/reason/condition_words.h"
#include "core/session/tell_check.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_told.h"
#include "core/verdict/parts_list.h"

namespace casebound {

void write_doubts(Html& html, const std::vector<Doubt>& doubts) {
    std::vector<std::string> texts;
    for (const auto& doubt : doubts) texts.push_back(fmt::format("In doubt: {}: {}.", doubt.reason, doubt.until));
    write_list(html, texts, "cautions");
}

namespace {

std::vector<OpenLine> every_line(const Situation& situation) {
    std::vector<OpenLine> lines;
    for (const auto& answer : situation.places().roles())
        if (answer.verdict != Verdict::not_answered) lines.push_back(open_line(answer));
    return lines;
}

void write_told(Html& html, const Visit& visit, const Situation& situation, const std::string& name) {
    const auto section = html.in("section", {{"aria-labelledby", "told"}});
    html.element("h2", "What is told", {{"id", "told"}});
    const auto told = ShopTold(visit.session.shop()).standing(name);
    if (told.empty()) return html.element("p", "Nothing yet.");
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto& entry : told) {
        const auto* attribute = visit.session.catalog().vocabularies().attribute(entry.attribute);
        const auto item = html.in("li");
        html.element("strong", attribute ? fmt::format("{}: {}", attribute->title, value_words(*attribute, entry.text))
                                         : fmt::format("{}: {}", entry.attribute, entry.text));
        html.element("span", fmt::format("{} {}{}{}{}{}", tell_evidence_words(entry.evidence), entry.date,
                                         entry.photo.empty() ? "" : "; photo ", entry.photo,
                                         entry.note.empty() ? "" : "; ", entry.note));
        write_photos(
            html, entry.photos,
            attribute ? fmt::format("{}: {}", attribute->title, value_words(*attribute, entry.text)) : entry.attribute);
        if (!situation.model().set.column(entry.attribute) && !(attribute && attribute->finding))
            html.element("span", "Noted, but it does not tell configurations of this line apart.", {{"class", "hint"}});
        write_form(html, visit,
                   {"take-back/" + entry.attribute,
                    "",
                    fmt::format("Take back {}", attribute ? attribute->title : entry.attribute),
                    {},
                    {},
                    {{"attribute", entry.attribute}}});
    }
}

void write_history(Html& html, const Visit& visit, const std::string& name) {
    const auto history = ShopTold(visit.session.shop()).history(name);
    constexpr std::size_t most = 100;
    if (history.empty()) return;
    const auto details = html.in("details");
    html.element("summary", fmt::format("Everything that was ever told ({})", history.size()));
    HtmlTable table(html, {"what", "value", "evidence", "date", "note"}, "History, newest first", false);
    for (std::size_t i = 0; i < history.size() && i < most; ++i) {
        const auto& entry = history[history.size() - 1 - i];
        const auto* attribute = visit.session.catalog().vocabularies().attribute(entry.attribute);
        table.row({attribute ? attribute->title : entry.attribute,
                   entry.withdrawn ? "(taken back)"
                   : attribute     ? value_words(*attribute, entry.text)
                                   : entry.text,
                   std::string(tell_evidence_words(entry.evidence)), entry.date,
                   entry.note + (entry.stands ? "" : " (no longer stands)")});
    }
}

void write_possible(Html& html, const Situation& situation) {
    const auto details = html.in("details");
    html.element("summary", "What is still possible");
    HtmlTable table(html, {"what", "still possible", "how to find it out"}, "What is still possible", false);
    for (const auto& column : situation.model().set.columns()) {
        const auto values = situation.model().set.values_left(column, situation.narrowing().left);
        std::vector<std::string> texts;
        for (const auto& [value, share] : values) texts.push_back(value_words(column.attribute, value->text));
        const auto shown = texts.size() > 6 ? fmt::format("{} to {} ({})", texts.front(), texts.back(), texts.size())
                                            : fmt::format("{}", fmt::join(texts, ", "));
        table.row({column.attribute.title, shown, values.size() > 1 ? column.attribute.how : ""});
    }
}

// Anything else that can be told, findings included.
void write_tell(Html& html, const Visit& visit, const Situation& situation) {
    Field which{"attribute", "What", Field::Kind::choice, "", "", "", {{"", "choose"}}, true};
    for (const auto& column : situation.model().set.columns())
        which.options.emplace_back(column.attribute.name, column.attribute.title);
    for (const auto& [name, owned] : visit.session.catalog().vocabularies().attributes())
        if (owned.word.finding) which.options.emplace_back(name, "finding: " + owned.word.title);
    write_form(html, visit,
               {"tell",
                "Tell something else",
                "Write it down",
                {which,
                 {"value",
                  "Value",
                  Field::Kind::words,
                  "",
                  "With its unit; a|b when it is one of two; a+b when both are seen.",
                  "",
                  {},
                  true}},
                evidence_fields()});
}

// Too short, misread or altered: said before anything that rests on it.
void write_vin_faults(Html& html, const Vehicle& vehicle) {
    if (vehicle.vin.empty()) return;
    std::vector<std::string> texts;
    const auto reading = read_vin(vehicle.vin, vin_context(vehicle));
    const bool odd = !reading.well_formed || reading.check_holds == false;
    for (const auto& finding : reading.findings)
        if (finding.error || odd)
            texts.push_back(fmt::format("Identification number {}: {}", vehicle.vin, finding.text));
    write_list(html, texts, "cautions");
}

// A mistyped number is put right where it is seen.
void write_papers(Html& html, const Visit& visit, const Vehicle& vehicle) {
    write_form(html, visit,
               {"correct",
                "The identification number and the market",
                "Put it right",
                {{"vin", "Identification number", Field::Kind::words, "",
                  "As it stands on the vehicle; none: it has none.", vehicle.vin},
                 {"market", "Market it was made for", Field::Kind::words, "",
                  "north-america, or another; none: not known.", vehicle.market}}});
}

void show_vehicle(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "");
    auto& html = page.main;
    write_vin_faults(html, situation->vehicle());
    write_list(html, unusual_told(visit.session, *situation), "cautions");
    write_doubts(html, situation->narrowing().doubts);
    write_open_work(html, visit.session, *situation);
    write_question(html, visit, *situation, every_line(*situation));
    write_jobs(html, visit, *situation);
    write_vehicle_links(html, visit, situation->name());
    write_told(html, visit, *situation, situation->name());
    write_possible(html, *situation);
    write_tell(html, visit, *situation);
    write_papers(html, visit, situation->vehicle());
    write_history(html, visit, situation->name());
    write_photo_section(html, visit, situation->name());
    page.kept = ShopPhotos(visit.session.shop()).all(situation->name()).empty();  // photos are files
}

std::string act_new(Visit& visit) {
    const auto line = visit.typed("line"), called = visit.typed("called");
    if (visit.typed("name").empty()) throw Error(Exit::usage, "name: a vehicle needs a name");
    if (line.empty() == called.empty())
        throw Error(Exit::usage, line.empty() ? "called: choose its line, or call it as it is said aloud"
                                              : "called: it is of the line chosen, or another vehicle: not both");
    Args args{{visit.typed("name"), line.empty() ? called : line}, {}};
    add_options(args, visit, {"vin", "market"});
    run_command(visit.session, "vehicle new", args);
    return vehicle_address(args.words[0]);
}

std::string act_tell(Visit& visit) {
    if (visit.typed("attribute").empty()) throw Error(Exit::usage, "attribute: say what it is about");
    if (visit.typed("value").empty()) throw Error(Exit::usage, "value: say what was found");
    Args args{{vehicle_of(visit)}, {}};
    for (const auto& [name, value] : visit.request.form)  // several that are seen side by side are ticked one by one
        if (name == "value" && !value.empty())
            args.words.push_back(fmt::format("{}={}", visit.typed("attribute"), value));
    add_options(args, visit, {"evidence", "date", "note"});
    add_photos(args, visit);
    run_command(visit.session, "vehicle tell", args);
    Fields query;  // the question that was asked is answered
    for (const auto& field : visit.request.query)
        if (field.first != "ask") query.push_back(field);
    return address(visit.request.path, query);
}

std::string act_correct(Visit& visit) {
    Args args{{vehicle_of(visit)}, {}};
    for (const char* paper : {"vin", "market"})
        args.options[paper] = {visit.typed(paper).empty() ? "none" : visit.typed(paper)};
    run_command(visit.session, "vehicle correct", args);
    return "";
}

std::string act_reach(Visit& visit) {
    const bool can = visit.typed("form").starts_with("can-reach");
    run_command(
        visit.session, "vehicle tell",
        Args{{vehicle_of(visit), visit.typed("attribute") + (can ? "=can-get-at-it" : "=cannot-get-at-it")}, {}});
    return "";
}

std::string act_take_back(Visit& visit) {
    Args args{{vehicle_of(visit), visit.typed("attribute")}, {{"take-back", {}}}};
    run_command(visit.session, "vehicle tell", args);
    return "";
}

std::string act_photo_back(Visit& visit) {
    run_command(visit.session, "vehicle photos", Args{{vehicle_of(visit)}, {{"take-back", {visit.typed("number")}}}});
    return "";
}

}  // namespace

std::string vehicle_of(const Visit& visit) {
    if (visit.request.path.rfind("/vehicle/", 0) != 0 || visit.words.empty())
        throw Error(Exit::usage, "form: this is about a vehicle: go to its page");
    return visit.words[0];
}

std::unique_ptr<Situation> vehicle_page(Visit& visit, Page& page, const std::string& title) {
    const auto& name = visit.words.at(0);
    auto situation = visit.session.situation(name);
    page.title = title.empty() ? name : fmt::format("{}: {}", name, title);
    page.under = situation->headline();
    page.invented = invented_line(visit.session, *situation);
    page.trail = {{"/", "Vehicles"}};
    if (!title.empty()) page.trail.emplace_back(vehicle_address(name), name);
    return situation;
}

bool invented_line(Session& session, const Situation& situation) {
    const auto& origins = situation.model().origins;
    return std::any_of(origins.begin(), origins.end(),
                       [&](std::int64_t origin) { return session.catalog().invented(origin); });
}

void write_vehicle_links(Html& html, const Visit& visit, const std::string& vehicle) {
    const auto nav = html.in("nav", {{"class", "links"}, {"aria-label", "Of this vehicle"}});
    const auto list = html.in("ul", {{"class", "links"}});
    for (const auto& [rest, words] :
         std::initializer_list<std::pair<std::string_view, std::string_view>>{{"", "This vehicle"},
                                                                              {"/fits", "What fits"},
                                                                              {"/cause", "What is wrong with it"},
                                                                              {"/triage", "Before it is bought"},
                                                                              {"/decide", "Fix it or pass it on"},
                                                                              {"/list", "Parts list and order"},
                                                                              {"/record", "What was done"},
                                                                              {"/note", "Write down what is said"},
                                                                              {"/sheets", "Sheets to print"}}) {
        const auto to = vehicle_address(vehicle, rest);
        if (address(visit.request.path) == to) continue;
        const auto item = html.in("li");
        html.link(to, words);
    }
}

void write_note_link(Html& html, const Visit& visit, const std::string& vehicle, const std::string& role,
                     const std::string& title) {
    if (!visit.request.may_edit) return;
    const auto line = html.in("p");
    html.link(address(vehicle_address(vehicle, "/note"), {{"role", role}, {"back", visit.url()}}),
              fmt::format("Write down what goes there: {}", title));
}

void write_jobs(Html& html, const Visit& visit, const Situation& situation) {
    const auto jobs = jobs_for(situation, visit.session);
    const auto section = html.in("section", {{"aria-labelledby", "jobs"}});
    html.element("h2", "Parts for a job", {{"id", "jobs"}});
    if (jobs.empty()) {
        html.element("p", "Not recorded: no job of a loaded pack touches this line.");
        return;
    }
    Form form{"list", "", "Show the parts list", {}, {}, {}, vehicle_address(situation.name(), "/list")};
    for (const auto& job : jobs)
        form.fields.push_back({"job", job.title, Field::Kind::check, "", "", "", {{job.key, job.title}}});
    write_form(html, visit, form);
}

std::vector<JobWords> jobs_for(const Situation& situation, Session& session) {
    std::vector<JobWords> jobs;
    Statement rows(session.catalog().database(),
                   "SELECT j.job, j.title FROM jobs j WHERE EXISTS (SELECT 1 FROM job_roles r WHERE r.job = j.job AND "
                   "(r.line IS NULL OR r.line = ?1)) ORDER BY j.title LIMIT 200");
    rows.bind(1, std::string_view(situation.line()));
    while (rows.step()) {
        const auto list = make_parts_list(situation.places(), {rows.str(0)});
        const bool doubted = std::any_of(list.lines.begin(), list.lines.end(),
                                         [](const ListLine& line) { return !line.doubts.empty(); });
        if (!list.nothing_to_order() || doubted) jobs.push_back({rows.str(0), rows.str(1)});
    }
    return jobs;
}

std::string job_title(Session& session, const std::string& job) {
    Statement rows(session.catalog().database(), "SELECT title FROM jobs WHERE job = ?1");
    rows.bind(1, std::string_view(job));
    return rows.step() ? rows.str(0) : job;
}

std::vector<Route> vehicle_routes() { return {{"/vehicle/*", "", show_vehicle}}; }

std::vector<Action> vehicle_actions() {
    return {{"new-vehicle", act_new},       {"tell", act_tell},       {"answer", act_tell},
            {"photo-back", act_photo_back}, {"correct", act_correct}, {"take-back", act_take_back},
            {"cannot-reach", act_reach},    {"can-reach", act_reach}};
}

}  // namespace casebound
