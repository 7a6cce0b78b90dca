// The person's own vehicles and what was told about them: shop.sqlite, the one file that cannot be rebuilt.
//
// What is told is only ever added to. A correction or a withdrawal is a new entry; the history keeps both.
// One call is one transaction: after a crash the file is as before the call or as after it. An older file is
// migrated on opening, after a checked backup beside it. Knows no line, attribute or job: the caller checks words.
// Throws Error: 64 for a word that may not be used, 66 for a vehicle or entry that is not there, 75 when busy.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/vehicle.h"
#include "core/store/sqlite.h"

namespace casebound {

TellEvidence tell_evidence_from(std::string_view words);  // "seller said", "seller-said", "seller_said"

struct Vehicle {
    std::string name;     // key: letters, digits, . _ -
    std::string line;     // key of the vehicle line
    std::string market;   // "" when not told
    std::string vin;      // normal form (vin.h); "" when not told
    std::string created;  // YYYY-MM-DD
};

// 1 to 64 letters, digits, . _ -, a letter or digit first.
bool is_vehicle_name(std::string_view name);

struct NewTell {
    std::string attribute;
    std::string text;        // as typed: "1.5 in"
    std::string right_side;  // condition syntax: "1.5in", "a|b", "11..16"
    TellEvidence evidence = TellEvidence::assumed;
    std::string date{};  // YYYY-MM-DD; empty: today
    std::string photo{}, note{};
    std::optional<std::int64_t> corrects{};  // an entry that stands and was wrong, perhaps of another attribute
};

struct TellEntry {
    std::int64_t id{};
    std::string attribute, text, right_side;  // the last two are empty when withdrawn
    TellEvidence evidence = TellEvidence::assumed;
    std::string date, photo, note;
    std::optional<std::int64_t> corrects;  // what this entry took back
    bool withdrawn{};                      // nothing is told about the attribute from here on
    bool stands{};  // the newest of the firmest kind told of its attribute, neither withdrawn nor corrected
};

struct StartedJob {
    std::int64_t id{};
    std::string job, started, note;  // started: YYYY-MM-DD
};

struct SettingKind {
    std::string_view key, title, unit;  // unit: "currency", "each", "%" or "" for words
    bool number{};
};

class Shop {
public:
    explicit Shop(const std::string& path);                       // created or migrated as needed: open_shop(path)
    explicit Shop(Database open) : database_(std::move(open)) {}  // Requires: from open_shop

    std::vector<Vehicle> vehicles() const;                        // by name
    std::optional<Vehicle> vehicle(std::string_view name) const;  // the exact name
    // Throws Error 64 for a name that may not be used or is in use (also in other case).
    void create(std::string_view name, std::string_view line, std::string_view market = {}, std::string_view vin = {},
                const std::vector<NewTell>& told = {});
    // Requires the exact name. Refuses (Error 64) while jobs or records hang on it, unless `records_too`.
    void forget(std::string_view name, bool records_too = false);

    // All or none. Returns the new ids. A second telling of an attribute replaces the first in told().
    std::vector<std::int64_t> tell(std::string_view vehicle, const std::vector<NewTell>& entries);
    std::int64_t tell(std::string_view vehicle, const NewTell& entry) {
        return tell(vehicle, std::vector{entry}).front();
    }
    // Withdraws what stands about the attribute; nothing older comes back. Error 66 when nothing stands.
    // All or none.
    std::vector<std::int64_t> untell_all(std::string_view vehicle, const std::vector<std::string>& attributes,
                                         std::string_view note = {});
    std::vector<TellEntry> told(std::string_view vehicle) const;  // what stands, by attribute
    // Newer hearsay that says something else than what stands: a clash that is to be settled.
    std::vector<TellEntry> clashes(std::string_view vehicle) const;
    std::vector<TellEntry> history(std::string_view vehicle) const;  // everything, oldest first

    std::int64_t start_job(std::string_view vehicle, std::string_view job, std::string_view note = {});
    std::vector<StartedJob> jobs(std::string_view vehicle) const;  // oldest first

    static const std::vector<SettingKind>& setting_kinds();          // by key
    std::optional<std::string> setting(std::string_view key) const;  // nothing when never set
    void set_settings(
        const std::vector<std::pair<std::string, std::string>>& settings);  // all or none; an empty value takes it back
    std::vector<std::pair<std::string, std::string>> settings() const;      // those set, by key

    Database& database() { return database_; }  // for what else lies in the file: shop_offers.h, shop_records.h

private:
    std::int64_t vehicle_id(std::string_view name) const;
    std::vector<TellEntry> entries(std::string_view vehicle, bool standing_only) const;
    std::int64_t append(std::int64_t vehicle, const NewTell& entry, bool withdrawn);
    std::vector<std::int64_t> append_all(std::string_view vehicle,
                                         const std::vector<NewTell>& entries);  // within a transaction
    Database database_;
};

// Within the caller's transaction.
std::int64_t add_started_job(Database& shop, std::int64_t vehicle, std::string_view job, std::string_view note);

// Opens shop.sqlite: made when missing, migrated when older (a checked copy is left beside it first).
// Error 65 for a file that is something else or damaged, or was written by a newer casebound.
Database open_shop(const std::string& path);

}  // namespace casebound
