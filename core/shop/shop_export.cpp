#include "core/shop/shop_export.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/ground/line_escapes.h"
#include "core/ground/replacement.h"
#include "core/pack/csv_rows.h"
#include "core/shop/shop_package.h"
#include "core/shop/shop_photos.h"

namespace casebound {

namespace {

using Json = nlohmann::ordered_json;

// A real number as the shortest text that reads back the same.
std::string cell_of(const Statement& row, int at, const TableColumn& column) {
    return column.type == "REAL" && !row.is_null(at) ? fmt::format("{}", row.real(at))
                                                     : csv_cell(on_one_line_for_spreadsheets(row.text(at)));
}

Json described(const std::string& table, const std::vector<TableColumn>& columns, const std::string& text,
               std::int64_t rows) {
    Json fields = Json::array();
    for (const auto& column : columns)
        fields.push_back({{"name", column.name},
                          {"type", column.type == "REAL"      ? "number"
                                   : column.type == "INTEGER" ? "integer"
                                                              : "string"},
                          {"constraints", {{"required", column.required}}}});
    return {{"name", table},
            {"path", table + ".csv"},
            {"type", "table"},
            {"profile", "tabular-data-resource"},
            {"format", "csv"},
            {"mediatype", "text/csv"},
            {"encoding", "utf-8"},
            {"bytes", text.size()},
            {"hash", "sha256:" + sha256_of(text)},
            {"rows", rows},
            {"schema", {{"fields", fields}, {"missingValues", {""}}}}};
}

bool holds_photos_alone(const std::filesystem::path& folder) {
    namespace fs = std::filesystem;
    return fs::is_directory(fs::symlink_status(folder)) &&
           std::all_of(fs::directory_iterator(folder), fs::directory_iterator(), [](const auto& entry) {
               return entry.is_regular_file() && names_photo_file(entry.path().filename().string());
           });
}

// What was exchanged away is removed: nothing of the person's own may lie there.
void require_an_export(const std::string& folder) {
    namespace fs = std::filesystem;
    if (!fs::exists(folder) || fs::is_empty(folder)) return;
    const auto before = fs::exists(fs::path(folder) / shop_descriptor) ? exported_shop(folder) : std::nullopt;
    for (const auto& entry : fs::directory_iterator(folder)) {
        const auto path = entry.path();
        const bool of_export = before &&
                               ((entry.is_regular_file() &&
                                 (path.filename() == shop_descriptor ||
                                  (path.extension() == ".csv" && before->tables.contains(path.stem().string())))) ||
                                (path.filename() == exported_photos && holds_photos_alone(path)));
        if (!of_export)
            throw Error(Exit::cannot_create,
                        fmt::format("{}: it is not of an export of the shop and would be lost: name another folder",
                                    path.string()));
    }
}

// One table as it is written, and what the descriptor says of it.
struct TableText {
    std::string text;
    std::int64_t rows{};
};

TableText table_text(const Database& shop, const std::string& table, const std::vector<TableColumn>& columns) {
    TableText one{fmt::format("{}\n", fmt::join(names_of(columns), ",")), 0};
    Statement rows(shop, select_from(table, columns));
    for (; rows.step(); ++one.rows)
        for (std::size_t i = 0; i < columns.size(); ++i)
            one.text += cell_of(rows, static_cast<int>(i), columns[i]) + (i + 1 == columns.size() ? "\n" : ",");
    return one;
}

}  // namespace

std::vector<MovedTable> export_shop(Database& shop, const std::string& folder) {
    require_an_export(folder);
    NewFolder made(folder, NewFolder::Begin::empty);
    std::vector<MovedTable> moved;
    const Transaction moment(shop, false);  // one read transaction: what is written meanwhile is not in it
    Json package{
        {"$schema", "https://datapackage.org/profiles/2.0/datapackage.json"},
        {"profile", "tabular-data-package"},
        {"name", shop_package},
        {"description",
         "In texts, a backslash is doubled; line ends, tabs, control characters, marks of direction and bytes that "
         "are no UTF-8 are \\n, \\r, \\t, \\xNN, and so is the = + - @ that would begin a formula. The files of the "
         "photos that were not taken back lie in photos/, named by their sha256 and type."},
        {"version", fmt::format("{}.0.0", shop.integer("PRAGMA user_version"))},
        {"resources", Json::array()}};
    for (const auto& table : tables_of(shop)) {
        const auto columns = columns_of(shop, table);
        const auto one = table_text(shop, table, columns);
        made.write(table + ".csv", one.text);
        package["resources"].push_back(described(table, columns, one.text, one.rows));
        moved.push_back({table, one.rows});
    }
    const auto photos = photo_files(shop, photos_folder(shop.path()));
    if (!photos.empty()) make_folder(made.path() + "/" + exported_photos);
    for (const auto& photo : photos)
        made.write(fmt::format("{}/{}", exported_photos, photo_file_name(photo)), photo_bytes(photo));
    made.write(shop_descriptor, package.dump(2) + "\n");
    made.change_places();
    return moved;
}

}  // namespace casebound
