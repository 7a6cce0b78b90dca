#include "core/shop/shop_settings.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

const SettingKind& kind_of(std::string_view typed) {
    std::string known, key(typed);
    std::replace(key.begin(), key.end(), '-', '_');
    for (const auto& kind : ShopSettings::kinds()) {
        if (kind.key == key) return kind;
        known += (known.empty() ? "" : ", ") + dashed(kind.key);
    }
    throw Error(Exit::usage, fmt::format("setting {}: there is no such setting: use one of {}", typed, known));
}

void check(const SettingKind& kind, std::string_view value) {
    if (!kind.number) return;
    double number = 0;
    try {
        number = quantity_in(value, "");
    } catch (const UnitFault& fault) {
        throw Error(Exit::usage, fmt::format("setting {}: {}", dashed(kind.key), fault.what()));
    }
    const bool whole = kind.unit != "each" || number == std::floor(number);
    if (kind.unit == "%" && number > 100)
        throw Error(Exit::usage,
                    fmt::format("setting {}: \"{}\" cannot be: write percent, such as 7.5", dashed(kind.key), value));
    if (number < 0 || !whole)
        throw Error(Exit::usage, fmt::format("setting {}: \"{}\" cannot be: write {} from 0 up", dashed(kind.key),
                                             value, kind.unit == "each" ? "a whole number" : "a number"));
}

// The laws that the reminders know, and the words for each.
struct Jurisdiction {
    std::string_view name;
    std::vector<std::string_view> words;  // in small letters
    std::string_view covers;
};
const std::vector<Jurisdiction>& jurisdictions() {
    static const std::vector<Jurisdiction> known{
        {"us-federal", {"us-federal", "us", "usa", "u.s.", "united states"}, "the United States"},
        {"elsewhere", {"elsewhere", "other"}, "anywhere else: what to ask locally"}};
    return known;
}

// As it is kept: "US" is us-federal.
std::string jurisdiction_from(std::string_view typed) {
    std::string words(typed);
    std::transform(words.begin(), words.end(), words.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    std::string list;
    for (const auto& one : jurisdictions()) {
        if (std::find(one.words.begin(), one.words.end(), words) != one.words.end()) return std::string(one.name);
        list += fmt::format("{}{} ({})", list.empty() ? "" : ", ", one.name, one.covers);
    }
    throw Error(
        Exit::usage,
        fmt::format("setting jurisdiction: \"{}\" is none whose law is known here: write one of {}", typed, list));
}

const ShownUnit* shown_unit(std::string_view key) {
    for (const auto& unit : shown_units())
        if (unit.setting == key) return &unit;
    return nullptr;
}

void check_shown(const ShownUnit& unit, std::string_view value) {
    if (std::find(unit.choices.begin(), unit.choices.end(), value) == unit.choices.end())
        throw Error(Exit::usage, fmt::format("setting {}: \"{}\": write one of {}", dashed(unit.setting), value,
                                             fmt::join(unit.choices, ", ")));
}

// Amounts on file would silently mean something else in another currency.
void check_currency(const Database& database, const std::string& before, std::string_view now) {
    if (before.empty() || before == now) return;
    if (database.integer(
            "SELECT EXISTS (SELECT 1 FROM offers) OR EXISTS (SELECT 1 FROM money) OR EXISTS (SELECT 1 FROM closings)"))
        throw Error(
            Exit::usage,
            fmt::format("setting currency: it is {} and prices in it are on file: keep it, or start another shop file",
                        before));
}

}  // namespace

const std::vector<SettingKind>& ShopSettings::kinds() {
    static const std::vector<SettingKind> kinds = {
        {"cash_limit", "most cash at risk in one vehicle", "currency", true},
        {"currency", "currency of all prices", "", false},
        {"hour_value", "what an hour of own work is worth", "currency", true},
        {"jurisdiction", "whose law the reminders are about", "", false},
        {"margin", "least gain worth starting for", "currency", true},
        {"own_pack", "folder of your own pack, for what was measured here", "", false},
        {"project_limit", "most vehicles in work at once", "each", true},
        {"sales_tax", "sales tax on top of offered prices, in percent", "%", true},
        {"show_length", "lengths are shown in mm or inch", "", false},
        {"show_torque", "torques are shown in Nm or lb-ft", "", false},
        {"show_volume", "volumes are shown in litre or quart", "", false},
    };
    return kinds;
}

std::optional<std::string> ShopSettings::get(std::string_view key) const {
    Statement row(database_, "SELECT value FROM settings WHERE key = ?");
    return row.bind(1, kind_of(key).key).step() ? std::optional(row.str(0)) : std::nullopt;
}

void ShopSettings::set(const std::vector<std::pair<std::string, std::string>>& settings) {
    Transaction transaction(database_);
    for (const auto& [key, typed] : settings) {
        const SettingKind& kind = kind_of(key);
        const auto value = kind.key == "jurisdiction" && !typed.empty() ? jurisdiction_from(typed) : typed;
        if (!value.empty()) check(kind, value);
        if (const auto* unit = shown_unit(kind.key); unit && !value.empty()) check_shown(*unit, value);
        if (kind.key == "currency") check_currency(database_, get(key).value_or(""), value);
        Statement change(database_, value.empty()
                                        ? "DELETE FROM settings WHERE key = ?1"
                                        : "INSERT OR REPLACE INTO settings (key, value, changed) VALUES (?1, ?2, ?3)");
        change.bind(1, kind.key);
        if (!value.empty()) change.bind(2, value).bind(3, today());
        change.run();
    }
    transaction.commit();
    show_units();
}

void ShopSettings::show_units() const {
    for (const auto& unit : shown_units()) show_in(unit.setting, get(unit.setting).value_or(""));
}

std::vector<std::pair<std::string, std::string>> ShopSettings::all() const {
    std::vector<std::pair<std::string, std::string>> all;
    Statement rows(database_, "SELECT key, value FROM settings ORDER BY key");
    while (rows.step()) all.emplace_back(rows.str(0), rows.str(1));
    return all;
}

}  // namespace casebound
