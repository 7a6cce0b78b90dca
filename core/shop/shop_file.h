// shop.sqlite: the one file that cannot be rebuilt. What lies in it is read and written by ShopVehicles, ShopTold,
// ShopRecords, ShopOffers and ShopSettings, each over the one file that is open. Knows no line, attribute or job: the
// caller checks words.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "core/store/sqlite.h"

namespace casebound {

// Opens shop.sqlite: made when missing, migrated when older (a checked copy is left beside it first).
// Error 65 for a file that is something else or damaged, or was written by a newer casebound.
Database open_shop(const std::string& path);

// Of the exact name. Throws Error 66 when there is none.
std::int64_t vehicle_id(const Database& shop, std::string_view name);

}  // namespace casebound
