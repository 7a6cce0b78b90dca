#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "core/ground/error.h"
#include "core/ground/owned_json.h"
#include "core/pack/pack_descriptor.h"

namespace casebound {

namespace {

using nlohmann::ordered_json;

ordered_json object_from(const std::string& text) {
    require_json(text);
    auto json = ordered_json::parse(text);
    if (!json.is_object())
        throw Error(Exit::bad_data,
                    fmt::format("{}: not a JSON object: `casebound pack check` says where", descriptor_file));
    return json;
}

ordered_json number(double value) {
    const bool whole = std::abs(value) < 1e15 && value == std::floor(value);
    return whole ? ordered_json(static_cast<long long>(value)) : ordered_json(value);
}

ordered_json field(const Column& column) {
    ordered_json json{{"name", column.name}};
    json["type"] = column.kind == CellKind::number ? "number" : column.kind == CellKind::integer ? "integer" : "string";
    if (!column.meaning.empty()) json["description"] = column.meaning;
    ordered_json rules = ordered_json::object();
    if (column.required) rules["required"] = true;
    if (column.unique) rules["unique"] = true;
    if (!column.choices.empty()) rules["enum"] = column.choices;
    // Version 1 has no exclusive bounds: the nearest it can say is the bound itself.
    if (column.least) rules["minimum"] = number(column.least->value);
    if (column.most) rules["maximum"] = number(column.most->value);
    if (!rules.empty()) json["constraints"] = std::move(rules);
    return json;
}

// The key column; else the columns that are unique together, when each must be stated.
ordered_json primary_key(const TableShape& table) {
    for (const auto& column : table.columns)
        if (column.unique && column.required) return column.name;
    for (const auto& columns : table.unique_together) {
        if (!std::all_of(columns.begin(), columns.end(), [&](std::size_t at) { return table.columns[at].required; }))
            continue;
        auto names = ordered_json::array();
        for (const auto at : columns) names.push_back(table.columns[at].name);
        return names;
    }
    return nullptr;
}

ordered_json schema_of(const TableToDescribe& described) {
    const auto& table = *described.table;
    ordered_json json{{"fields", ordered_json::array()}, {"missingValues", ordered_json::array({""})}};
    for (const auto& column : table.columns) json["fields"].push_back(field(column));
    if (auto key = primary_key(table); !key.is_null()) json["primaryKey"] = std::move(key);
    auto keys = ordered_json::array();
    for (const auto& name : described.inside_references) {
        const auto& refers = *table.columns.at(table.find(name)).refers;
        // A table that refers to itself is called "" (Data Package 1.0, Table Schema, foreignKeys).
        const std::string target = refers.table == table.name ? "" : refers.table;
        keys.push_back({{"fields", name}, {"reference", {{"resource", target}, {"fields", refers.column}}}});
    }
    if (!keys.empty()) json["foreignKeys"] = std::move(keys);
    return json;
}

ordered_json resource_of(const TableToDescribe& described) {
    ordered_json json{{"name", described.table->name}, {"path", described.table->file()}};
    json["type"] = "table";
    json["profile"] = "tabular-data-resource";
    if (!described.table->meaning.empty()) json["description"] = described.table->meaning;
    json["format"] = "csv";
    json["mediatype"] = "text/csv";
    json["encoding"] = "utf-8";
    json["dialect"] = {
        {"delimiter", ","}, {"quoteChar", "\""}, {"doubleQuote", true}, {"skipInitialSpace", false}, {"header", true}};
    json["schema"] = schema_of(described);
    return json;
}

ordered_json fresh(const std::string& name) {
    ordered_json json;
    json["$schema"] = "https://datapackage.org/profiles/2.0/datapackage.json";
    json["profile"] = "tabular-data-package";
    json["name"] = name;
    json["title"] = name;
    json["version"] = "0.1.0";
    json["invented"] = false;
    json["licenses"] = ordered_json::array(
        {{{"name", "notspecified"}, {"title", "Not stated: name a licence before the pack is passed on"}}});
    json["sources"] = ordered_json::array({{{"title", "Every row names its source; see sources.csv"}}});
    return json;
}

void seal(ordered_json& resource, const std::map<std::string, FileStamp>& stamps,
          const std::vector<std::pair<std::string, std::string>>& met) {
    const auto path = resource.at("path").get<std::string>();
    const auto stamp = stamps.find(path);
    if (stamp == stamps.end()) return;
    resource["bytes"] = stamp->second.bytes;
    resource["hash"] = "sha256:" + stamp->second.sha256;
    if (!resource.contains("schema") || !resource["schema"].contains("foreignKeys")) return;
    auto keys = ordered_json::array();
    for (auto& key : resource["schema"]["foreignKeys"])
        if (std::find(met.begin(), met.end(), std::pair(path, key.at("fields").get<std::string>())) != met.end())
            keys.push_back(key);
    if (keys.empty()) resource["schema"].erase("foreignKeys");
    else resource["schema"]["foreignKeys"] = std::move(keys);
}

}  // namespace

std::string described(const std::string& old_text, const std::string& name,
                      const std::vector<TableToDescribe>& tables) {
    OwnedJson owned = fresh(name);
    auto& json = *owned;
    if (!old_text.empty()) {
        const OwnedJson old = object_from(old_text);
        for (const auto& [key, value] : old->items()) json[key] = value;  // what a person wrote wins
        json["$schema"] = "https://datapackage.org/profiles/2.0/datapackage.json";
        json["profile"] = "tabular-data-package";
    }
    json.erase("resources");
    json["resources"] = ordered_json::array();
    for (const auto& table : tables) json["resources"].push_back(resource_of(table));
    return json.dump(2) + "\n";
}

std::string sealed(const std::string& old_text, const std::map<std::string, FileStamp>& stamps,
                   const std::vector<std::pair<std::string, std::string>>& met) {
    OwnedJson owned = object_from(old_text);
    auto& json = *owned;
    try {
        for (auto& resource : json.at("resources")) seal(resource, stamps, met);
    } catch (const ordered_json::exception& error) {
        throw Error(Exit::bad_data,
                    fmt::format("{}: {}: `casebound pack check` says where", descriptor_file, error.what()));
    }
    return json.dump(2) + "\n";
}

}  // namespace casebound
