// What was measured and fitted on a vehicle becomes rows of the own pack: shown first, kept by a second button.
#include <algorithm>

#include <fmt/format.h>

#include "core/commands/keeping.h"
#include "core/ground/text_layout.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_table_form.h"
#include "core/page/page_vehicle.h"
#include "core/session/typed_names.h"
#include "core/work/own_line.h"
#include "core/work/statement.h"

namespace casebound {

namespace {

constexpr std::string_view how = "how-measured";  // not called as a column of a table may be

// What is kept: a part in its place, or a row of the table that is asked for.
class Kept {
public:
    explicit Kept(Visit& visit) : shape_(visit.session.plugins()) {
        auto typed = visit.typed("table");
        if (typed.empty()) typed = visit.asked("table");
        if (typed.empty()) return;
        table = table_meant(shape_, typed);
        if (!table) throw Error(Exit::no_input, fmt::format("{}: no such table", typed));
    }

    std::vector<std::string> columns() const {
        return table ? field_columns(*table) : std::vector<std::string>{"role", "item", "title"};
    }

    // Of a part, or of the vehicle's line: nothing measured on a vehicle is about anything else.
    std::vector<const TableShape*> tables() const {
        auto all = tables_with_source(shape_);
        std::erase_if(all, [](const TableShape* one) {
            const auto has = [&](std::string_view name) { return one->find(name) < one->columns.size(); };
            const bool of_names = one->name == "items" || one->name == "groups" || one->name == "group_members" ||
                                  one->name == "lines" || one->name == "applications";
            return of_names || (!has("group_key") && !has("item") && !has("line"));
        });
        return all;
    }

    const TableShape* table = nullptr;

private:
    PackShape shape_;
};

// A part with a title is one that no pack has yet.
Args args_of(const Visit& visit, const Kept& kept, const std::vector<std::string>& cells) {
    const bool new_part = std::any_of(cells.begin(), cells.end(),
                                      [](const std::string& cell) { return cell.starts_with("title="); });
    Args args{{visit.words.at(0), kept.table ? kept.table->name : new_part ? "part" : "applications"}, {}};
    args.words.insert(args.words.end(), cells.begin(), cells.end());
    args.options["pack"] = {own_pack_folder(visit.session)};
    return args;
}

Form which_form(const Visit& visit, const Situation& situation) {
    Field role{"role", "Place", Field::Kind::choice, "", "", "", {{"", "choose"}}, true};
    for (const auto& key : situation.judge().roles_on_record())
        role.options.emplace_back(key, place_title(visit.session.catalog(), key));
    return {"keep-which",
            "",
            "Show the rows",
            {role,
             {"item",
              "Part number",
              Field::Kind::words,
              "",
              "It was fitted, received or held against the old one here.",
              "",
              {},
              true},
             {"title", "What is on its label", Field::Kind::words, "", "Only of a part that no pack has."}},
            {},
            {{"go", "1"}},
            vehicle_address(situation.name(), "/keep")};
}

// Sent to the address of the rows: shown first, kept by the next button.
Form row_form(Visit& visit, const Situation& situation, const TableShape& table) {
    auto form = table_form(visit.session, table, "keep-which",
                           [&](const std::string& name) { return visit.asked(name); });
    form.button = "Show the row";
    form.fields.push_back({std::string(how), "How it was measured", Field::Kind::words, "", "", visit.asked(how)});
    form.hidden = {{"go", "1"}, {"table", table.name}};
    form.goes_to = vehicle_address(situation.name(), "/keep");
    return form;
}

// Asked before the vehicle is met: the command closes the catalog.
std::optional<KeptRows> rows_shown(Visit& visit, const Kept& kept) {
    try {
        auto args = args_of(visit, kept, key_value_args_asked(visit, kept.columns()));
        if (args.words.size() == 2) throw Error(Exit::usage, "nothing is filled in: write what was measured");
        if (const auto note = visit.asked(how); !note.empty()) args.options["note"] = {note};
        return rows_to_keep(visit.session, args);
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data && error.exit() != Exit::no_input) throw;
        if (!visit.refused) visit.refused = Refusal{"keep-which", error.all()};
        return std::nullopt;
    }
}

void write_rows(Html& html, const Visit& visit, const Kept& kept, const KeptRows& keep) {
    for (const auto& one : keep.contradicts)
        html.element("p",
                     fmt::format("Contradicts the catalog: {}. Look again; if it stays, both are kept, and the answer "
                                 "is that sources disagree.",
                                 one),
                     {{"class", "fault"}});
    html.element("h2", "These rows would be added");
    std::vector<std::string> rows;
    for (const auto& [file, row] : keep.rows) rows.push_back(fmt::format("{}: {}", file, row));
    write_list(html, rows);
    Form form{"keep",
              "",
              "Keep them",
              {{std::string(how), "How it was measured", Field::Kind::words, "", "", visit.asked(how)}}};
    if (kept.table) form.hidden.emplace_back("table", kept.table->name);
    for (const auto& name : kept.columns())
        if (!visit.asked(name).empty()) form.hidden.emplace_back(name, visit.asked(name));
    write_form(html, visit, form);
}

void write_tables(Html& html, const Kept& kept, const std::string& vehicle) {
    const auto details = html.in("details");
    html.element("summary", "Something else that was measured: sizes, torques, what stays behind, fills");
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto* table : kept.tables()) {
        const auto item = html.in("li");
        html.link(address(vehicle_address(vehicle, "/keep"), {{"table", table->name}}), spaced(table->name));
        html.element("span", table->meaning, {{"class", "hint"}});
    }
}

void show_keep(Visit& visit, Page& page) {
    const Kept kept(visit);
    const auto keep = visit.asked("go").empty() ? std::nullopt : rows_shown(visit, kept);
    const auto situation = vehicle_page(visit, page, "keep what was measured");
    auto& html = page.main;
    html.element("p", "What was measured and fitted here, as rows of your own pack: it serves the next vehicle, too.");
    if (kept.table) html.element("p", kept.table->meaning, {{"class", "hint"}});
    if (keep) write_rows(html, visit, kept, *keep);
    else write_form(html, visit, kept.table ? row_form(visit, *situation, *kept.table) : which_form(visit, *situation));
    if (!keep) write_tables(html, kept, situation->name());
    write_vehicle_links(html, visit, situation->name());
}

std::string act_keep(Visit& visit) {
    const Kept kept(visit);
    auto args = args_of(visit, kept, key_value_args_of(visit, kept.columns()));
    if (const auto note = visit.typed(how); !note.empty()) args.options["note"] = {note};
    args.options["confirm"] = {};
    run_command(visit.session, "keep", args);
    return kept.table ? std::string("/own") : vehicle_address(visit.words.at(0), "/fits");
}

}  // namespace

std::vector<Route> keep_routes() { return {{"/vehicle/*/keep", "", show_keep}}; }

std::vector<Action> keep_actions() { return {{"keep", act_keep}}; }

}  // namespace casebound
