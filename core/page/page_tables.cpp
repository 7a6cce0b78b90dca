// The table book: every reference table of the loaded domains as one, each row with its source, and a row found by what
// is in the hand. All of it through the command of the same name.
#include <fmt/format.h>

#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t table_rows_a_page = 80;

Form hand_form() {
    return {"hand",
            "",
            "Look up",
            {{"hand",
              "In the hand",
              Field::Kind::words,
              "",
              "25 x 32 x 7; ring, 3.5 section, 25 inside; M12x1.25",
              "",
              {},
              true}},
            {},
            {},
            "/catalog/tables"};
}

// "standard: AS568, inch sizes of O-rings"; a source whose title says its kind says it once.
std::string source_words(const Json& row) {
    const auto& from = row.at("row");
    const std::string kind(evidence_words(evidence_from(from.at("evidence").get<std::string>())));
    const auto title = from.at("source").get<std::string>();
    return title.rfind(kind, 0) == 0 ? title : kind + ": " + title;
}

void write_table_rows(Html& html, Page& page, const Json& rows, std::size_t from, std::size_t to, bool with_table) {
    const auto list = html.in("ul", {{"class", "told"}});
    for (std::size_t i = from; i < to; ++i) {
        const auto& row = rows[i];
        page.invented |= row.at("row").at("evidence") == "invented";
        const auto item = html.in("li");
        html.element("strong", row.at("words").get<std::string>());
        for (const auto& apart : row.at("apart")) html.element("span", apart.get<std::string>());
        html.element("span", source_words(row), {{"class", "hint"}});
        const auto table = row.at("table").get<std::string>();
        if (with_table) html.link(address("/catalog/tables", {{"table", table}}), "the whole table");
    }
}

void show_hand(Visit& visit, Page& page, const std::string& hand) {
    const auto json = json_answer(visit.session, "tables", {{hand}, {}});
    const auto& rows = json.at("rows");
    auto& html = page.main;
    if (!json.at("tables").empty()) {  // its name was typed
        html.link(address("/catalog/tables", {{"table", hand}}), "the whole table");
        return;
    }
    if (rows.empty())
        html.element(
            "p", fmt::format("{}: in no table that is loaded. Not in a table is not a no: sizes are made that stand "
                             "in none.",
                             hand));
    else if (json.at("near_only").get<bool>())
        html.element("p", "Nothing within what a calliper may be off; the nearest:");
    write_table_rows(html, page, rows, 0, rows.size(), true);
    if (json.at("more").get<std::size_t>() > 0) html.element("p", "There are more: one more measure narrows it.");
}

void show_table(Visit& visit, Page& page, const std::string& name) {
    const auto json = json_answer(visit.session, "tables", {{name}, {}});
    const auto& rows = json.at("rows");
    if (!json.at("tables").empty()) {
        const auto meaning = json.at("tables")[0].at("meaning").get<std::string>();
        page.title = meaning.substr(0, meaning.find('.'));
    }
    const auto stretch = stretch_of(visit, rows.size(), table_rows_a_page);
    write_table_rows(page.main, page, rows, stretch.from, stretch.to, false);
    write_stretch(page.main, visit, stretch, table_rows_a_page);
}

void show_all(Visit& visit, Page& page) {
    const auto json = json_answer(visit.session, "tables", {});
    auto& html = page.main;
    if (json.at("tables").empty()) html.element("p", "No table is loaded.");
    const auto list = html.in("ul", {{"class", "links"}});
    for (const auto& table : json.at("tables")) {
        const auto item = html.in("li");
        html.link(address("/catalog/tables", {{"table", table.at("table").get<std::string>()}}),
                  fmt::format("{} ({})", table.at("meaning").get<std::string>(), table.at("rows").get<std::size_t>()));
    }
}

void show_tables(Visit& visit, Page& page) {
    page.title = "Table book";
    const auto hand = visit.asked("hand"), table = visit.asked("table");
    page.trail = {{"/catalog", "Catalog"}};
    if (!hand.empty() || !table.empty()) page.trail.emplace_back("/catalog/tables", "Table book");
    if (table.empty()) write_form(page.main, visit, hand_form());
    if (!hand.empty()) show_hand(visit, page, hand);
    else if (!table.empty()) show_table(visit, page, table);
    else show_all(visit, page);
}

}  // namespace

std::vector<Route> table_routes() { return {{"/catalog/tables", "", show_tables}}; }

}  // namespace casebound
