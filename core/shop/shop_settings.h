// What the person set once for every vehicle, in the shop file. One call is one transaction. Throws Error 64 for a
// setting that there is not, or a value that it cannot have.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/shop/shop_file.h"

namespace casebound {

struct SettingKind {
    std::string_view key, title, unit;  // unit: "currency", "each", "%" or "" for words
    bool number{};
};

class ShopSettings {
public:
    explicit ShopSettings(Database& shop) : database_(shop) {}

    static const std::vector<SettingKind>& kinds();              // by key
    std::optional<std::string> get(std::string_view key) const;  // nothing when never set
    std::string currency() const { return get("currency").value_or("cu"); }
    void set(
        const std::vector<std::pair<std::string, std::string>>& settings);  // all or none; an empty value takes it back
    std::vector<std::pair<std::string, std::string>> all() const;           // those set, by key
    void show_units() const;                                                // from now on, as they are set here

private:
    Database& database_;
};

}  // namespace casebound
