// The table book: every reference table of the loaded domains as one, each row with its source, and a row found by what
// is in the hand, as the command of the same name shows them.
#include <fmt/format.h>

#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/page/page_visit.h"
#include "core/reason/vocabulary.h"
#include "core/say/table_words.h"

namespace casebound {

namespace {

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
std::string source_words(const Origin& origin) {
    const std::string kind(evidence_words(origin.evidence));
    return origin.source.rfind(kind, 0) == 0 ? origin.source : kind + ": " + origin.source;
}

struct ShownRow {
    const ReferenceTable* table;
    const Row* row;
    std::vector<std::string> apart;
};

void write_table_rows(const Visit& visit, Page& page, const std::vector<ShownRow>& rows, bool with_table) {
    auto& html = page.main;
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto& [table, row, apart] : rows) {
        page.invented |= row->origin.evidence == Evidence::invented;
        const auto item = html.in("li");
        html.element("strong", row_words(visit.session.catalog(), *table, *row));
        for (const auto& one : apart) html.element("span", one);
        html.element("span", source_words(row->origin), {{"class", "hint"}});
        if (with_table) html.link(address("/catalog/tables", {{"table", table->name}}), "the whole table");
    }
}

void show_hand(const Visit& visit, Page& page, const std::vector<ReferenceTable>& tables, const std::string& hand) {
    auto& html = page.main;
    if (const auto* table = table_named(tables, hand)) {  // its name was typed
        html.link(address("/catalog/tables", {{"table", table->name}}), "the whole table");
        return;
    }
    const auto found = find_rows(tables, in_hand(hand), table_rows_in_short);
    if (found.hits.empty())
        html.element(
            "p", fmt::format("{}: in no table that is loaded. Not in a table is not a no: sizes are made that stand "
                             "in none.",
                             hand));
    else if (found.near_only) html.element("p", "Nothing within what a calliper may be off; the nearest:");
    std::vector<ShownRow> rows;
    for (const auto& hit : found.hits) rows.push_back({hit.table, hit.row, hit.apart});
    write_table_rows(visit, page, rows, true);
    if (found.more > 0) html.element("p", "There are more: one more measure narrows it.");
}

void show_table(const Visit& visit, Page& page, const ReferenceTable& table) {
    const auto& meaning = table.shape->meaning;
    page.title = meaning.substr(0, meaning.find('.'));
    const auto stretch = stretch_of(visit, table.rows->size(), table_rows_a_page);
    std::vector<ShownRow> rows;
    for (auto i = stretch.from; i < stretch.to; ++i) rows.push_back({&table, &(*table.rows)[i], {}});
    write_table_rows(visit, page, rows, false);
    write_stretch(page.main, visit, stretch, table_rows_a_page);
}

void show_all(Page& page, const std::vector<ReferenceTable>& tables) {
    auto& html = page.main;
    if (tables.empty()) html.element("p", "No table is loaded.");
    const auto list = html.in("ul", {{"class", "links"}});
    for (const auto& table : tables) {
        const auto item = html.in("li");
        html.link(address("/catalog/tables", {{"table", table.name}}),
                  fmt::format("{} ({})", table.shape->meaning, table.rows->size()));
    }
}

void show_tables(Visit& visit, Page& page) {
    page.title = "Table book";
    const auto hand = visit.asked("hand"), table = visit.asked("table");
    page.trail = {{"/catalog", "Catalog"}};
    if (!hand.empty() || !table.empty()) page.trail.emplace_back("/catalog/tables", "Table book");
    if (table.empty()) write_form(page.main, visit, hand_form());
    const PackShape shape(visit.session.plugins());
    const auto tables = reference_tables(visit.session.catalog().facts(), shape);
    if (!hand.empty()) return show_hand(visit, page, tables, hand);
    if (table.empty()) return show_all(page, tables);
    const auto* named = table_named(tables, table);
    if (!named) throw Error(Exit::no_input, fmt::format("{}: no table of this name is loaded", table));
    show_table(visit, page, *named);
}

}  // namespace

std::vector<Route> table_routes() { return {{"/catalog/tables", "", show_tables}}; }

}  // namespace casebound
