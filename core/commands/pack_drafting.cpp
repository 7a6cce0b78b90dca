#include "core/commands/pack_drafting.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/replacement.h"
#include "core/ground/text_layout.h"
#include "core/pack/csv_rows.h"
#include "core/pack/pack.h"
#include "core/pack/pack_descriptor.h"
#include "core/say/json_of.h"
#include "core/work/list_cells.h"
#include "core/work/list_draft.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_mapping_bytes = 1 << 20;
constexpr std::size_t listed = 5;  // rows not taken that the answer shows; all are in the file

std::string folder_from(const Args& args) {
    std::string folder = args.words.at(1);
    while (folder.size() > 1 && folder.back() == '/') folder.pop_back();
    if (!is_pack_name(fs::path(folder).filename().string()))
        throw Error(Exit::usage,
                    fmt::format("{}: a pack's name: write at most 64 lower-case letters, digits, . _ -", folder));
    return folder;
}

std::optional<ListMapping> kept_mapping(const std::string& folder) {
    const auto path = folder + "/" + mapping_file;
    if (fs::exists(path)) return mapping_from(read_whole(path, most_mapping_bytes), path);
    if (fs::exists(folder) && !fs::is_empty(folder))
        throw Error(
            Exit::usage,
            fmt::format("{}: it is there already, and was not drafted from a list: name another folder", folder));
    return std::nullopt;
}

// "COLUMN=MEANING": the last sign, for a header may hold one itself.
std::pair<std::string, std::string> said_pair(const std::string& option, const std::string& typed) {
    const auto at = typed.rfind('=');
    if (at == std::string::npos || at == 0 || at + 1 == typed.size())
        throw Error(Exit::usage, fmt::format("--{} {}: write it as \"WHAT THE LIST SAYS=WHAT IT IS\"", option, typed));
    return {typed.substr(0, at), typed.substr(at + 1)};
}

void say_column(ListMapping& mapping, const std::string& column, const std::string& meaning) {
    const auto found = std::find_if(mapping.columns.begin(), mapping.columns.end(),
                                    [&](const auto& one) { return one.first == column; });
    if (found == mapping.columns.end()) {
        std::vector<std::string> names;
        for (const auto& [name, is] : mapping.columns) names.push_back(name);
        throw Error(Exit::usage,
                    fmt::format("--column {}: the list has no such column: it has {}", column, fmt::join(names, ", ")));
    }
    for (auto& [name, is] : mapping.columns)
        if (meaning != "-" && is == meaning) is = "-";  // one column is one thing
    found->second = meaning;
}

// Which line or kind is meant is seen when the rows are read; a word that is none of them is said there, row by row.
ListMapping said_by(const Args& args, ListMapping mapping, const Vocabularies& words) {
    for (const auto& typed : args.all("column")) {
        const auto [column, meaning] = said_pair("column", typed);
        require_meaning(meaning, words);
        say_column(mapping, column, meaning);
    }
    for (const auto& typed : args.all("word")) {
        const auto equals = typed.find('=');  // the first: what it is may be engine=2.2
        if (equals == std::string::npos || equals == 0 || equals + 1 == typed.size())
            throw Error(Exit::usage, fmt::format("--word {}: write it as \"THE LIST'S WORD=WHAT IT IS\"", typed));
        mapping.words[typed.substr(0, equals)] = typed.substr(equals + 1);
    }
    mapping.seller = args.option("seller", mapping.seller);
    mapping.decimal = args.option("decimal", mapping.decimal);
    mapping.kind = args.option("kind", mapping.kind);
    mapping.line = args.option("line", mapping.line);
    mapping.role = args.option("role", mapping.role);
    if (!mapping.kind.empty() && !words.item_kind(mapping.kind))
        throw Error(Exit::usage, fmt::format("--kind {}: no such item kind: casebound pack words", mapping.kind));
    if (!mapping.role.empty() && !words.role(mapping.role))
        throw Error(Exit::usage, fmt::format("--role {}: no such place: casebound pack words", mapping.role));
    return mapping;
}

bool has_meaning(const ListMapping& mapping, std::string_view meaning) {
    return std::any_of(mapping.columns.begin(), mapping.columns.end(),
                       [&](const auto& column) { return column.second == meaning; });
}

std::vector<StillOpen> to_be_said(const ListMapping& mapping, const DraftedList& draft) {
    std::vector<StillOpen> all;
    if (!has_meaning(mapping, "item")) all.push_back({"which column is the part number", "--column \"COLUMN=item\""});
    if (has_meaning(mapping, "price") && mapping.seller.empty()) all.push_back({"who sells", "--seller NAME"});
    if (draft.needs_decimal)
        all.push_back({"which sign stands before the cents", "--decimal comma, or --decimal point"});
    return all;
}

std::string meaning_words(const std::string& meaning, const Vocabularies& words) {
    for (const auto& [key, what] : column_meanings())
        if (key == meaning) return what;
    if (meaning.starts_with("pack ")) return fmt::format("how much one pack holds, in {}", meaning.substr(5));
    return words.attribute(meaning)->title;
}

std::string not_taken_text(const DraftedList& draft) {
    std::string out;
    for (std::size_t i = 0; i < draft.not_taken.size() && i < listed; ++i)
        out += wrapped(fmt::format("row {}{}: {}", draft.not_taken[i].row, draft.not_taken[i].partly ? ", in part" : "",
                                   draft.not_taken[i].why),
                       2, 4);
    if (draft.not_taken.size() > listed) out += fmt::format("  and {} more\n", draft.not_taken.size() - listed);
    return out;
}

std::string columns_text(const Drafting& drafting, const Vocabularies& words) {
    const auto sample = sample_of(*drafting.list);
    const auto below = std::find_if(sample.rows.begin(), sample.rows.end(),
                                    [&](const auto& row) { return row.first > drafting.mapping.header; });
    Table table({"column", "what it is", below == sample.rows.end() ? "" : fmt::format("row {}", below->first)});
    for (std::size_t i = 0; i < drafting.draft.header.size(); ++i)
        table.row({drafting.draft.header[i], meaning_words(drafting.mapping.of(drafting.draft.header[i]), words),
                   below != sample.rows.end() && i < below->second.size() ? below->second[i] : ""});
    return table.text();
}

std::string text_of(Session& session, const Drafting& drafting) {
    const auto& draft = drafting.draft;
    const auto& folder = drafting.folder;
    if (drafting.done)
        return fmt::format(
            "{}.\nWritten: {}, {}.offers.csv, {}.not-taken.csv\n{}Then: casebound pack load {}, and casebound offer "
            "load {}.offers.csv\n",
            counts_text(draft), folder, folder, folder, not_taken_text(draft), folder, folder);
    std::string out = wrapped(
                          fmt::format("{}; the header is in row {}{}{}", drafting.list->form(), drafting.mapping.header,
                                      drafting.mapping.decimal.empty() ? "" : ", decimal " + drafting.mapping.decimal,
                                      drafting.mapping.seller.empty() ? "" : ", sold by " + drafting.mapping.seller)) +
                      "\n" + columns_text(drafting, session.catalog().vocabularies()) + "\n" + counts_text(draft) +
                      ".\n";
    for (const auto& one : draft.shown) out += wrapped(one, 2, 4);
    if (!draft.not_taken.empty()) out += "Not taken:\n" + not_taken_text(draft);
    for (const auto& name : draft.unknown)
        out += wrapped(fmt::format("The column {} is new: it is left out, unless --column \"{}=...\" says what it is.",
                                   name, name));
    for (const auto& one : drafting.open) out += wrapped("Still to be said: " + one.text());
    return out +
           "Nothing is written yet. A column that is something else: --column \"COLUMN=WHAT\"; when all is right, the "
           "same with --confirm\n";
}

Json json_of(const Drafting& drafting) {
    const auto& draft = drafting.draft;
    auto json = document("pack-draft");
    json["folder"] = drafting.folder;
    json["form"] = drafting.list->form();
    json["header"] = drafting.mapping.header;
    json["seller"] = drafting.mapping.seller;
    json["decimal"] = drafting.mapping.decimal;
    json["columns"] = Json::array();
    for (const auto& name : draft.header)
        json["columns"].push_back({{"column", name}, {"is", drafting.mapping.of(name)}});
    json["rows"] = draft.rows;
    json["parts"] = draft.item_count;
    json["claims"] = draft.claim_count;
    json["offers"] = draft.offer_count;
    json["becomes"] = draft.shown;
    json["not_taken"] = Json::array();
    for (const auto& one : draft.not_taken)
        json["not_taken"].push_back({{"row", one.row}, {"part", one.part}, {"why", one.why}, {"in_part", one.partly}});
    json["to_be_said"] = Json::array();
    for (const auto& one : drafting.open) json["to_be_said"].push_back({{"what", one.what}, {"option", one.option}});
    json["new_columns"] = draft.unknown;
    json["done"] = drafting.done;
    return json;
}

std::string not_taken_file(const DraftedList& draft) {
    std::string text = "row,part,why,taken_in_part";
    for (const auto& name : draft.header) text += "," + csv_cell(name);
    for (const auto& one : draft.not_taken) {
        text += fmt::format("\n{},{},{},{}", one.row, csv_cell(one.part), csv_cell(one.why), one.partly ? "yes" : "no");
        for (const auto& cell : one.cells) text += "," + csv_cell(cell);
    }
    return text + "\n";
}

void write(Session& session, const Drafting& drafting, const std::string& path) {
    const auto& draft = drafting.draft;
    const PackShape shape(session.plugins());
    NewFolder made(drafting.folder, NewFolder::Begin::copy);
    const auto put = [&](const char* table, const std::string& rows) {
        const auto& found = *shape.find(table);
        made.write(found.file(), fmt::format("{}\n{}", fmt::join(found.column_names(), ","), rows));
    };
    const auto name = fs::path(drafting.folder).filename().string();
    const auto who = drafting.mapping.seller.empty() ? std::string("a seller") : drafting.mapping.seller;
    put("sources",
        fmt::format(
            "list-{},memory,{},{},{}\n", name,
            csv_cell(fmt::format("list of {}, {}", who, fs::path(path).filename().string())), today(),
            csv_cell(fmt::format("as the list says it, checked by nobody; sha256 {}", drafting.list->stamp().sha256))));
    put("items", draft.items);
    put("groups", draft.groups);
    put("group_members", draft.members);
    put("applications", draft.applications);
    made.write(mapping_file, mapping_text(drafting.mapping));
    new_pack(made.path(), name, session.plugins());
    replace_file(drafting.folder + ".offers.csv", "seller,item,price,available,days,core\n" + draft.offers);
    replace_file(drafting.folder + ".not-taken.csv", not_taken_file(draft));
    made.change_places();
}

// In another edition the header may stand in another row, and its columns in another order.
unsigned long header_in(const ListSample& sample, const ListMapping& mapping, const std::string& path) {
    std::vector<std::string> fewest_missing;
    for (const auto& [line, cells] : sample.rows) {
        std::vector<std::string> missing;
        for (const auto& [name, meaning] : mapping.columns)
            if (meaning != "-" && std::find(cells.begin(), cells.end(), name) == cells.end()) missing.push_back(name);
        if (missing.empty()) return line;
        if (fewest_missing.empty() || missing.size() < fewest_missing.size()) fewest_missing = std::move(missing);
    }
    throw Error(
        Exit::bad_data,
        fmt::format("{}: the column {} of the edition before is not in it: take {} away, and confirm the columns anew",
                    path, fmt::join(fewest_missing, ", "), mapping_file));
}

}  // namespace

std::string counts_text(const DraftedList& draft) {
    return fmt::format("{}: {}, {} of what they fit, {}; {} not taken", plural(draft.rows, "row"),
                       plural(draft.item_count, "part"), plural(draft.claim_count, "claim"),
                       plural(draft.offer_count, "offer"), plural(draft.not_taken.size(), "row"));
}

std::string StillOpen::text() const { return fmt::format("{}: {}", what, option); }

Drafting drafting_of(Session& session, const Args& args) {
    const auto& path = args.words.at(0);
    Drafting drafting;
    drafting.folder = folder_from(args);
    auto kept = kept_mapping(drafting.folder);
    const auto sheet = args.option("sheet", kept ? kept->sheet : "");
    drafting.list = std::make_unique<const ListFile>(path, sheet);
    const auto& words = session.catalog().vocabularies();
    const auto sample = sample_of(*drafting.list);
    if (sample.rows.empty()) throw Error(Exit::bad_data, fmt::format("{}: nothing stands in it", path));
    if (kept) kept->header = header_in(sample, *kept, path);
    auto& mapping = drafting.mapping = said_by(args, kept ? *kept : proposed(sample, words), words);
    mapping.sheet = sheet;
    drafting.draft = drafted(session, *drafting.list, mapping, fs::path(drafting.folder).filename().string());
    drafting.open = to_be_said(mapping, drafting.draft);
    const bool as_before = kept && *kept == mapping && drafting.draft.unknown.empty();
    if (args.has("confirm") && !drafting.open.empty()) {
        std::vector<std::string> faults;
        for (const auto& one : drafting.open) faults.push_back("pack draft: still to be said: " + one.text());
        throw Error(Exit::usage, std::move(faults));
    }
    drafting.done = !args.has("preview") && drafting.open.empty() && (as_before || args.has("confirm"));
    if (!drafting.done) return drafting;
    for (const auto& name : drafting.draft.unknown) mapping.columns.emplace_back(name, "-");
    write(session, drafting, path);
    return drafting;
}

Result run_pack_draft(Session& session, const Args& args) {
    const auto drafting = drafting_of(session, args);
    const auto exit = drafting.done && drafting.draft.not_taken.empty() ? Exit::yes : Exit::cannot_tell;
    return {exit, session.json() ? json_text(json_of(drafting)) : text_of(session, drafting)};
}

}  // namespace casebound
