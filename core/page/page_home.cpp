// The yard: the vehicles there are, what is due, and a form for one more.
#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/shop/shop_backup.h"
#include "core/shop/shop_vehicles.h"
#include "core/work/due_dates.h"

namespace casebound {

namespace {

constexpr std::size_t vehicles_a_page = 40;

Field line_field(Session& session) {
    constexpr std::int64_t in_list = 200;
    Field field{"line", "Vehicle line", Field::Kind::words, "", "Its title, as in the catalog."};
    if (session.catalog().database().integer("SELECT count(*) FROM lines") > in_list) return field;
    field.kind = Field::Kind::choice;
    field.hint.clear();
    field.options.emplace_back("", "choose, or call it below");
    for (const auto& row : session.catalog().facts().rows("lines"))
        field.options.emplace_back(row.text("line"), row.text("title"));
    return field;
}

Form new_vehicle_form(Session& session) {
    return {
        "new-vehicle",
        "Another vehicle",
        "Add the vehicle",
        {{"name", "Its name here", Field::Kind::words, "", "Letters, digits and . _ -", "", {}, true},
         line_field(session),
         {"called", "Or what it is, as it is said aloud", Field::Kind::words, "",
          "For a vehicle that no pack has: maker, model, engine."}},
        {{"vin", "Identification number", Field::Kind::words, "", "Checked by 49 CFR 565; it may tell the model year."},
         {"market",
          "Market",
          Field::Kind::choice,
          "",
          "",
          "",
          {{"", "not known"}, {"north-america", "North America"}, {"other", "another"}}}}};
}

void write_vehicle(Html& html, Session& session, const Vehicle& vehicle, bool& invented) {
    const auto item = html.in("li");
    html.link(vehicle_address(vehicle.name), vehicle.name, {{"class", "big"}});
    try {
        const auto situation = session.situation(vehicle.name);
        html.element("span", situation->headline(), {{"class", "under"}});
        write_list(html, state_of_work(session, vehicle.name), "state");
        invented |= invented_line(session, *situation);
    } catch (const Error& error) {  // one vehicle whose pack is gone must not hide the others
        html.element("span", error.what(), {{"class", "fault"}});
    }
}

void write_backup(Html& html, const Visit& visit) {
    const auto last = last_backup(visit.session.options().shop);
    html.element("h2", "Backup");
    html.element("p", last ? fmt::format("The last one is of {}: {}", last->date, last->path)
                           : "There is none yet. It is one file, with your own packs, to be taken off this machine.");
    if (const auto due = backup_due(visit.session)) html.element("p", *due, {{"class", "fault"}});
    write_form(html, visit, {"backup", "", "Write a backup", {}});
}

void write_how_to_begin(Html& html) {
    html.element("p", "No vehicle yet. How to begin:", {{"class", "total"}});
    const auto list = html.in("ol");
    for (const char* step : {"Give the vehicle a name, and say aloud what it is: maker, model, engine. No pack has to "
                             "know it.",
                             "Choose a job: the parts list names every place, and what to find out first.",
                             "Write down what the old part, the handbook or a seller says, one line at a time, or "
                             "measure what is asked.",
                             "When nothing waits any more: what to order, from the prices that you put on file."})
        html.element("li", step);
}

void show_yard(Visit& visit, Page& page) {
    auto& session = visit.session;
    page.title = "Vehicles";
    page.kept = true;
    const auto vehicles = ShopVehicles(session.shop()).all();
    const auto stretch = stretch_of(visit, vehicles.size(), vehicles_a_page);
    auto& html = page.main;
    if (vehicles.empty()) write_how_to_begin(html);
    if (!vehicles.empty()) {
        const auto list = html.in("ul", {{"class", "yard"}});
        for (std::size_t i = stretch.from; i < stretch.to; ++i)
            write_vehicle(html, session, vehicles[i], page.invented);
    }
    write_stretch(html, visit, stretch, vehicles_a_page);
    if (!visit.request.may_edit)
        html.element("p", "This page is for looking only: nothing can be changed from here.", {{"class", "hint"}});
    write_form(html, visit, new_vehicle_form(session));
    if (!vehicles.empty()) write_backup(html, visit);
}

std::string act_backup(Visit& visit) {
    run_command(visit.session, "shop backup", Args{});
    return "";
}

}  // namespace

std::vector<Route> yard_routes() { return {{"/", "Vehicles", show_yard}}; }

std::vector<Action> yard_actions() { return {{"backup", act_backup}}; }

}  // namespace casebound
