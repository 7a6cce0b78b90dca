// `note`: one statement of somebody's becomes rows of the person's own pack, with who says so and how good that is: what
// goes where on a vehicle's line, or a row of any table. It is one source among others: nothing in other packs is changed.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/note_answer.h"
#include "core/commands/photos_given.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/json_of.h"
#include "core/session/typed_names.h"
#include "core/work/key_value_args.h"
#include "core/work/own_line.h"
#include "core/work/own_words.h"
#include "core/work/statement.h"

namespace casebound {

namespace {

const OptionSpec kind_option{"kind", "KIND",
                             "how good it is: maker, standard, law, measured, common-practice, memory (default)"};

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

bool of_table(const Args& args) { return args.words.size() > 2 && args.words[2].find('=') != std::string::npos; }

// A statement and its photos: the files first, then the pack, then at once the rows that say what they show.
Result written_with_photos(Session& session, const OwnFact& fact, const std::string& folder, const Args& args) {
    Result result;
    {
        Transaction writing(session.shop());
        GivenPhotos photos(session, args);
        session.close_catalog();
        OwnPackChange change(session, folder);
        const auto source = change.add(fact);
        const auto rows = change.finish();
        photos.show_statement(fact.vehicle, source);
        writing.commit();
        result = statement_written(session, fact, rows, folder);
        photos.say(result);
    }
    ShopPhotos(session.shop()).sweep();
    return result;
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
    if (args.has(photo_option.name)) return written_with_photos(session, fact, folder, args);
    session.close_catalog();
    return statement_written(session, fact, keep_fact(session, fact, folder), folder);
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
          photo_option,
          own_folder_option},
         run_note,
         "casebound note van pan-filter PF-33 --says \"the seller's list, 2026\" --where \"pan depth 38 mm\""}};
    for (auto& one : own_commands()) all.push_back(std::move(one));
    return all;
}

}  // namespace casebound
