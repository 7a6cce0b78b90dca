// `note`: one statement of somebody's becomes rows of the person's own pack, with who says so and how good that is: what
// goes where on a vehicle's line, or a row of any table. It is one source among others: nothing in other packs is changed.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/session/typed_names.h"
#include "core/work/key_value_args.h"
#include "core/work/own_line.h"
#include "core/work/own_words.h"
#include "core/work/statement.h"

namespace casebound {

namespace {

// "pan depth 38 mm" as well as "pan_depth=38mm"; what compares is the condition language already.
std::string where_typed(Session& session, const std::string& typed) {
    if (typed.find_first_of("=<>") != std::string::npos) return typed;
    std::vector<std::string> words;
    for (std::size_t from = 0; from < typed.size();) {
        const auto end = std::min(typed.find_first_of(" ;", from), typed.size());
        if (end > from) words.push_back(typed.substr(from, end - from));
        from = end + 1;
    }
    return fmt::format("{}", fmt::join(tellings_typed(session.catalog().vocabularies(), words), "; "));
}

Saying saying_in(Session& session, const Args& args) {
    return {args.option("says"), args.option("kind", "memory"), where_typed(session, args.option("where")),
            args.option("note"), args.option("title"),          args.option("pack")};
}

// Every fault of what is said, beside those of who says it.
OwnFact place_fact(Session& session, const Situation& situation, const Args& args) {
    const PlaceSaid said{args.words.at(1), args.words.at(2), !args.has("does-not-fit"), args.option("quantity")};
    return place_statement(session, situation, said, saying_in(session, args));
}

OwnFact table_fact(Session& session, const Situation& situation, const TableShape& table, const Args& args) {
    OwnCells cells;
    for (std::size_t i = 2; i < args.words.size(); ++i) cells.push_back(key_value_arg(args.words[i]));
    if (const auto quantity = args.option("quantity"); !quantity.empty()) cells.emplace_back("quantity", quantity);
    return table_statement(session, situation, table.name, cells, saying_in(session, args));
}

std::string text_of(const OwnFact& fact, std::string_view column) {
    for (const auto& [name, text] : fact.rows.back().second)
        if (name == column) return text;
    return {};
}

// What a table takes, for somebody who has not typed it yet.
std::string columns_text(const TableShape& table, const std::string& vehicle) {
    std::string out = wrapped(fmt::format("{}: {}", table.name, table.meaning), 0, 2);
    Table columns({"column", "", "what it says"});
    for (const auto& column : table.columns) {
        if (column.name == "source") continue;
        columns.row({column.name, column.required ? "needed" : "", column.meaning});
        if (!column.choices.empty()) columns.under(fmt::format("one of {}", fmt::join(column.choices, ", ")));
    }
    return out + columns.text() +
           wrapped(fmt::format("casebound note {} {} COLUMN=VALUE... --says WHO", vehicle, table.name), 0, 2);
}

std::string written_text(Session& session, const Situation& situation, const OwnFact& fact) {
    const auto says = fmt::format("says {} ({})", fact.title, evidence_words(evidence_from(fact.kind)));
    const auto& [table, cells] = fact.rows.back();
    if (table != "applications")
        return fmt::format("Written down, {}; {}.", statement_words(session.catalog(), table, cells), says);
    const auto condition = text_of(fact, "condition"), group = text_of(fact, "group_key");
    const auto where = condition.empty() ? std::string("on all of them")
                                         : "where " + condition_words(condition, situation.model().set);
    const auto* role = session.catalog().vocabularies().role(text_of(fact, "role"));
    return fmt::format("Written down: {}: {}{}, {}; {}.", role->title,
                       group.empty()               ? "none needed"
                       : group.starts_with("own-") ? group.substr(4)
                                                   : group,
                       text_of(fact, "says") == "does_not_fit" ? " does not fit" : "", where, says);
}

std::size_t number_of(Session& session, const std::string& folder) { return own_statements(session, folder).size(); }

Result written(Session& session, const OwnFact& fact, const OwnRows& rows, const std::string& folder) {
    const auto situation = session.situation(fact.vehicle);
    const auto role = text_of(fact, "role");
    const auto number = number_of(session, folder);
    if (session.json()) {
        auto json = document("note");
        json["statement"] = number;
        json["pack"] = folder;
        json["rows"] = Json::array();
        for (const auto& [file, row] : rows)
            json["rows"].push_back({{"file", file}, {"row", row.substr(0, row.size() - 1)}});
        if (!role.empty()) json["verdict"] = verdict_name(situation->places().role(role).verdict);
        return {Exit::yes, json_text(json)};
    }
    auto out = wrapped(written_text(session, *situation, fact), 0, 2);
    if (!role.empty()) {
        const auto answer = situation->places().role(role);
        out += wrapped(
            fmt::format("{} on {} now: {}.", answer.title, fact.vehicle, capitalised(verdict_words(answer.verdict))), 0,
            2);
        for (const auto& text : amounts_missing(session.catalog(), fact.rows.back().second)) out += wrapped(text, 0, 2);
    }
    return {Exit::yes,
            out + wrapped(fmt::format("It is statement {0} of {1}. Wrong? casebound own correct {0} COLUMN=VALUE, or "
                                      "casebound own withdraw {0}",
                                      number, folder),
                          0, 2)};
}

bool of_table(const Args& args) { return args.words.size() > 2 && args.words[2].find('=') != std::string::npos; }

[[noreturn]] void no_such_table(const PackShape& shape, const std::string& typed, const std::string& vehicle) {
    std::vector<std::string> names;
    for (const auto* table : tables_with_source(shape)) names.push_back(table->name);
    const auto near = nearest(typed, names);
    throw Error(Exit::usage,
                fmt::format("{}: {}", typed,
                            near.empty() ? fmt::format("write a place and a part, such as casebound note {} "
                                                       "pan-filter PF-33, or a table of casebound own tables",
                                                       vehicle)
                                         : fmt::format("no such table: did you mean {}?", near)));
}

Result run_note(Session& session, const Args& args) {
    const auto name = args.words.at(0);
    auto situation = session.situation(name);
    const PackShape shape(session.plugins());
    const bool place = args.words.size() > 2 && !of_table(args);
    const auto* table = place ? nullptr : table_meant(shape, args.words.at(1));
    if (!place && !table) no_such_table(shape, args.words[1], name);
    if (!place && args.words.size() == 2) return {Exit::cannot_tell, columns_text(*table, name)};
    if (place && args.words.size() > 3)
        throw Error(Exit::usage, fmt::format("{}: one place and one part at a time; a part number with blanks stands "
                                             "between quotes",
                                             args.words[3]));
    const auto fact = place ? place_fact(session, *situation, args) : table_fact(session, *situation, *table, args);
    const auto folder = args.option("pack-folder", own_pack_folder(session));
    situation.reset();
    session.close_catalog();
    const auto rows = keep_fact(session, fact, folder);
    return written(session, fact, rows, folder);
}

// ---- what the own pack holds

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

std::string statement_text(const Catalog& catalog, const OwnStatement& one, bool full) {
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
    for (const auto& one : all) out += statement_text(session.catalog(), one, session.full());
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
    OwnPackChange change(session, folder);
    for (const auto& [column, text] : words) change.reword_item(one.source, column, text);
    if (anew) {
        change.withdraw(one.source, why);
        change.add(fact);
    }
    const auto rows = change.finish();
    if (anew) return written(session, fact, rows, folder);
    return changed(session, folder, args.words[0], wrapped(fmt::format("Statement {} reads so now.", one.number)));
}

const OptionSpec folder_option{"pack-folder", "FOLDER", "another pack of your own"};
const OptionSpec kind_option{"kind", "KIND",
                             "how good it is: maker, standard, law, measured, common-practice, memory (default)"};

std::vector<Command> own_commands() {
    return {{"own show",
             "[TABLE]",
             "what your own pack holds, statement by statement, and what was withdrawn",
             0,
             1,
             {folder_option},
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
              folder_option},
             run_own_correct,
             "casebound own correct 3 group_key=PF-33 --why \"misread\""},
            {"own withdraw",
             "NUMBER",
             "a statement no longer counts; it stays in the history",
             1,
             1,
             {{"why", "TEXT", "why"}, folder_option},
             run_own_withdraw,
             "casebound own withdraw 3 --why \"it was another van\""}};
}

}  // namespace

std::vector<Command> note_commands() {
    std::vector<Command> all{
        {"note",
         "VEHICLE PLACE PART|none --says WHO | VEHICLE TABLE COLUMN=VALUE... --says WHO",
         "write down what somebody says, as a row of your own pack: what fits a place of the vehicle, or a row of any "
         "table (own tables); VEHICLE TABLE alone shows its columns",
         2,
         any_number,
         {{"says", "WHO", "who says so: title, edition, page, or a person's list and its date"},
          kind_option,
          {"where", "CONDITION", "only where, such as pan depth 38 mm; without it, on all of the line"},
          {"does-not-fit", "", "it says that the part does not fit"},
          {"quantity", "NUMBER", "how much the place takes, in the unit of its kind"},
          {"title", "TEXT", "what is on the label of a part that no pack has"},
          {"pack", "NUMBER", "how much one pack of it holds"},
          {"note", "TEXT", "what the bench should know"},
          folder_option},
         run_note,
         "casebound note van pan-filter PF-33 --says \"the seller's list, 2026\" --where \"pan depth 38 mm\""}};
    for (auto& one : own_commands()) all.push_back(std::move(one));
    return all;
}

}  // namespace casebound
