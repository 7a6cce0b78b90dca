#include "core/shop/shop_file.h"

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/store/migrations.h"

namespace casebound {

extern const char* const shop_sql;  // schema/shop.sql

namespace {
constexpr std::int32_t shop_application_id = 0x63627368;  // "cbsh"
}

Database open_shop(const std::string& path) {
    return open_migrated(path, {"shop file", shop_application_id, shop_sql});
}

std::int64_t vehicle_id(const Database& shop, std::string_view name) {
    Statement find(shop, "SELECT id FROM vehicles WHERE name = ? COLLATE BINARY");
    if (find.bind(1, name).step()) return find.integer(0);
    throw Error(Exit::no_input,
                fmt::format("vehicle {}: there is no vehicle of that name: see `casebound vehicle list`", name));
}

}  // namespace casebound
