// `tables`: the table book. Each table stands as one, with the source of every row; a row is found by what is in the hand.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/say/table_words.h"
#include "core/session/command.h"
#include "core/verdict/reference_tables.h"

namespace casebound {

namespace {

constexpr std::size_t rows_whole = 40;

Json json_of_row(const Catalog& catalog, const ReferenceTable& table, const Row& row,
                 const std::vector<std::string>& apart) {
    Json cells = Json::object();
    for (const auto& cell : row.cells)
        if (cell.column != "source" && !cell.text.empty()) cells[cell.column] = cell.text;
    return {{"table", table.name},
            {"cells", cells},
            {"words", row_words(catalog, table, row)},
            {"apart", apart},
            {"row", json_of(row.origin)}};
}

Json json_of_table(const ReferenceTable& table) {
    return {{"table", table.name},
            {"domain", table.shape->owner},
            {"meaning", table.shape->meaning},
            {"rows", table.rows->size()}};
}

Result answered(Session& session, Exit exit, const std::vector<ReferenceTable>& tables, const Json& rows,
                std::size_t more, bool near_only, std::string text) {
    if (!session.json()) return {exit, std::move(text)};
    auto json = document("tables");
    json["tables"] = Json::array();
    for (const auto& table : tables) json["tables"].push_back(json_of_table(table));
    json["rows"] = rows;
    json["more"] = more;
    json["near_only"] = near_only;
    return {exit, json_text(json)};
}

std::string heading(const ReferenceTable& table) {
    return wrapped(fmt::format("{} ({})", table.shape->meaning, table.name), 0, 2);
}

Result all_tables(Session& session, const std::vector<ReferenceTable>& tables) {
    Table shown({"table", "rows", "what it is"}, 0);
    for (const auto& table : tables) shown.row({table.name, std::to_string(table.rows->size()), table.shape->meaning});
    const auto text = tables.empty() ? "No table is loaded: casebound pack load --reference\n"
                                     : shown.text() +
                                           "One of them: casebound tables TABLE. A row by what is in the "
                                           "hand: casebound tables 25 x 32 x 7\n";
    return answered(session, tables.empty() ? Exit::no : Exit::yes, tables, Json::array(), 0, false, text);
}

Result one_table(Session& session, const ReferenceTable& table) {
    auto text = heading(table);
    Json rows = Json::array();
    const auto most = session.full() || session.json() ? table.rows->size() : rows_whole;
    std::string source;
    for (std::size_t i = 0; i < table.rows->size(); ++i) {
        const auto& row = (*table.rows)[i];
        if (session.json()) rows.push_back(json_of_row(session.catalog(), table, row, {}));
        if (i >= most) continue;
        text += wrapped(row_words(session.catalog(), table, row), 2, 4);
        if (auto here = source_text(row.origin); session.full() || row.origin.source != source) {
            text += wrapped(here, 4, 6);
            source = row.origin.source;
        }
    }
    if (table.rows->size() > most) text += fmt::format("  and {} more: --full\n", table.rows->size() - most);
    return answered(session, Exit::yes, {table}, rows, 0, false, text);
}

Result found(Session& session, const std::vector<ReferenceTable>& tables, const std::string& typed) {
    const auto hand = in_hand(typed);
    const auto found = find_rows(tables, hand, session.full() ? any_number : table_rows_in_short);
    std::string text;
    if (found.hits.empty())
        text = wrapped(
            fmt::format(
                "{}: in no table that is loaded. Not in a table is not a no: sizes are made that no "
                "standard lists.{}",
                typed,
                found.not_known.empty() ? "" : fmt::format(" No table knows {}.", fmt::join(found.not_known, ", "))),
            0, 2);
    else if (found.near_only) text = "Nothing within what a calliper may be off; the nearest:\n";
    Json rows = Json::array();
    const ReferenceTable* before = nullptr;
    for (const auto& hit : found.hits) {
        if (hit.table != before) text += heading(*hit.table);
        before = hit.table;
        text += wrapped(row_words(session.catalog(), *hit.table, *hit.row), 2, 4);
        if (!hit.apart.empty()) text += wrapped(fmt::format("{}", fmt::join(hit.apart, "; ")), 4, 6);
        text += wrapped(source_text(hit.row->origin), 4, 6);
        rows.push_back(json_of_row(session.catalog(), *hit.table, *hit.row, hit.apart));
    }
    if (found.more) text += fmt::format("and {} more: --full, or one more measure\n", found.more);
    const bool none = found.hits.empty() || found.near_only;
    return answered(session, none ? Exit::no : Exit::yes, {}, rows, found.more, found.near_only, text);
}

Result run_tables(Session& session, const Args& args) {
    const PackShape shape(session.plugins());
    const auto tables = reference_tables(session.catalog().facts(), shape);
    if (args.words.empty()) return all_tables(session, tables);
    const auto typed = fmt::format("{}", fmt::join(args.words, " "));
    if (const auto* table = table_named(tables, typed)) return one_table(session, *table);
    return found(session, tables, typed);
}

}  // namespace

std::vector<Command> table_commands() {
    return {{"tables",
             "[TABLE|WORDS...]",
             "the table book: sizes, classes, grades and codes, each with its source; a row by what is in the hand: "
             "25 x 32 x 7, or ring, 3.5 section, 25 inside",
             0,
             any_number,
             {},
             run_tables,
             "casebound tables 25 x 32 x 7"}};
}

}  // namespace casebound
