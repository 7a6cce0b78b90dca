// The shop file as a whole: settings, export, import.
#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/shop/shop_export.h"
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
        table.row({std::string(kind.key), ShopSettings(session.shop()).get(kind.key).value_or("not set"),
                   std::string(kind.title)});
    return {Exit::yes, table.text()};
}

Result run_set(Session& session, const Args& args) {
    std::vector<std::pair<std::string, std::string>> settings;
    for (const auto& word : args.words) settings.push_back(key_value_arg(word));
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
    return moved_answer(session, import_shop(session.shop(), args.words.at(0)), "Imported.\n");
}

}  // namespace

std::vector<Command> shop_commands() {
    return {
        {"shop set",
         "KEY=VALUE...",
         "the shop's settings: currency (once), jurisdiction, hour_value, margin, cash_limit, project_limit, sales_tax "
         "in percent",
         1,
         any_number,
         {},
         run_set},
        {"shop settings", "", "the settings as they are", 0, 0, {}, run_settings},
        {"shop export", "FOLDER", "everything in the shop file as a Data Package", 1, 1, {}, run_export},
        {"shop import", "FOLDER", "an export into a shop file that is still empty", 1, 1, {}, run_import},
    };
}

}  // namespace casebound
