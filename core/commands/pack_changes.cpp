#include "core/commands/pack_changes.h"

#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/confirmed.h"
#include "core/ground/outlet.h"
#include "core/ground/text_layout.h"
#include "core/pack/catalog_file.h"
#include "core/pack/edition_damage.h"
#include "core/pack/pack.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_edition.h"
#include "core/pack/pack_workbook.h"
#include "core/say/json_of.h"
#include "core/work/list_changes.h"

namespace casebound {

namespace {

constexpr std::size_t most_rows = 40;  // of one kind in one table; --full shows all

std::string row_text(const TableShape& shape, const EditionRow& row) {
    std::vector<std::string> cells;
    for (std::size_t i = 0; i < row.cells.size(); ++i)
        if (!row.cells[i].empty() && shape.columns[i].name != "source") cells.push_back(row.cells[i]);
    return fmt::format("{}:{}: {}", shape.file(), row.line, fmt::join(cells, ", "));
}

std::string changed_text(const TableShape& shape, const ChangedRow& row) {
    std::vector<std::string> cells;
    for (const auto& cell : row.cells)
        cells.push_back(fmt::format("{}: {} now {}", shape.columns[cell.column].name,
                                    cell.before.empty() ? "(empty)" : cell.before,
                                    cell.after.empty() ? "(empty)" : cell.after));
    return fmt::format("{}; {}", row_text(shape, *row.before), fmt::join(cells, "; "));
}

std::string rows_text(const std::vector<TableChanges>& all, bool full) {
    std::string out;
    for (const auto& table : all) {
        const auto some = [&](const auto& rows, std::string_view mark, auto text) {
            for (std::size_t i = 0; i < rows.size() && (full || i < most_rows); ++i)
                out += wrapped(fmt::format("{} {}", mark, text(rows[i])), 2, 6);
            if (!full && rows.size() > most_rows)
                out += fmt::format("  {} and {} more: --full\n", mark, rows.size() - most_rows);
        };
        out += fmt::format("{}: {} came, {} went, {} changed\n", table.shape->name, table.came.size(),
                           table.went.size(), table.changed.size());
        some(table.came, "+", [&](const auto* row) { return row_text(*table.shape, *row); });
        some(table.went, "-", [&](const auto* row) { return row_text(*table.shape, *row); });
        some(table.changed, "~", [&](const auto& row) { return changed_text(*table.shape, row); });
    }
    return out.empty() ? "No row differs.\n" : out;
}

Json json_of(const std::vector<TableChanges>& all) {
    Json tables = Json::array();
    for (const auto& table : all) {
        Json one{
            {"table", table.shape->name}, {"came", Json::array()}, {"went", Json::array()}, {"changed", Json::array()}};
        for (const auto* row : table.came) one["came"].push_back({{"line", row->line}, {"cells", row->cells}});
        for (const auto* row : table.went) one["went"].push_back({{"line", row->line}, {"cells", row->cells}});
        for (const auto& row : table.changed) {
            Json cells = Json::array();
            for (const auto& cell : row.cells)
                cells.push_back({{"column", table.shape->columns[cell.column].name},
                                 {"before", cell.before},
                                 {"after", cell.after}});
            one["changed"].push_back({{"before", row.before->line}, {"after", row.after->line}, {"cells", cells}});
        }
        tables.push_back(one);
    }
    return tables;
}

Json json_of(const std::vector<PlaceChange>& changes) {
    Json all = Json::array();
    for (const auto& one : changes)
        all.push_back({{"vehicle", one.vehicle},
                       {"role", one.role},
                       {"title", one.title},
                       {"jobs", one.jobs},
                       {"before", {{"verdict", one.before.verdict}, {"parts", one.before.parts}}},
                       {"after", {{"verdict", one.after.verdict}, {"parts", one.after.parts}}}});
    return all;
}

// The name that a folder's descriptor, or a workbook's first sheet, gives the pack.
std::string name_in(const std::string& pack) {
    FaultList faults;
    const auto descriptor = is_pack_workbook(pack) ? PackBook(pack).descriptor(faults) : read_descriptor(pack, faults);
    return descriptor ? descriptor->name : "";
}

PackEdition loaded(Session& session, const std::string& name, const PackShape& shape) {
    if (!std::filesystem::exists(session.options().catalog)) return {name, {}};
    finish_interrupted_load(session.options().catalog);
    return edition_loaded(open_catalog_file(session.options().catalog, Database::Mode::read_only), name, shape);
}

bool is_there(const std::string& pack) {
    return std::filesystem::is_directory(pack) || (is_pack_workbook(pack) && std::filesystem::exists(pack));
}

// A folder, a workbook, or the name of a pack that is loaded.
PackEdition edition_of(Session& session, const std::string& word, const PackShape& shape) {
    if (is_there(word)) return edition_in(word, shape);
    for (const auto& pack : list_packs(session.options().catalog))
        if (pack.name == word) return loaded(session, word, shape);
    throw Error(
        Exit::no_input,
        fmt::format("{}: neither a folder, a workbook nor a pack that is loaded: see casebound pack list", word));
}

constexpr std::uintmax_t most_compared_bytes = 128u << 20;  // both editions are held in memory

bool can_be_compared(const std::string& folder) {
    std::uintmax_t bytes = 0;
    std::error_code ignored;
    constexpr std::uintmax_t packed = 8;  // what a workbook holds is about as many times larger
    if (is_pack_workbook(folder)) return std::filesystem::file_size(folder, ignored) <= most_compared_bytes / packed;
    for (const auto& file : std::filesystem::directory_iterator(folder, ignored))
        if (file.path().extension() == ".csv") bytes += std::filesystem::file_size(file.path(), ignored);
    return bytes <= most_compared_bytes;
}

void load_into(Session& session, const std::vector<std::string>& folders, const std::string& catalog) {
    for (const auto& folder : folders) {
        const auto report = load_pack(folder, catalog, session.plugins());
        std::vector<std::string> faults;
        for (const auto& fault : report.faults) faults.push_back(fault.text());
        if (!faults.empty()) throw Error(Exit::bad_data, faults);
    }
}

}  // namespace

void add_damage(Session& session, const std::string& folder, const std::vector<std::string>& meant,
                PackReport& report) {
    if (!is_there(folder)) return;
    if (!can_be_compared(folder)) {
        print_message(fmt::format("note: {}: too large to be compared with the edition that is loaded\n", folder));
        return;
    }
    const PackShape shape(session.plugins());
    PackEdition now;
    try {
        now = edition_in(folder, shape);
    } catch (const Error&) { return; }  // it cannot be read: the check says where
    const auto before = loaded(session, name_in(folder), shape);
    Vocabularies words;
    for (const auto& domain : session.plugins().domains) words.add(domain.vocabulary, domain.name);
    auto faults = damage_since(before, now);
    for (auto& fault : damage_alone(before, now, words)) faults.push_back(std::move(fault));
    auto notes = zeros_lost(now);
    if (is_pack_workbook(folder)) {
        place_in_workbook(faults, folder);
        place_in_workbook(notes, folder);
    }
    leave_out_meant(faults, meant);
    report.faults.insert(report.faults.end(), faults.begin(), faults.end());
    for (auto& note : notes) report.warnings.push_back(std::move(note));
}

std::string since_loaded(Session& session, const std::string& folder) {
    if (!can_be_compared(folder)) return {};
    const PackShape shape(session.plugins());
    const auto before = loaded(session, name_in(folder), shape);
    if (before.tables.empty()) return {};
    const auto now = edition_in(folder, shape);
    return "Sealed, against the edition that is loaded:\n" + rows_text(changes_between(before, now), session.full());
}

Json json_of(const PackSummary& summary) {
    Json json{{"name", summary.name},
              {"title", summary.title},
              {"version", summary.version},
              {"folder", summary.folder},
              {"invented", summary.invented}};
    json["rows"] = Json::object();
    for (const auto& [table, count] : summary.rows) json["rows"][table] = count;
    return json;
}

Result run_pack_diff(Session& session, const Args& args) {
    const PackShape shape(session.plugins());
    const auto before = edition_of(session, args.words.at(0), shape),
               after = edition_of(session, args.words.at(1), shape);
    const auto changes = changes_between(before, after);
    const auto exit = changes.empty() ? Exit::yes : Exit::no;
    if (!session.json()) return {exit, rows_text(changes, session.full())};
    auto json = document("pack-diff");
    json["tables"] = json_of(changes);
    return {exit, json_text(json)};
}

Result run_pack_preview(Session& session, const Args& args) {
    const PackShape shape(session.plugins());
    std::string out;
    auto json = document("pack-preview");
    json["packs"] = Json::array();
    for (const auto& folder : args.words) {
        const auto name = name_in(folder);
        const auto before = loaded(session, name, shape), after = edition_in(folder, shape);
        const auto changes = changes_between(before, after);
        json["packs"].push_back({{"name", name}, {"tables", json_of(changes)}});
        out += fmt::format("{}, against {}:\n", folder,
                           before.tables.empty() ? "nothing: it is not loaded yet" : "the edition that is loaded") +
               rows_text(changes, session.full());
    }
    const auto lists = list_changes(session,
                                    [&](const std::string& catalog) { load_into(session, args.words, catalog); });
    json["vehicles"] = json_of(lists);
    if (session.json()) return {Exit::yes, json_text(json)};
    return {Exit::yes, out + changes_text(lists) + "Nothing is written yet.\n"};
}

Result run_pack_drop(Session& session, const Args& args) {
    const auto& name = args.words.at(0);
    PackSummary lost;
    const auto lists = list_changes(session, [&](const std::string& catalog) { lost = drop_pack(name, catalog); });
    std::size_t rows = 0;
    for (const auto& [table, count] : lost.rows) rows += count;
    const auto text = wrapped(fmt::format("{} ({}): {} leave the catalog; the files stay in {}.", lost.name, lost.title,
                                          plural(rows, "row"), lost.folder),
                              0, 2) +
                      changes_text(lists);
    const bool done = confirmed(session, args, text);
    if (done) drop_pack(name, session.options().catalog);
    const auto exit = done ? Exit::yes : Exit::cannot_tell;
    if (!session.json()) return {exit, text + (done ? "Taken out.\n" : not_done)};
    auto json = document("pack-drop");
    json["pack"] = json_of(lost);
    json["done"] = done;
    json["vehicles"] = json_of(lists);
    return {exit, json_text(json)};
}

}  // namespace casebound
