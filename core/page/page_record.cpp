// What was done on a vehicle: the check-off, what stands written down, and a form for each thing that may be added.
// And what is due, over all vehicles.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/commands/mismatch.h"
#include "core/commands/on_order.h"
#include "core/commands/record_answer.h"
#include "core/cover/market.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/page/page_work.h"
#include "core/say/in_words.h"
#include "core/sheets/check_off.h"
#include "core/shop/shop_records.h"
#include "core/work/due_dates.h"

namespace casebound {

namespace {

std::vector<std::pair<std::string, std::string>> to_choose(const std::vector<std::string>& values) {
    auto options = as_options(values);
    options.insert(options.begin(), {"", "choose"});
    return options;
}

Field role_field(const Situation& situation, Session& session, const std::string& asked) {
    Field field{"role", "Place", Field::Kind::choice, "", "", asked, {{"", "choose"}}};
    for (const auto& role : situation.judge().roles_on_record()) {
        const auto* word = session.catalog().vocabularies().role(role);
        field.options.emplace_back(role, word ? word->title : role);
    }
    return field;
}

Field job_field(Session& session, const std::vector<StartedJob>& open) {
    Field field{"job", "Of the job", Field::Kind::choice, "", "", "", {{"", "the newest that is open"}}};
    for (const auto& job : open)
        field.options.emplace_back(std::to_string(job.id),
                                   fmt::format("{}, begun {}", job_title(session, job.job), job.started));
    return field;
}

std::vector<Field> closing_fields() {
    return with_photos({{"note", "Note"}, {"date", "When", Field::Kind::date, "", "Today when left empty."}});
}

Form part_form(const Situation& situation, const Visit& visit, const std::vector<StartedJob>& open) {
    auto role = role_field(situation, visit.session, visit.asked("role"));
    role.required = true;
    const auto ordered = item_on_order(visit.session, situation.name(), role.value);
    return {"record/part",
            "A part or fluid",
            "Write it down",
            {{"what", "What happened", Field::Kind::choice, "", "", "",
              to_choose(
                  {"ordered", "received", "matched", "fitted", "left_over", "returned", "core_returned", "looked_at"}),
              true},
             role,
             {"item", "Part number", Field::Kind::words, "", ordered.empty() ? "" : "As it was ordered for the place.",
              ordered},
             {"quantity", "Quantity", Field::Kind::number, "", "With its unit where it is not a count."}},
            with_photos({job_field(visit.session, open),
                         {"seller", "Seller"},
                         {"return_by", "May go back until", Field::Kind::date},
                         {"core_by", "Old part back by", Field::Kind::date},
                         {"core", "Core charge", Field::Kind::number},
                         {"made",
                          "What it is",
                          Field::Kind::choice,
                          "",
                          "Of a part that was fitted.",
                          "",
                          {{"", "not said"},
                           {"new", "new"},
                           {"remanufactured", "remanufactured"},
                           {"used", "used"},
                           {"own_stock", "own stock"}}},
                         {"label", "As on its label"},
                         {"torque", "Torque", Field::Kind::number, "N m"},
                         {"seals_out", "Seals out", Field::Kind::number},
                         {"seals_in", "Seals in", Field::Kind::number},
                         {"out", "Fluid out", Field::Kind::number, "L"},
                         {"out_temp", "at", Field::Kind::number, "degC"},
                         {"in", "Fluid in", Field::Kind::number, "L"},
                         {"in_temp", "at", Field::Kind::number, "degC"},
                         {"measured", "Measured on the bench", Field::Kind::words, "",
                          "For a part in hand: pan depth 41 mm; height 33 mm."},
                         {"state", "State", Field::Kind::words, "", "As it was found."},
                         {"note", "Note"},
                         {"date", "When", Field::Kind::date, "", "Today when left empty."},
                         {"corrects", "Corrects entry number", Field::Kind::number, "",
                          "As it stands on this page; of what was fitted or looked at, under \"Written down\"."}})};
}

// One button for the part that is in the hand and is wrong.
Form does_not_fit_form(const Situation& situation, const Visit& visit) {
    auto role = role_field(situation, visit.session, visit.asked("role"));
    role.required = true;
    return {"record/does-not-fit",
            "It came and does not fit",
            "It does not fit",
            {role,
             {"item", "Part number", Field::Kind::words, "", "", "", {}, true},
             {"measured",
              "What was measured",
              Field::Kind::words,
              "",
              "On the part and on the old one: 33 mm high, the old one 52 mm.",
              "",
              {},
              true}},
            closing_fields()};
}

Form proof_form() {
    return {
        "record/proof",
        "Checked afterwards, or for sale",
        "Write it down",
        {{"what", "What", Field::Kind::choice, "", "", "", to_choose({"proof", "odometer", "for_sale", "sold"}), true},
         {"odometer", "Odometer", Field::Kind::number, "km"},
         {"gears", "Gears obtained", Field::Kind::words, "", "Such as 1-2-3-4."},
         {"codes", "Codes"},
         {"drives", "After so many drives", Field::Kind::number},
         {"leaks", "Leaks", Field::Kind::words, "", "Such as dry."},
         {"leak_after", "Looked at after", Field::Kind::words, "", "Such as 24h, counted from wiping it dry."}},
        closing_fields()};
}

Form money_form(const Visit& visit, const std::vector<StartedJob>& open) {
    return {
        "record/money",
        "Money",
        "Write it down",
        {{"kind", "What for", Field::Kind::choice, "", "", "",
          to_choose({"purchase", "transport", "diagnosis", "parts", "fluid", "hire", "refund", "sale", "other"}), true},
         {"amount", "Amount", Field::Kind::number, visit.currency(), "", "", {}, true}},
        with_photos({job_field(visit.session, open),
                     {"note", "Note"},
                     {"date", "When", Field::Kind::date, "", "Today when left empty."}})};
}

Form start_form(const Visit& visit, const Situation& situation) {
    Field job{"job", "Job", Field::Kind::choice, "", "", "", {{"", "choose"}}, true};
    for (const auto& one : jobs_for(situation, visit.session)) job.options.emplace_back(one.key, one.title);
    return {"record/start", "Begin a job", "Begin", {job, {"note", "What it is for"}}};
}

Form close_form(const Visit& visit, const std::vector<StartedJob>& open) {
    auto job = job_field(visit.session, open);
    job.options.erase(job.options.begin());
    job.label = "Job";
    return {"close",
            "End a job",
            "End it",
            {job,
             {"cause", "What was wrong", Field::Kind::words, "", "", "", {}, true},
             {"worked",
              "Did it work?",
              Field::Kind::one_of,
              "",
              "",
              "",
              {{"yes", "yes"}, {"no", "no"}, {"not_known", "not known yet"}},
              true},
             {"hours", "Own hours", Field::Kind::number, "h", "", "", {}, true},
             {"money", "What it cost", Field::Kind::number, visit.currency(),
              "Left empty: what is written down as paid for the job."},
             {"open",
              "When something is still open",
              Field::Kind::one_of,
              "",
              "",
              "",
              {{"", "do not end it, say what"},
               {"accepted", "end it; a success is not known"},
               {"counted", "end it; a success counts"}}}},
            {{"note", "Note"}, {"date", "When", Field::Kind::date, "", "Today when left empty."}}};
}

// Role by role, what happened so far; with what the job still needs, when the answer says so.
void write_check_off(Html& html, const Visit& visit, const std::vector<CheckOffLine>& lines) {
    if (lines.empty()) return;
    HtmlTable table(html, {"place", "need", "state", "item", "so far"}, "The lines of the jobs", false);
    for (const auto& line : lines) {
        const bool open = line.to_order || line.blocked;
        table.begin_row(open);
        {
            const auto cell = table.open_cell();
            if (!visit.request.may_edit) html.text(line.title);
            else
                html.link(address(visit.request.path, {{"role", line.role}}) + "#" + form_id("record/part", "-form"),
                          line.title);  // its form, begun
        }
        for (const auto& text : {line.need, line.state_with_doubt(), line.item, line.so_far}) table.cell(text);
        table.end_row();
    }
}

void write_events(Html& html, const Visit& visit, const std::vector<LineEvent>& events) {
    if (events.empty()) {
        html.element("p", "Nothing is checked off yet.");
        return;
    }
    const auto details = html.in("details");
    html.element("summary", "Everything that happened to its parts");
    constexpr std::size_t most = 200;
    HtmlTable table(html, {"date", "entry", "place", "what", "item", "note"}, "What happened, newest first", false);
    for (std::size_t i = 0; i < events.size() && i < most; ++i) {
        const auto& event = events[events.size() - 1 - i];
        const auto* role = visit.session.catalog().vocabularies().role(event.role);
        const auto number = event.event == "fitted" ? "as written down" : std::to_string(event.id);
        table.row({event.date, number, role ? role->title : event.role,
                   event.event == "mismatched" ? "DOES NOT MATCH: do not open the vehicle for it; send it back"
                                               : spaced(event.event),
                   event.item, event.note + (event.stands ? "" : " (no longer stands)")});
    }
}

// What is in the hand and wrong: what it holds up, how it goes back, what to find out.
void write_mismatches(Html& html, const std::vector<Mismatch>& mismatches) {
    for (const auto& one : mismatches) {
        html.element("p", fmt::format("{}: {}", one.item, one.back), {{"class", "stays"}});
        html.element("p", fmt::format("Find out next: {}", one.next));
        write_list(html, one.held, "cautions");
    }
}

void show_record(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "what was done");
    const auto name = situation->name();
    auto& html = page.main;
    const auto open = jobs_begun(visit.session, name);
    std::vector<std::string> jobs;
    for (const auto& job : open)
        jobs.push_back(fmt::format("{}, begun {}", job_title(visit.session, job.job), job.started));
    html.element("h2", "Open jobs");
    if (jobs.empty()) html.element("p", "None.");
    write_list(html, jobs);
    const ShopRecords records(visit.session.shop());
    html.element("h2", "Check-off");
    write_check_off(html, visit, check_off(visit.session, name));
    write_events(html, visit, records.events(name));
    for (const auto& check : checks_open(visit.session, name))  // before the job is ended
        html.element("p", "CHECK: " + check, {{"class", "stays"}});
    write_mismatches(html, mismatches_open(visit.session, name));
    write_form(html, visit, part_form(*situation, visit, open));
    write_form(html, visit, does_not_fit_form(*situation, visit));
    write_work(html, visit.session, name);
    write_form(html, visit, proof_form());
    html.element("p", fmt::format("Gone into it so far: {}.", money_text(records.spent_cents(name), visit.currency())),
                 {{"class", "total"}});
    write_form(html, visit, money_form(visit, open));
    write_form(html, visit, start_form(visit, *situation));
    if (!open.empty()) write_form(html, visit, close_form(visit, open));
    write_form(html, visit, {"shelf-keep", "", "Put on the shelf what came and was not used", {}});
    if (visit.request.may_edit) {
        const auto line = html.in("p");
        html.link(vehicle_address(name, "/keep"), "Keep what was measured here in your own pack",
                  {{"class", "button"}});
    }
    write_vehicle_links(html, visit, name);
}

void show_due(Visit& visit, Page& page) {
    page.title = "Due";
    page.under = fmt::format("Today is {}.", today());
    auto& html = page.main;
    page.invented |= any_line_invented(visit.session);
    const auto dates = return_dates(visit.session);
    if (dates.empty()) html.element("p", "No date is set.");
    else {
        HtmlTable table(html, {"date", "vehicle", "what"}, "Dates");
        for (const auto& one : dates)
            table.row({one.date + (one.past() ? " PAST" : ""), one.vehicle, one.what}, one.past());
    }
    const auto services = services_due(visit.session);
    if (services.empty()) return;
    HtmlTable table(html, {"vehicle", "service", "of it"}, "Service");
    for (const auto& one : services) {
        const auto domain = one.domain.empty() ? "" : spaced(one.domain) + ": ";
        const auto details = fmt::format("{}", fmt::join(one.details, "; "));
        table.row({one.vehicle, domain + one.answer, in_titles(visit.session.catalog(), details)}, one.due());
    }
}

// "pan depth 41 mm" or "pan_depth=41mm": the name, and from its first digit on the value.
std::string measured_word(std::string_view piece) {
    const auto equals = piece.find('=');
    const auto cut = equals != std::string_view::npos ? equals : piece.find_first_of("0123456789");
    if (cut == std::string_view::npos) return std::string(piece);
    auto name = std::string(trimmed(piece.substr(0, cut)));
    std::replace(name.begin(), name.end(), ' ', '_');
    return fmt::format("{}={}", name, trimmed(piece.substr(equals == cut ? cut + 1 : cut)));
}

// "pan depth 41 mm; height 33 mm" as words of their own.
void add_measured(std::vector<std::string>& words, const std::string& text) {
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find(';', from), text.size());
        if (const auto word = trimmed(std::string_view(text).substr(from, end - from)); !word.empty())
            words.push_back(measured_word(word));
        from = end + 1;
    }
}

std::string act_does_not_fit(Visit& visit) {
    Args args{{vehicle_of(visit), "does-not-fit"}, {}};
    for (auto& word : key_value_args_of(visit, {"role", "item", "measured", "note", "date"}))
        args.words.push_back(std::move(word));
    add_photos(args, visit);
    run_command(visit.session, "record", args);
    return "";
}

std::string act_record(Visit& visit) {
    const auto form = visit.typed("form");
    const auto of = form.substr(std::min(form.find('/') + 1, form.size()));
    if (of == "does-not-fit") return act_does_not_fit(visit);
    const auto what = of == "money" || of == "start" ? of : visit.typed("what");
    if (what.empty()) throw Error(Exit::usage, "what: choose what happened");
    Args args{{vehicle_of(visit), what}, {}};
    for (auto& word : key_value_args_of(
             visit, {"job",      "role",       "item",     "made",   "label",   "quantity", "torque", "seals_out",
                     "seals_in", "out",        "out_temp", "in",     "in_temp", "gears",    "codes",  "drives",
                     "leaks",    "leak_after", "odometer", "state",  "note",    "date",     "seller", "return_by",
                     "core_by",  "core",       "kind",     "amount", "corrects"}))
        args.words.push_back(std::move(word));
    add_measured(args.words, visit.typed("measured"));
    add_photos(args, visit);
    run_command(visit.session, "record", args);
    return "";
}

std::string act_close(Visit& visit) {
    Args args{{vehicle_of(visit), visit.typed("job")}, {}};
    for (const char* needed : {"cause", "worked", "hours"})
        if (visit.typed(needed).empty()) throw Error(Exit::usage, fmt::format("{}: is needed to end a job", needed));
    for (auto& word : key_value_args_of(visit, {"cause", "worked", "hours", "money", "open", "note", "date"}))
        args.words.push_back(std::move(word));
    run_command(visit.session, "close", args);
    return "";
}

std::string act_shelf_keep(Visit& visit) {
    run_command(visit.session, "shelf keep", Args{{vehicle_of(visit)}, {}});
    return "";
}

}  // namespace

std::vector<Route> record_routes() { return {{"/vehicle/*/record", "", show_record}, {"/due", "Due", show_due}}; }

std::vector<Action> record_actions() {
    return {{"record", act_record}, {"close", act_close}, {"shelf-keep", act_shelf_keep}};
}

}  // namespace casebound
