#include "core/shop/shop_package.h"

#include <stdexcept>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "core/ground/owned_json.h"

namespace casebound {

namespace {

using Json = nlohmann::ordered_json;

std::optional<Counted> counted_in(const Json& resource) {
    if (!resource.contains("rows") && !resource.contains("bytes") && !resource.contains("hash")) return std::nullopt;
    constexpr std::string_view prefix = "sha256:";
    const auto hash = resource.at("hash").get<std::string>();
    return Counted{
        resource.at("rows").get<std::int64_t>(),
        {resource.at("bytes").get<std::uint64_t>(), hash.substr(hash.starts_with(prefix) ? prefix.size() : 0)}};
}

}  // namespace

std::vector<std::string> tables_of(const Database& shop) {
    std::vector<std::string> names;
    Statement rows(shop,
                   "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY rowid");
    while (rows.step()) names.push_back(rows.str(0));
    return names;
}

std::vector<TableColumn> columns_of(const Database& shop, const std::string& table) {
    std::vector<TableColumn> columns;
    Statement rows(shop, "SELECT name, type, \"notnull\" OR pk FROM pragma_table_info(?) ORDER BY cid");
    rows.bind(1, table);
    while (rows.step()) columns.push_back({rows.str(0), rows.str(1), rows.integer(2) != 0});
    return columns;
}

std::vector<std::string> names_of(const std::vector<TableColumn>& columns) {
    std::vector<std::string> names;
    for (const auto& column : columns) names.push_back(column.name);
    return names;
}

std::string select_from(const std::string& table, const std::vector<TableColumn>& columns) {
    return fmt::format("SELECT {} FROM \"{}\" ORDER BY rowid", fmt::join(names_of(columns), ", "), table);
}

std::string insert_into(const std::string& table, const std::vector<TableColumn>& columns) {
    std::string marks = "?";
    for (std::size_t i = 1; i < columns.size(); ++i) marks += ", ?";
    return fmt::format("INSERT INTO \"{}\" ({}) VALUES ({})", table, fmt::join(names_of(columns), ", "), marks);
}

std::optional<ExportedShop> exported_shop(const std::string& folder) {
    const auto text = read_whole(folder + "/" + shop_descriptor, 1 << 20);
    try {
        const OwnedJson owned = Json::parse(text);
        const auto& package = *owned;
        if (package.at("name").get<std::string>() != shop_package) return std::nullopt;
        ExportedShop found{std::stoul(package.at("version").get<std::string>()), package.contains("description"), {}};
        for (const auto& resource : package.at("resources"))
            found.tables[resource.at("name").get<std::string>()] = counted_in(resource);
        return found;
    } catch (const Json::exception&) {
    } catch (const std::logic_error&) {  // the version is no number
    }
    return std::nullopt;
}

}  // namespace casebound
