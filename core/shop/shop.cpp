#include "core/shop/shop.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/vin.h"
#include "core/store/migrations.h"

namespace casebound {

extern const char* const shop_sql;  // schema/shop.sql

namespace {

constexpr std::int32_t shop_application_id = 0x63627368;  // "cbsh"

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
    Statement tables(
        database,
        "SELECT m.name, k.\"from\" FROM sqlite_schema m JOIN pragma_foreign_key_list(m.name) k"
        " WHERE m.type = 'table' AND k.\"table\" = 'vehicles' AND m.name NOT IN ('papers', 'tellings') ORDER BY 1, 2");
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

Database open_shop(const std::string& path) {
    return open_migrated(path, {"shop file", shop_application_id, shop_sql});
}

Shop::Shop(const std::string& path) : database_(open_shop(path)) {}

std::int64_t Shop::vehicle_id(std::string_view name) const {
    Statement find(database_, "SELECT id FROM vehicles WHERE name = ? COLLATE BINARY");
    if (find.bind(1, name).step()) return find.integer(0);
    throw Error(Exit::no_input,
                fmt::format("vehicle {}: there is no vehicle of that name: see `casebound vehicle list`", name));
}

std::vector<Vehicle> Shop::vehicles() const {
    std::vector<Vehicle> all;
    Statement rows(database_, fmt::format("{} ORDER BY v.name COLLATE BINARY", vehicle_columns));
    while (rows.step()) all.push_back(vehicle_of(rows));
    return all;
}

std::optional<Vehicle> Shop::vehicle(std::string_view name) const {
    Statement row(database_, fmt::format("{} WHERE v.name = ? COLLATE BINARY", vehicle_columns));
    return row.bind(1, name).step() ? std::optional(vehicle_of(row)) : std::nullopt;
}

void Shop::create(std::string_view name, std::string_view line, std::string_view market, std::string_view vin,
                  const std::vector<NewTell>& told) {
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
    add_papers(database_, vehicle_id(name), market, normal_vin(vin));
    append_all(name, told);
    transaction.commit();
}

void Shop::forget(std::string_view name, bool records_too) {
    Transaction transaction(database_);
    const auto id = vehicle_id(name);
    const auto records = records_of(database_, id);
    if (!records.empty() && !records_too)
        throw Error(
            Exit::usage,
            fmt::format(
                "vehicle {}: it has records ({}): nothing was forgotten; say that the records may go too, or keep it",
                name, fmt::join(records, ", ")));
    Statement gone(database_, "DELETE FROM vehicles WHERE id = ?");
    gone.bind(1, id).run();
    transaction.commit();
}

std::int64_t Shop::start_job(std::string_view vehicle, std::string_view job, std::string_view note) {
    if (job.empty())
        throw Error(Exit::usage, fmt::format("vehicle {}: no job is given: name the job that is started", vehicle));
    Transaction transaction(database_);
    const auto id = add_started_job(database_, vehicle_id(vehicle), job, note);
    transaction.commit();
    return id;
}

std::int64_t add_started_job(Database& shop, std::int64_t vehicle, std::string_view job, std::string_view note) {
    Statement insert(shop, "INSERT INTO jobs_started (vehicle, job, started, note) VALUES (?, ?, ?, ?) RETURNING id");
    insert.bind(1, vehicle).bind(2, job).bind(3, today()).bind_or_null(4, note).step();
    const auto id = insert.integer(0);
    insert.run();
    return id;
}

std::vector<StartedJob> Shop::jobs(std::string_view vehicle) const {
    std::vector<StartedJob> all;
    Statement rows(database_, "SELECT id, job, started, note FROM jobs_started WHERE vehicle = ? ORDER BY id");
    rows.bind(1, vehicle_id(vehicle));
    while (rows.step()) all.push_back({rows.integer(0), rows.str(1), rows.str(2), rows.str(3)});
    return all;
}

}  // namespace casebound
