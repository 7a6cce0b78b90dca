// The shop file as a whole: settings, export, import, backup.
#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "core/ground/paths.h"
#include "core/ground/text_layout.h"
#include "core/pack/pack.h"
#include "core/pack/reference_packs.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/shop/shop_backup.h"
#include "core/shop/shop_export.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_settings.h"
#include "core/work/key_value_args.h"

namespace casebound {

namespace {

Result settings_answer(Session& session) {
    const auto set = ShopSettings(session.shop()).all();
    if (session.json()) {
        auto json = document("shop-settings");
        json["settings"] = Json::array();
        for (const auto& [key, value] : set) json["settings"].push_back({{"key", key}, {"value", value}});
        return {Exit::yes, json_text(json)};
    }
    Table table({"setting", "value", "what it is"});
    for (const auto& kind : ShopSettings::kinds())
        table.row({dashed(kind.key), ShopSettings(session.shop()).get(kind.key).value_or("not set"),
                   std::string(kind.title)});
    return {Exit::yes, table.text()};
}

std::vector<std::string> setting_keys() {
    std::vector<std::string> keys;
    for (const auto& kind : ShopSettings::kinds()) keys.push_back(dashed(kind.key));
    return keys;
}

void meet_misspelled(const std::string& key) {
    const auto known = setting_keys();
    if (std::find(known.begin(), known.end(), dashed(key)) != known.end()) return;
    if (const auto near = nearest(dashed(key), known); !near.empty())
        throw Error(Exit::usage, fmt::format("setting {}: there is no such setting: did you mean {}?", key, near));
}

Result run_set(Session& session, const Args& args) {
    std::vector<std::pair<std::string, std::string>> settings;
    for (const auto& word : args.words) {
        settings.push_back(key_value_arg(word));
        meet_misspelled(settings.back().first);
    }
    ShopSettings(session.shop()).set(settings);
    return settings_answer(session);
}

Result run_settings(Session& session, const Args&) { return settings_answer(session); }

Result moved_answer(Session& session, const std::vector<MovedTable>& moved, const std::string& words) {
    if (session.json()) {
        auto json = document("shop-moved");
        json["tables"] = Json::array();
        for (const auto& table : moved) json["tables"].push_back({{"table", table.name}, {"rows", table.rows}});
        return {Exit::yes, json_text(json)};
    }
    Table table({"table", "rows"});
    for (const auto& one : moved) table.row({one.name, fmt::format("{}", one.rows)});
    return {Exit::yes, words + table.text()};
}

Result run_export(Session& session, const Args& args) {
    return moved_answer(session, export_shop(session.shop(), args.words.at(0)), "Exported.\n");
}

Result run_import(Session& session, const Args& args) {
    const auto moved = import_shop(session.shop(), args.words.at(0));
    ShopPhotos(session.shop()).sweep();  // of one that was killed
    return moved_answer(session, moved, "Imported.\n");
}

// Packs that were loaded by name, and that nobody else has.
std::vector<OwnPack> own_packs(Session& session) {
    std::set<std::string> shipped;
    for (const auto& pack : reference_packs(session.plugins()))
        shipped.insert(std::filesystem::weakly_canonical(pack.folder).string());
    std::vector<OwnPack> own;
    for (const auto& pack : list_packs(session.options().catalog))
        if (!pack.invented && !shipped.contains(std::filesystem::weakly_canonical(pack.folder).string()))
            own.push_back({pack.name, pack.folder});
    return own;
}

// Where the last one went, else a folder of the shop's own, from which it is to be carried away.
std::string backup_folder(Session& session, const Args& args) {
    if (!args.words.empty()) return args.words.front();
    if (const auto last = last_backup(session.options().shop))
        return std::filesystem::path(last->path).parent_path().string();
    return data_paths().home + "/backups";
}

Result run_backup(Session& session, const Args& args) {
    const auto backup = back_up_shop(session.shop(), own_packs(session), backup_folder(session, args));
    if (session.json()) {
        auto json = document("shop-backup");
        json["path"] = backup.path;
        json["date"] = backup.date;
        json["sha256"] = backup.sha256;
        json["files"] = backup.files;
        json["missing"] = backup.missing;
        return {Exit::yes, json_text(json)};
    }
    std::string out = fmt::format("Backed up, {} in one:\n{}\nsha256 {}\n", plural(backup.files.size(), "file"),
                                  backup.path, backup.sha256);
    for (const auto& one : backup.missing) out += wrapped(fmt::format("NOT IN IT, because it is gone: {}", one), 0, 2);
    return {Exit::yes, out + wrapped("Take it off this machine. `casebound shop restore FILE` puts it back.")};
}

Result run_restore(Session& session, const Args& args) {
    const auto restored = restore_shop(args.words.at(0), session.options().shop, data_paths().home + "/packs");
    if (session.json()) {
        auto json = document("shop-restore");
        json["date"] = restored.date;
        json["shop"] = restored.shop;
        json["packs"] = restored.packs;
        return {Exit::yes, json_text(json)};
    }
    std::string out = fmt::format("Restored, as it was on {}:\n{}\n", restored.date, restored.shop);
    out += "What remains to be typed, in this order:\n  casebound pack load --reference\n";
    if (!restored.packs.empty()) {  // at once: they may lean on each other
        out += "  casebound pack load";
        for (const auto& pack : restored.packs) out += fmt::format(" '{}'", pack);
        out += '\n';
    }
    return {Exit::yes, out};
}

}  // namespace

std::vector<Command> shop_commands() {
    return {
        {"shop set",
         "KEY=VALUE...",
         "the shop's settings; the currency once, the sales tax in percent",
         1,
         any_number,
         {dry_run},
         one_write<run_set>,
         "casebound shop set currency=EUR hour-value=30",
         {{"KEY", setting_keys()}}},
        {"shop settings", "", "the settings as they are", 0, 0, {}, run_settings, "casebound shop settings"},
        {"shop backup",
         "[FOLDER]",
         "the shop file, its photos and your own packs as one file, with its day and hash in its name, to be taken off "
         "this "
         "machine",
         0,
         1,
         {},
         run_backup,
         "casebound shop backup /media/stick"},
        {"shop restore",
         "FILE",
         "a backup, or - for standard input, into a place where no shop file is yet",
         1,
         1,
         {},
         run_restore,
         "casebound shop restore /media/stick/casebound-backup.tar"},
        {"shop export",
         "FOLDER",
         "everything in the shop file as a Data Package, with the photos",
         1,
         1,
         {},
         run_export,
         "casebound shop export all-of-it"},
        {"shop import",
         "FOLDER",
         "an export into a shop file that is still empty",
         1,
         1,
         {},
         run_import,
         "casebound shop import all-of-it"},
    };
}

}  // namespace casebound
