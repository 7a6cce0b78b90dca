// The person's own vehicles in the shop file, and their papers. One call is one transaction: after a crash the file is
// as before the call or as after it. Throws Error: 64 for a name that may not be used, 66 for a vehicle that is not
// there, 75 when busy.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/reason/told_fact.h"
#include "core/shop/shop_file.h"

namespace casebound {

struct Vehicle {
    std::string name;     // key: letters, digits, . _ -
    std::string line;     // key of the vehicle line
    std::string market;   // "" when not told
    std::string vin;      // normal form (vin.h); "" when not told
    std::string created;  // YYYY-MM-DD
};

// 1 to 64 letters, digits, . _ -, a letter or digit first.
bool is_vehicle_name(std::string_view name);

class ShopVehicles {
public:
    explicit ShopVehicles(Database& shop) : database_(shop) {}

    std::vector<Vehicle> all() const;                          // by name
    std::optional<Vehicle> find(std::string_view name) const;  // the exact name
    // Throws Error 64 for a name that may not be used or is in use (also in other case).
    void create(std::string_view name, std::string_view line, std::string_view market = {}, std::string_view vin = {},
                const std::vector<ToldFact>& told = {});
    // New papers; the old ones are kept. Requires the exact name. "" is not told.
    void correct(std::string_view name, std::string_view market, std::string_view vin);
    // Requires the exact name. Refuses (Error 64) while jobs or records hang on it, unless `records_too`.
    void forget(std::string_view name, bool records_too = false);

private:
    Database& database_;
};

}  // namespace casebound
