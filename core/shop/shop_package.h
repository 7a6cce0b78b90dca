// What an export and an import of the shop file share: the tables and columns of a shop file as they are moved, and the
// descriptor of an export. Writes nothing.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/ground/file_stamp.h"
#include "core/store/sqlite.h"

namespace casebound {

inline constexpr const char* shop_descriptor = "datapackage.json";
inline constexpr std::string_view shop_package = "casebound-shop";
inline constexpr const char* exported_photos = "photos";  // the folder of their files

struct TableColumn {
    std::string name, type;
    bool required{};
};

std::vector<std::string> tables_of(const Database& shop);  // in the order they were made
std::vector<TableColumn> columns_of(const Database& shop, const std::string& table);
std::vector<std::string> names_of(const std::vector<TableColumn>& columns);
std::string select_from(const std::string& table, const std::vector<TableColumn>& columns);
std::string insert_into(const std::string& table, const std::vector<TableColumn>& columns);

// What a descriptor says of one table.
struct Counted {
    std::int64_t rows{};
    FileStamp stamp{};
};

struct ExportedShop {
    std::size_t version{};  // of the shop file
    bool escaped{};         // texts are on one line (one_line.h); exports of version 2 wrote them as they were
    std::map<std::string, std::optional<Counted>> tables;  // the older ones were not counted
};

// Nothing for a descriptor that is not of an export. Throws Error(no_input) when there is none.
std::optional<ExportedShop> exported_shop(const std::string& folder);

}  // namespace casebound
