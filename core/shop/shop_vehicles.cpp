#include "core/shop/shop_vehicles.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/vin.h"
#include "core/shop/shop_told.h"

namespace casebound {

namespace {

constexpr std::string_view vehicle_columns =
    "SELECT v.name, v.line, coalesce(p.market, ''), coalesce(p.vin, ''), v.created FROM vehicles v"
    " JOIN papers p ON p.id = (SELECT max(id) FROM papers WHERE vehicle = v.id)";

Vehicle vehicle_of(const Statement& row) { return {row.str(0), row.str(1), row.str(2), row.str(3), row.str(4)}; }

void check_name(std::string_view name) {
    if (!is_vehicle_name(name))
        throw Error(
            Exit::usage,
            fmt::format("vehicle: \"{}\" cannot be a name: use 1 to 64 letters, digits, . _ -, a letter or digit first",
                        name));
}

void add_papers(const Database& database, std::int64_t vehicle, std::string_view market, std::string_view vin) {
    Statement insert(database, "INSERT INTO papers (vehicle, market, vin, date) VALUES (?, ?, ?, ?)");
    insert.bind(1, vehicle).bind_or_null(2, market).bind_or_null(3, vin).bind(4, today());
    insert.run();
}

// Whatever refers to a vehicle, except what describes it; found in the schema, so that a new table is never forgotten.
std::vector<std::string> records_of(const Database& database, std::int64_t vehicle) {
    std::vector<std::string> found;
    Statement tables(database,
                     "SELECT m.name, k.\"from\" FROM sqlite_schema m JOIN pragma_foreign_key_list(m.name) k"
                     " WHERE m.type = 'table' AND k.\"table\" = 'vehicles' AND m.name NOT IN ('papers', 'tellings', "
                     "'out_of_reach', 'photos') ORDER BY 1, 2");
    while (tables.step()) {
        Statement count(database,
                        fmt::format("SELECT count(*) FROM \"{}\" WHERE \"{}\" = ?", tables.text(0), tables.text(1)));
        count.bind(1, vehicle).step();
        if (count.integer(0) > 0) found.push_back(fmt::format("{} in {}", count.integer(0), tables.text(0)));
    }
    return found;
}

}  // namespace

bool is_vehicle_name(std::string_view name) {
    const auto allowed = [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) || c == '.' || c == '_' || c == '-';
    };
    return !name.empty() && name.size() <= 64 && std::all_of(name.begin(), name.end(), allowed) &&
           std::isalnum(static_cast<unsigned char>(name.front()));
}

std::vector<Vehicle> ShopVehicles::all() const {
    std::vector<Vehicle> all;
    Statement rows(database_, fmt::format("{} ORDER BY v.name COLLATE BINARY", vehicle_columns));
    while (rows.step()) all.push_back(vehicle_of(rows));
    return all;
}

std::optional<Vehicle> ShopVehicles::find(std::string_view name) const {
    Statement row(database_, fmt::format("{} WHERE v.name = ? COLLATE BINARY", vehicle_columns));
    return row.bind(1, name).step() ? std::optional(vehicle_of(row)) : std::nullopt;
}

void ShopVehicles::create(std::string_view name, std::string_view line, std::string_view market, std::string_view vin,
                          const std::vector<ToldFact>& told) {
    check_name(name);
    if (line.empty())
        throw Error(Exit::usage,
                    fmt::format("vehicle {}: no vehicle line is given: name the line it belongs to", name));
    Transaction transaction(database_);
    Statement taken(database_, "SELECT name FROM vehicles WHERE name = ?");
    if (taken.bind(1, name).step())
        throw Error(Exit::usage,
                    fmt::format("vehicle {}: there is already a vehicle {}: choose another name", name, taken.text(0)));
    Statement insert(database_, "INSERT INTO vehicles (name, line, created) VALUES (?, ?, ?)");
    insert.bind(1, name).bind(2, line).bind(3, today());
    insert.run();
    add_papers(database_, vehicle_id(database_, name), market, normal_vin(vin));
    add_told(database_, name, told);
    transaction.commit();
}

void ShopVehicles::correct(std::string_view name, std::string_view market, std::string_view vin) {
    Transaction transaction(database_);
    add_papers(database_, vehicle_id(database_, name), market, normal_vin(vin));
    transaction.commit();
}

void ShopVehicles::forget(std::string_view name, bool records_too) {
    Transaction transaction(database_);
    const auto id = vehicle_id(database_, name);
    const auto records = records_of(database_, id);
    if (!records.empty() && !records_too)
        throw Error(
            Exit::usage,
            fmt::format(
                "vehicle {}: it has records ({}): nothing was forgotten; say that the records may go too, or keep it",
                name, fmt::join(records, ", ")));
    // What somebody says of its line stays in the own pack, and the photo that shows it here.
    Statement keep(database_,
                   "UPDATE photos SET vehicle = NULL WHERE vehicle = ? AND id IN (SELECT photo FROM "
                   "photo_shows WHERE statement IS NOT NULL)");
    keep.bind(1, id).run();
    Statement gone(database_, "DELETE FROM vehicles WHERE id = ?");
    gone.bind(1, id).run();
    transaction.commit();
}

}  // namespace casebound
