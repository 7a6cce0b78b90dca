// Packs in and out, and the plugins that give their rows a meaning.
#include <filesystem>
#include <functional>
#include <optional>

#include <fmt/format.h>

#include "core/commands/pack_changes.h"
#include "core/commands/pack_drafting.h"
#include "core/commands/pack_making.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"
#include "core/ground/text_layout.h"
#include "core/pack/pack.h"
#include "core/pack/pack_workbook.h"
#include "core/pack/reference_packs.h"
#include "core/pack/workbook_seal.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/session/domain_trial.h"
#include "core/session/inquiry_session.h"

namespace casebound {

namespace {

Json json_of(const PackFault& fault) {
    Json json{{"file", fault.file},
              {"line", fault.line},
              {"cell", fault.cell},
              {"column", fault.column},
              {"what", fault.what}};
    if (!fault.sheet.empty()) json["sheet"] = fault.sheet;
    return json;
}

std::string summary_text(const PackSummary& summary) {
    std::size_t rows = 0;
    for (const auto& [table, count] : summary.rows) rows += count;
    return wrapped(
        fmt::format("{} {} ({}): {} in {}{}", summary.name, summary.version, summary.title, plural(rows, "row"),
                    plural(summary.rows.size(), "file"), summary.invented ? "; invented demo data" : ""),
        0, 2);
}

Result report(Session& session, const std::string& command, const std::vector<PackReport>& reports,
              std::string_view done) {
    Exit exit = Exit::yes;
    std::string out;
    auto json = document(command);
    json["packs"] = Json::array();
    for (const auto& one : reports) {
        Json entry = json_of(one.summary);
        entry["unchanged"] = one.summary.unchanged;
        entry["faults"] = Json::array();
        entry["warnings"] = Json::array();
        for (const auto& fault : one.faults) {
            entry["faults"].push_back(json_of(fault));
            print_message(fmt::format("{}\n", fault.text()));
        }
        for (const auto& warning : one.warnings) {
            entry["warnings"].push_back(json_of(warning));
            print_message(fmt::format("note: {}\n", warning.text()));
        }
        json["packs"].push_back(entry);
        if (!one.faults.empty()) {
            exit = Exit::bad_data;
            out += fmt::format("{}: {}: nothing was changed\n", one.summary.folder, plural(one.faults.size(), "fault"));
        } else {
            out += summary_text(one.summary) +
                   fmt::format("  {}\n", one.summary.unchanged ? "unchanged since it was loaded" : done);
        }
    }
    return {exit, session.json() ? json_text(json) : out};
}

void add_to(PackReport& report, const PackReport& damaged) {
    report.faults.insert(report.faults.end(), damaged.faults.begin(), damaged.faults.end());
    report.warnings.insert(report.warnings.end(), damaged.warnings.begin(), damaged.warnings.end());
}

PackReport load_one(Session& session, const std::string& folder, const std::vector<std::string>& meant) {
    PackReport damaged;
    add_damage(session, folder, meant, damaged);
    auto report = damaged.faults.empty() ? load_pack(folder, session.options().catalog, session.plugins())
                                         : check_pack(folder, session.options().catalog, session.plugins());
    add_to(report, damaged);
    return report;
}

// One pack may lean on another whatever their names: those with faults are tried again as long as others go in.
std::vector<PackReport> load_in_any_order(std::vector<std::string> folders,
                                          const std::function<PackReport(const std::string&)>& load) {
    std::vector<PackReport> loaded, faulty;
    do {
        faulty.clear();
        std::vector<std::string> left;
        for (const auto& folder : folders) {
            auto report = load(folder);
            if (!report.faults.empty()) left.push_back(folder);
            (report.faults.empty() ? loaded : faulty).push_back(std::move(report));
        }
        if (left.size() == folders.size()) break;
        folders = left;
    } while (!faulty.empty());
    loaded.insert(loaded.end(), faulty.begin(), faulty.end());
    return loaded;
}

Result load_reference(Session& session) {
    std::vector<std::string> folders;
    for (const auto& pack : reference_packs(session.plugins())) {
        if (pack.invented)
            print_message(
                fmt::format("note: {}: its pack is invented, so it is loaded by name only: casebound pack load {}\n",
                            pack.domain, pack.folder));
        else folders.push_back(pack.folder);
    }
    if (folders.empty())
        throw Error(Exit::no_input, "pack load --reference: no loaded domain ships a pack: name the folder of one");
    const auto load = [&](const std::string& folder) {
        return load_pack(folder, session.options().catalog, session.plugins());
    };
    return report(session, "pack-load", load_in_any_order(folders, load), "loaded");
}

Result run_load(Session& session, const Args& args) {
    if (args.has("reference") != args.words.empty())
        throw Error(Exit::usage, "pack load: name the folder of a pack, or --reference for those of all domains");
    if (args.has("reference")) return load_reference(session);
    if (args.has("preview")) return run_pack_preview(session, args);
    const auto load = [&](const std::string& folder) { return load_one(session, folder, args.all("meant")); };
    return report(session, "pack-load", load_in_any_order(args.words, load), "loaded");
}

Result run_check(Session& session, const Args& args) {
    std::vector<PackReport> reports;
    std::string since;
    for (const auto& folder : args.words) {
        std::optional<FolderLock> lock;
        if (args.has("seal") && std::filesystem::is_directory(folder)) lock.emplace(folder);
        reports.push_back(check_pack(folder, session.options().catalog, session.plugins(), args.has("seal")));
        PackReport damaged;
        add_damage(session, folder, args.all("meant"), damaged);
        add_to(reports.back(), damaged);
        if (!args.has("seal") || !reports.back().faults.empty()) continue;
        since += since_loaded(session, folder);
        names_workbook(folder) ? seal_workbook(folder) : seal_pack(folder);
    }
    auto result = report(session, "pack-check", reports, args.has("seal") ? "no fault; sealed" : "no fault");
    if (!session.json()) result.output = since + result.output;
    return result;
}

bool meets(std::string_view filter, std::string_view a, std::string_view b) {
    return filter.empty() || a.find(filter) != std::string_view::npos || b.find(filter) != std::string_view::npos;
}

// Roles, item kinds, attributes and jobs by their keys: what the cells of a pack and the command line may say.
Result run_words(Session& session, const Args& args) {
    const std::string filter = args.words.empty() ? "" : args.words[0];
    Vocabularies words;
    for (const auto& domain : session.plugins().domains) words.add(domain.vocabulary, domain.name);
    auto json = document("pack-words");
    for (const char* part : {"roles", "item_kinds", "attributes"}) json[part] = Json::array();
    Table roles({"role", "item kind", "what it is"}), kinds({"item kind", "unit", "what it is"}),
        attributes({"attribute", "value", "how to find it out"});
    for (const auto& [name, role] : words.roles()) {
        if (!meets(filter, name, role.word.title)) continue;
        roles.row({name, role.word.item_kind, role.word.title});
        json["roles"].push_back(
            {{"role", name}, {"item_kind", role.word.item_kind}, {"title", role.word.title}, {"domain", role.owner}});
    }
    for (const auto& [name, kind] : words.item_kinds()) {
        if (!meets(filter, name, kind.word.title)) continue;
        kinds.row({name, kind.word.unit, kind.word.title});
        json["item_kinds"].push_back(
            {{"kind", name}, {"unit", kind.word.unit}, {"title", kind.word.title}, {"domain", kind.owner}});
    }
    for (const auto& [name, attribute] : words.attributes()) {
        if (!meets(filter, name, attribute.word.title)) continue;
        const auto& word = attribute.word;
        attributes.row(
            {name,
             word.kind == ValueKind::number && !word.unit.empty() ? word.unit : std::string(value_kind_name(word.kind)),
             word.how});
        json["attributes"].push_back({{"attribute", name},
                                      {"title", word.title},
                                      {"kind", value_kind_name(word.kind)},
                                      {"unit", word.unit},
                                      {"how", word.how},
                                      {"finding", word.finding},
                                      {"domain", attribute.owner}});
    }
    if (session.json()) return {Exit::yes, json_text(json)};
    return {Exit::yes, roles.text() + "\n" + kinds.text() + "\n" + attributes.text()};
}

Result run_list(Session& session, const Args&) {
    const auto packs = list_packs(session.options().catalog);
    if (session.json()) {
        auto json = document("pack-list");
        json["packs"] = Json::array();
        for (const auto& pack : packs) json["packs"].push_back(json_of(pack));
        return {Exit::yes, json_text(json)};
    }
    std::string out;
    for (const auto& pack : packs) {
        out += summary_text(pack);
        std::vector<std::string> rows;
        for (const auto& [table, count] : pack.rows) rows.push_back(fmt::format("{} {}", count, table));
        if (session.full()) out += wrapped(fmt::format("{}", fmt::join(rows, ", ")), 2, 2);
    }
    return {Exit::yes,
            out.empty() ? "No pack is loaded: casebound pack load --reference, or casebound pack load FOLDER\n" : out};
}

Result plugins_result(Session& session, const std::vector<DomainFault>& faults, bool complain) {
    const auto& plugins = session.plugins();
    const bool sound = plugins.refused.empty() && faults.empty();
    const auto exit = complain && !sound ? Exit::refused : Exit::yes;
    if (session.json()) {
        auto json = document("plugin-list");
        json["stamp"] = build_stamp();
        json["loaded"] = Json::array();
        json["refused"] = Json::array();
        for (const auto& one : plugins.domains)
            json["loaded"].push_back({{"domain", one.name},
                                      {"path", one.path},
                                      {"roles", one.vocabulary.roles.size()},
                                      {"attributes", one.vocabulary.attributes.size()},
                                      {"inquiries", inquiries_of(one.domain).size()}});
        for (const auto& one : plugins.refused) json["refused"].push_back({{"path", one.path}, {"reason", one.reason}});
        json["faults"] = Json::array();
        for (const auto& one : faults) json["faults"].push_back({{"domain", one.domain}, {"what", one.what}});
        return {exit, json_text(json)};
    }
    Table table({"domain", "roles", "attributes", "inquiries", "from"});
    for (const auto& one : plugins.domains)
        table.row({one.name, std::to_string(one.vocabulary.roles.size()),
                   std::to_string(one.vocabulary.attributes.size()), std::to_string(inquiries_of(one.domain).size()),
                   one.path});
    std::string out = table.text();
    for (const auto& one : plugins.refused) out += wrapped(fmt::format("refused: {}: {}", one.path, one.reason), 2, 2);
    for (const auto& one : faults) out += wrapped(fmt::format("fault: {}: {}", one.domain, one.what), 2, 2);
    return {exit, out + wrapped(fmt::format("this build's stamp: {}", build_stamp()), 2)};
}

Result run_plugins(Session& session, const Args&) { return plugins_result(session, {}, false); }

Result run_plugin_check(Session& session, const Args&) {
    return plugins_result(session, domain_trials(session.plugins()), true);
}

}  // namespace

std::vector<Command> pack_commands() {
    return {
        {"pack load",
         "[PACK...]",
         "check each pack, a folder or a workbook, whole, then load it; one with a fault is left out, the others go in",
         0,
         any_number,
         {{"reference", "", "instead: the packs that the loaded domains ship"},
          {"preview", "", "only say which rows and which lists of your vehicles would change"},
          {"meant", "CELL", "a cell that looks damaged and is meant so, as its fault names it: items.csv:12:4", true}},
         run_load,
         "casebound pack load --reference"},
        {"pack check",
         "PACK...",
         "every fault of a pack (a folder, or a workbook .xlsx or .ods), by file, line and cell",
         1,
         any_number,
         {{"seal", "", "then write sizes and hashes into the descriptor; of a workbook, its sha256 beside it"},
          {"meant", "CELL", "a cell that looks damaged and is meant so, as its fault names it: items.csv:12:4", true}},
         run_check,
         "casebound pack check mine"},
        {"pack new",
         "PACK",
         "an empty pack for a spreadsheet: a workbook .xlsx, or a folder; run again to renew a folder's descriptor",
         1,
         1,
         {{"name", "NAME", "the pack's name (default: that of the file or folder)"},
          {"all", "", "every table of core and the loaded domains"},
          {"from", "PACK", "not empty: what this folder or workbook holds, cell by cell"}},
         run_pack_new,
         "casebound pack new mine.xlsx"},
        {"pack draft",
         "LIST PACK",
         "a seller's list (.csv, .xlsx, .ods) into a pack of its claims and a file of its offers",
         2,
         2,
         {{"confirm", "", "what was shown is right: write it, and take the next edition the same way"},
          {"preview", "", "only show it, also where it was confirmed before"},
          {"column", "COLUMN=WHAT",
           "what a column is: item, title, kind, pack, price, core, days, available, line, fits, same_as, an "
           "attribute; - left "
           "out",
           true},
          {"word", "WORD=WHAT", "what the list's word is: an item kind, a vehicle line, or a value such as engine=2.2",
           true},
          {"seller", "NAME", "who sells"},
          {"decimal", "SIGN", "the sign before the cents", false, {"comma", "point"}},
          {"sheet", "NAME", "the sheet of a workbook (default: the first)"},
          {"kind", "KIND", "the item kind of every row"},
          {"line", "LINE", "the vehicle line of every row"},
          {"role", "PLACE", "the place that every part goes into"}},
         run_pack_draft,
         "casebound pack draft kelder.csv kelder --seller Kelder"},
        {"pack words",
         "[PART]",
         "the words a pack may use: roles, item kinds, attributes; PART narrows",
         0,
         1,
         {},
         run_words,
         "casebound pack words seal"},
        {"pack list", "", "the packs that are loaded", 0, 0, {}, run_list, "casebound pack list"},
        {"pack diff",
         "A B",
         "which rows came, went and changed; each a folder, a workbook or the name of a loaded pack",
         2,
         2,
         {},
         run_pack_diff,
         "casebound pack diff mine mine-of-last-year"},
        {"pack drop",
         "NAME",
         "take a pack's rows out of the catalog; says first what your vehicles lose by it",
         1,
         1,
         {{"yes", "", "do it without being asked"}},
         run_pack_drop,
         "casebound pack drop mine"},
        {"plugin list",
         "",
         "the domains that are loaded, and the plugins that were refused",
         0,
         0,
         {},
         run_plugins,
         "casebound plugin list"},
        {"plugin check",
         "",
         "the same, and runs every hook against the packs shipped; fails at a fault",
         0,
         0,
         {},
         run_plugin_check,
         "casebound plugin check"},
    };
}

}  // namespace casebound
