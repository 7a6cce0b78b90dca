// What somebody says of a vehicle, written down one statement at a time; and what the own pack holds, table by table,
// to be corrected and withdrawn. Each through the command of its name.
#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_photos.h"
#include "core/page/page_routes.h"
#include "core/page/page_table_form.h"
#include "core/page/page_vehicle.h"
#include "core/shop/shop_told.h"
#include "core/work/own_line.h"
#include "core/work/own_words.h"
#include "core/work/statement.h"

namespace casebound {

namespace {

constexpr std::size_t statements_a_page = 60;
constexpr std::string_view of_places = "applications";

std::string note_address(const std::string& vehicle, const Fields& query) {
    return address(vehicle_address(vehicle, "/note"), query);
}

struct Who {
    std::string title, kind = "memory";
};

// Who said the last thing often says the next.
Who last_who(Session& session) {
    for (auto all = own_statements(session, own_pack_folder(session)); !all.empty(); all.pop_back())
        if (all.back().main()) return {all.back().title, all.back().kind};
    return {};
}

// Not called as the options are: a table may have columns of those names.
std::vector<Field> source_fields(const Who& who) {
    return {{"who",
             "Who says so?",
             Field::Kind::words,
             "",
             "Title, edition and page, or a person's list and its date.",
             who.title,
             {},
             true},
            {"how-good",
             "How good is it?",
             Field::Kind::choice,
             "",
             "",
             who.kind,
             {{"memory", "from memory, or hearsay"},
              {"common_practice", "common practice"},
              {"measured", "measured here, or read off the part"},
              {"maker", "its maker's own text"},
              {"standard", "a standard"},
              {"law", "a law"}}}};
}

std::string told_hint(Session& session, const std::string& vehicle) {
    std::string told;
    for (const auto& fact : ShopTold(session.shop()).standing(vehicle))
        if (!fact.withdrawn) told += fmt::format("{}{}={}", told.empty() ? "" : "; ", fact.attribute, fact.text);
    return fmt::format("Such as pan_depth=38mm; left empty: on all of this line.{}",
                       told.empty() ? "" : fmt::format(" Told of this one: {}.", told));
}

std::string unit_of_place(Session& session, const std::string& place) {
    const auto& words = session.catalog().vocabularies();
    const auto* role = words.role(place);
    const auto* kind = role ? words.item_kind(role->item_kind) : nullptr;
    return kind ? kind->unit : "";
}

Form place_form(Visit& visit, const std::string& vehicle) {
    Form form{"note", "What goes where", "Write it down", {}};
    const auto role = visit.asked("role");
    form.fields = {role_field(visit.session, "role", role, true),
                   {"part",
                    "Part number, or the fluid's spec",
                    Field::Kind::words,
                    "",
                    "As printed, with its blanks and dots. none: there is no such place.",
                    visit.asked("part"),
                    {},
                    true}};
    const Field quantity{"quantity", "How much the place takes", Field::Kind::number,
                         unit_of_place(visit.session, role), "5.6 US qt is taken too."};
    const bool by_volume = quantity.unit == "L";  // its figure matters: in sight
    if (by_volume) form.fields.push_back(quantity);
    for (auto& field : source_fields(last_who(visit.session))) form.fields.push_back(std::move(field));
    form.more = {
        {"where", "Only where", Field::Kind::words, "", told_hint(visit.session, vehicle), visit.asked("where")},
        {"does-not-fit", "It says that the part does not fit", Field::Kind::check},
        {"title", "What is on the label", Field::Kind::words, "", "Of a part that no pack has."},
        {"pack", "How much one pack of it holds", Field::Kind::number},
        {"note", "Note"}};
    if (!by_volume) form.more.push_back(quantity);
    return form;
}

void write_tables(Html& html, const PackShape& shape, const std::string& vehicle) {
    const auto details = html.in("details");
    html.element("summary", "Something else: stand-ins, kits, what stays behind, torques, fills, properties");
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto* table : tables_with_source(shape)) {
        const auto item = html.in("li");
        html.link(note_address(vehicle, {{"table", table->name}}), spaced(table->name));
        html.element("span", table->meaning, {{"class", "hint"}});
    }
}

void show_note(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "write down what is said");
    auto& html = page.main;
    const PackShape shape(visit.session.plugins());
    const auto typed = visit.asked("table");
    const auto* table = typed.empty() || typed == of_places ? nullptr : table_meant(shape, typed);
    if (!typed.empty() && typed != of_places && !table)
        throw Error(Exit::no_input, fmt::format("{}: no such table", typed));
    if (!visit.request.may_edit) html.element("p", "This page is for looking only: nothing can be changed from here.");
    auto form = table ? table_form(visit.session, *table, "note",
                                   [&](const std::string& name) { return visit.asked(name); })
                      : place_form(visit, situation->name());
    if (table) {
        html.element("p", table->meaning);
        for (auto& field : source_fields(last_who(visit.session))) form.fields.push_back(std::move(field));
        form.hidden.emplace_back("table", table->name);
    }
    form.more = with_photos(std::move(form.more));
    write_form(html, visit, form);
    write_tables(html, shape, situation->name());
    const auto line = html.in("p");
    html.link("/own", "What is written down already", {{"class", "button"}});
    html.text(" ");
    html.link(vehicle_address(situation->name()), "Back to the vehicle", {{"class", "button"}});
}

void add_source(Args& args, const Visit& visit) {
    if (const auto who = visit.typed("who"); !who.empty()) args.options["says"] = {who};
    if (const auto kind = visit.typed("how-good"); !kind.empty()) args.options["kind"] = {kind};
}

std::string act_note(Visit& visit) {
    if (visit.words.empty()) throw Error(Exit::usage, "form: this is about a vehicle: go to its page");
    Args args{{visit.words[0]}, {}};
    const auto typed = visit.typed("table");
    if (typed.empty()) {
        if (visit.typed("role").empty()) throw Error(Exit::usage, "role: choose the place");
        if (visit.typed("part").empty())
            throw Error(Exit::usage, "part: write the number that is on the part, or none");
        args.words.insert(args.words.end(), {visit.typed("role"), visit.typed("part")});
        add_options(args, visit, {"where", "quantity", "title", "pack", "does-not-fit"});
        add_options(args, visit, {"note"});
    } else {
        const PackShape shape(visit.session.plugins());
        const auto* table = table_meant(shape, typed);
        if (!table) throw Error(Exit::usage, fmt::format("form: {}: no such table", typed));
        args.words.push_back(table->name);
        for (auto& cell : cells_of(visit, *table, false)) args.words.push_back(std::move(cell));
        if (args.words.size() == 2) throw Error(Exit::usage, "nothing is filled in: write what is said");
    }
    add_source(args, visit);
    add_photos(args, visit);
    run_command(visit.session, "note", args);
    const auto back = visit.asked("back");
    return back.starts_with("/vehicle/" + visit.words[0]) ? back : "/own";
}

// ---- what the own pack holds

std::string state_of(const OwnStatement& one) {
    for (auto change = one.changes.rbegin(); change != one.changes.rend(); ++change)
        if (change->what == "withdrawn") return fmt::format("Withdrawn {}: {}", change->date, change->why);
    return "Withdrawn";
}

void write_statement(Html& html, const Visit& visit, const OwnStatement& one, const std::string& table) {
    const auto item = html.in("li");
    std::string place;
    for (const auto& row : one.rows)
        if (row.table == table) {
            html.element("strong", statement_words(visit.session.catalog(), table, row.cells));
            place = fmt::format("; {}.csv:{}", row.table, row.line);
        }
    for (const auto& change : one.changes)
        if (change.table == table)
            html.element(
                "span",
                fmt::format("Before {}: {}", change.date, statement_words(visit.session.catalog(), table, change.row)),
                {{"class", "hint"}});
    html.element("span",
                 fmt::format("{} ({}), {}{}", one.title, evidence_words(evidence_from(one.kind)), one.edition, place));
    write_photos(html, ShopPhotos(visit.session.shop()).of_statement(one.source), one.title);
    if (!one.stands()) return html.element("span", state_of(one), {{"class", "fault"}});
    if (!one.main() || one.main()->table != table) return;
    const auto number = std::to_string(one.number);
    if (visit.request.may_edit)
        html.link(address("/own/correct", {{"statement", number}}), fmt::format("Correct statement {}", number),
                  {{"class", "button"}});
    write_form(
        html, visit,
        {"withdraw-note/" + number, "", "Withdraw statement " + number, {}, {{"why", "Why"}}, {{"statement", number}}});
}

void show_own(Visit& visit, Page& page) {
    page.title = "What is written down here";
    auto& html = page.main;
    const auto folder = own_pack_folder(visit.session);
    const auto all = own_statements(visit.session, folder);
    if (all.empty())
        html.element("p", "Nothing yet. Each open line of a parts list has a link to write down what goes there.");
    else html.element("p", fmt::format("Your own pack: {}", folder), {{"class", "hint"}});
    const PackShape shape(visit.session.plugins());
    const auto stretch = stretch_of(visit, all.size(), statements_a_page);
    for (const auto& table : shape.tables()) {
        std::vector<const OwnStatement*> here;
        for (std::size_t i = stretch.from; i < stretch.to; ++i) {
            const auto about = [&](const auto& row) { return row.table == table.name; };
            const auto& one = all[all.size() - 1 - i];  // newest first
            if (std::any_of(one.rows.begin(), one.rows.end(), about) ||
                std::any_of(one.changes.begin(), one.changes.end(), about))
                here.push_back(&one);
        }
        if (here.empty()) continue;
        html.element("h2", spaced(table.name));
        html.element("p", table.meaning, {{"class", "hint"}});
        const auto list = html.in("ul", {{"class", "told"}});
        for (const auto* one : here) write_statement(html, visit, *one, table.name);
    }
    write_stretch(html, visit, stretch, statements_a_page);
}

void show_correct(Visit& visit, Page& page) {
    const auto one = own_statement(visit.session, own_pack_folder(visit.session), visit.asked("statement"));
    page.title = fmt::format("Correct statement {}", one.number);
    page.trail = {{"/own", "What is written down here"}};
    const auto* main = one.main();
    if (!main || !one.stands()) {
        page.main.element("p", "Nothing of it stands that could be corrected.");
        return;
    }
    const PackShape shape(visit.session.plugins());
    auto form = table_form(visit.session, *shape.find(main->table), "correct-note",
                           [&](const std::string& name) { return main->text(name); });
    for (auto& field : source_fields({one.title, one.kind})) form.fields.push_back(std::move(field));
    form.more.push_back({"why", "Why it is corrected"});
    form.hidden = {{"statement", std::to_string(one.number)}, {"table", main->table}};
    form.button = "Correct it";
    page.main.element("p", "How it read before stays in the history.", {{"class", "hint"}});
    write_form(page.main, visit, form);
}

std::string act_correct(Visit& visit) {
    const PackShape shape(visit.session.plugins());
    const auto* table = table_meant(shape, visit.typed("table"));
    if (!table) throw Error(Exit::usage, "form: no such table");
    Args args{{visit.typed("statement")}, {}};
    for (auto& cell : cells_of(visit, *table, true)) args.words.push_back(std::move(cell));
    add_source(args, visit);
    add_options(args, visit, {"why"});
    run_command(visit.session, "own correct", args);
    return "/own";
}

std::string act_withdraw_note(Visit& visit) {
    Args args{{visit.typed("statement")}, {}};
    add_options(args, visit, {"why"});
    run_command(visit.session, "own withdraw", args);
    return "";
}

}  // namespace

std::vector<Route> note_routes() {
    return {{"/vehicle/*/note", "", show_note}, {"/own", "Written down", show_own}, {"/own/correct", "", show_correct}};
}

std::vector<Action> note_actions() {
    return {{"note", act_note}, {"correct-note", act_correct}, {"withdraw-note", act_withdraw_note}};
}

}  // namespace casebound
