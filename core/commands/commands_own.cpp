// What the own pack holds, statement by statement: shown, said anew, withdrawn.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "core/commands/note_answer.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/say/vehicle_text.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_vehicles.h"
#include "core/work/key_value_args.h"
#include "core/work/own_line.h"
#include "core/work/own_words.h"

namespace casebound {

namespace {

std::string vehicle_of(const OwnStatement& one) {
    const auto plus = one.source.find('+');
    auto name = plus == std::string::npos ? std::string() : one.source.substr(plus + 1);
    for (int part = 0; part < 2; ++part) name.erase(std::min(name.rfind('-'), name.size()));
    return name;
}

Json json_of(const OwnStatement& one) {
    Json json{{"statement", one.number}, {"source", one.source}, {"kind", one.kind},
              {"title", one.title},      {"date", one.edition},  {"stands", one.stands()}};
    json["rows"] = Json::array();
    for (const auto& row : one.rows) {
        Json cells = Json::object();
        for (const auto& [column, text] : row.cells)
            if (!text.empty()) cells[column] = text;
        json["rows"].push_back({{"file", row.table + ".csv"}, {"line", row.line}, {"cells", cells}});
    }
    json["changes"] = Json::array();
    for (const auto& change : one.changes)
        json["changes"].push_back({{"date", change.date},
                                   {"what", change.what},
                                   {"table", change.table},
                                   {"row", row_words(change.row)},
                                   {"why", change.why}});
    return json;
}

std::string statement_text(Session& session, const OwnStatement& one, bool full) {
    const auto& catalog = session.catalog();
    std::string out;
    const auto* main = one.main() ? one.main() : one.brought();
    if (!main && !one.rows.empty()) main = &one.rows.front();
    out += wrapped(fmt::format("{}  {}{}", one.number, one.stands() ? "" : "WITHDRAWN: ",
                               main ? statement_words(catalog, main->table, main->cells) : "no row stands"),
                   0, 4);
    out += wrapped(fmt::format("says {} ({}), {}", one.title, evidence_words(evidence_from(one.kind)), one.edition), 4,
                   6);
    for (const auto& row : one.rows)
        if (full) out += wrapped(fmt::format("{}.csv:{}", row.table, row.line), 4, 6);
    out += photos_text(ShopPhotos(session.shop()).of_statement(one.source), 4);
    for (const auto& change : one.changes) {
        const bool in_sight = main && change.table == main->table && row_words(change.row) == row_words(main->cells);
        out += wrapped(
            fmt::format("{} {}: {}{}", change.date, change.what,
                        in_sight ? "" : statement_words(catalog, change.table, change.row) + ": ", change.why),
            4, 6);
    }
    return out;
}

Result run_own_show(Session& session, const Args& args) {
    const auto folder = args.option("pack-folder", own_pack_folder(session));
    const PackShape shape(session.plugins());
    const auto* table = args.words.empty() ? nullptr : table_meant(shape, args.words[0]);
    if (!args.words.empty() && !table) no_such_table(shape, args.words[0], "VEHICLE");
    auto all = own_statements(session, folder);
    std::erase_if(all, [&](const OwnStatement& one) {
        const auto about = [&](const auto& row) { return row.table == table->name; };
        return table && std::none_of(one.rows.begin(), one.rows.end(), about) &&
               std::none_of(one.changes.begin(), one.changes.end(), about);
    });
    if (session.json()) {
        auto json = document("own");
        json["pack"] = folder;
        json["statements"] = Json::array();
        for (const auto& one : all) json["statements"].push_back(json_of(one));
        return {Exit::yes, json_text(json)};
    }
    if (all.empty()) return {Exit::yes, "Nothing is written down yet: casebound note VEHICLE PLACE PART --says WHO\n"};
    std::string out;
    for (const auto& one : all) out += statement_text(session, one, session.full());
    return {Exit::yes, out};
}

Result run_own_tables(Session& session, const Args& args) {
    const PackShape shape(session.plugins());
    auto json = document("own-tables");
    json["tables"] = Json::array();
    Table table({"table", "what a row says"});
    for (const auto* one : tables_with_source(shape)) {
        const auto& part = args.words.empty() ? std::string() : args.words[0];
        if (one->name.find(part) == std::string::npos && one->meaning.find(part) == std::string::npos) continue;
        table.row({one->name, one->meaning});
        Json columns = Json::array();
        for (const auto& column : one->columns)
            columns.push_back({{"column", column.name}, {"needed", column.required}, {"meaning", column.meaning}});
        json["tables"].push_back({{"table", one->name}, {"meaning", one->meaning}, {"columns", columns}});
    }
    if (session.json()) return {Exit::yes, json_text(json)};
    return {Exit::yes, table.text() + "The columns of one: casebound note VEHICLE TABLE\n"};
}

// The vehicle that a statement was made about; what it says holds for the line.
std::string vehicle_for(Session& session, const OwnStatement& one, const Args& args) {
    if (args.has("for")) return session.vehicle(args.option("for")).name;
    for (const auto& vehicle : ShopVehicles(session.shop()).all())
        if (vehicle.name == vehicle_of(one)) return vehicle.name;
    throw Error(Exit::usage, fmt::format("statement {}: its vehicle is not on file any more: name one of the same "
                                         "line: --for VEHICLE",
                                         one.number));
}

std::string now_text(Session& session, const std::string& vehicle, const OwnRow* row) {
    const auto role = row ? row->text("role") : "";
    if (role.empty()) return "";
    const auto situation = session.situation(vehicle);
    const auto answer = situation->places().role(role);
    return wrapped(fmt::format("{} on {} now: {}.", answer.title, vehicle, capitalised(verdict_words(answer.verdict))),
                   0, 2);
}

Result changed(Session& session, const std::string& folder, const std::string& number, std::string text) {
    if (!session.json()) return {Exit::yes, std::move(text)};
    auto json = document("own");
    json["pack"] = folder;
    json["statements"] = Json::array({json_of(own_statement(session, folder, number))});
    return {Exit::yes, json_text(json)};
}

Result run_own_withdraw(Session& session, const Args& args) {
    const auto folder = args.option("pack-folder", own_pack_folder(session));
    const auto one = own_statement(session, folder, args.words.at(0));
    session.close_catalog();
    OwnPackChange change(session, folder);
    change.withdraw(one.source, args.option("why", "withdrawn by who wrote it down"));
    change.finish();
    auto text = wrapped(fmt::format("Statement {} is withdrawn; it stays in the history.", one.number), 0, 2);
    if (!vehicle_of(one).empty() && !session.json())
        for (const auto& vehicle : ShopVehicles(session.shop()).all())
            if (vehicle.name == vehicle_of(one)) text += now_text(session, vehicle.name, one.main());
    return changed(session, folder, args.words[0], std::move(text));
}

// The column is a word of the part that the statement brought, not of the statement.
bool of_item(const OwnStatement& one, const std::string& column) {
    return one.brought() && (column == "title" || column == "pack_quantity") &&
           (!one.main() || one.main()->text(column).empty());
}

Result run_own_correct(Session& session, const Args& args) {
    const auto folder = args.option("pack-folder", own_pack_folder(session));
    const auto one = own_statement(session, folder, args.words.at(0));
    OwnCells cells, words;
    for (std::size_t i = 1; i < args.words.size(); ++i) {
        const auto& typed = args.words[i];
        const auto at = typed.find('=');  // nothing behind it takes the cell out
        if (at == std::string::npos || at == 0) throw Error(Exit::usage, fmt::format("{}: write COLUMN=VALUE", typed));
        auto& into = of_item(one, typed.substr(0, at)) ? words : cells;
        into.emplace_back(typed.substr(0, at), typed.substr(at + 1));
    }
    if (cells.empty() && words.empty() && !args.has("says") && !args.has("kind") && !args.has("where"))
        throw Error(Exit::usage,
                    "own correct: what is to read otherwise? Write COLUMN=VALUE, --where, --says or --kind");
    const auto why = args.option("why", "corrected");
    const bool anew = !cells.empty() || args.has("says") || args.has("kind") || args.has("where");
    OwnFact fact;
    if (anew) {
        const auto situation = session.situation(vehicle_for(session, one, args));
        fact = corrected_statement(session, *situation, one, cells,
                                   {args.option("says"), args.option("kind"),
                                    where_typed(session, args.option("where")), args.option("note"), "", ""});
        fact.note = fmt::format("corrects {}", one.source);
    }
    session.close_catalog();
    // What showed it shows it still.
    const auto photos = ShopPhotos(session.shop()).of_statement(one.source);
    std::optional<Transaction> writing;
    if (anew && !photos.empty()) writing.emplace(session.shop());
    OwnPackChange change(session, folder);
    for (const auto& [column, text] : words) change.reword_item(one.source, column, text);
    std::string source;
    if (anew) {
        change.withdraw(one.source, why);
        source = change.add(fact);
    }
    const auto rows = change.finish();
    if (writing) {
        ShopPhotos(session.shop()).shows_statement(photos, source);
        writing->commit();
        writing.reset();
    }
    if (anew) return statement_written(session, fact, rows, folder);
    return changed(session, folder, args.words[0], wrapped(fmt::format("Statement {} reads so now.", one.number)));
}

}  // namespace

std::vector<Command> own_commands() {
    return {{"own show",
             "[TABLE]",
             "what your own pack holds, statement by statement, and what was withdrawn",
             0,
             1,
             {own_folder_option},
             run_own_show,
             "casebound own show applications"},
            {"own tables",
             "[PART]",
             "what can be written down: every table that note takes",
             0,
             1,
             {},
             run_own_tables,
             "casebound own tables"},
            {"own correct",
             "NUMBER [COLUMN=VALUE...]",
             "say a statement anew; how it read before stays in the history. COLUMN= alone takes a cell out",
             1,
             any_number,
             {{"says", "WHO", "another source"},
              {"kind", "KIND", "how good it is"},
              {"where", "CONDITION", "where it holds"},
              {"why", "TEXT", "why it is corrected"},
              {"note", "TEXT", "what the bench should know"},
              {"for", "VEHICLE", "another vehicle of the same line"},
              own_folder_option},
             run_own_correct,
             "casebound own correct 3 group_key=PF-33 --why \"misread\""},
            {"own withdraw",
             "NUMBER",
             "a statement no longer counts; it stays in the history",
             1,
             1,
             {{"why", "TEXT", "why"}, own_folder_option},
             run_own_withdraw,
             "casebound own withdraw 3 --why \"it was another van\""}};
}

}  // namespace casebound
