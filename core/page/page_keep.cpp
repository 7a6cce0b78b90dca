// What was measured and fitted on a vehicle becomes rows of the own pack: shown first, kept by a second button.
#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/session/typed_names.h"
#include "core/work/own_line.h"

namespace casebound {

namespace {

// A part with a title is one that no pack has yet.
Args args_of(const Visit& visit, const std::vector<std::string>& cells) {
    const bool new_part = std::any_of(cells.begin(), cells.end(),
                                      [](const std::string& cell) { return cell.starts_with("title="); });
    Args args{{visit.words.at(0), new_part ? "part" : "applications"}, {}};
    args.words.insert(args.words.end(), cells.begin(), cells.end());
    const auto own = ShopSettings(visit.session.shop()).get("own_pack");
    args.options["pack"] = {own.value_or(own_pack_folder(visit.session))};
    return args;
}

const std::vector<std::string> cell_names{"role", "item", "title"};

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

// Asked before the vehicle is met: the command closes the catalog.
nlohmann::ordered_json rows_to_keep(Visit& visit) {
    try {
        return json_answer(visit.session, "keep", args_of(visit, key_value_args_asked(visit, cell_names)));
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data && error.exit() != Exit::no_input) throw;
        if (!visit.refused) visit.refused = Refusal{"keep-which", error.all()};
        return nullptr;
    }
}

void write_rows(Html& html, const Visit& visit, const nlohmann::ordered_json& keep) {
    for (const auto& one : keep["contradicts"])
        html.element("p",
                     fmt::format("Contradicts the catalog: {}. Look again; if it stays, both are kept, and the answer "
                                 "is that sources disagree.",
                                 one.get<std::string>()),
                     {{"class", "fault"}});
    html.element("h2", "These rows would be added");
    std::vector<std::string> rows;
    for (const auto& one : keep["rows"])
        rows.push_back(fmt::format("{}: {}", one["file"].get<std::string>(), one["row"].get<std::string>()));
    write_list(html, rows);
    Form form{"keep", "", "Keep them", {{"note", "How it was measured"}}};
    for (const auto& name : cell_names)
        if (!visit.asked(name).empty()) form.hidden.emplace_back(name, visit.asked(name));
    write_form(html, visit, form);
}

void show_keep(Visit& visit, Page& page) {
    const auto keep = visit.asked("go").empty() ? nlohmann::ordered_json() : rows_to_keep(visit);
    const auto situation = vehicle_page(visit, page, "keep what was measured");
    auto& html = page.main;
    html.element("p", "What was measured and fitted here, as rows of your own pack: it serves the next vehicle, too.");
    if (!keep.is_null()) write_rows(html, visit, keep);
    else write_form(html, visit, which_form(visit, *situation));
    write_vehicle_links(html, visit, situation->name());
}

std::string act_keep(Visit& visit) {
    auto args = args_of(visit, key_value_args_of(visit, cell_names));
    add_options(args, visit, {"note"});
    args.options["confirm"] = {};
    run_command(visit.session, "keep", args);
    return vehicle_address(visit.words.at(0), "/fits");
}

}  // namespace

std::vector<Route> keep_routes() { return {{"/vehicle/*/keep", "", show_keep}}; }

std::vector<Action> keep_actions() { return {{"keep", act_keep}}; }

}  // namespace casebound
