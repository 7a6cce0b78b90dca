#include "shop_records.h"

#include <fmt/format.h>

#include "dates.h"
#include "error.h"

namespace casebound {

namespace {

// Binds columns in the order they are written; an absent value is NULL.
class Binder {
public:
    explicit Binder(Statement& into) : into_(into) {}
    Binder& operator<<(std::string_view text) { into_.bind_or_null(++at_, text); return *this; }
    Binder& operator<<(std::int64_t value) { into_.bind(++at_, value); return *this; }
    Binder& operator<<(std::optional<double> value) { into_.bind_or_null(++at_, value); return *this; }
    Binder& operator<<(std::optional<std::int64_t> value) {
        ++at_;
        if (value) into_.bind(at_, *value);
        else into_.bind_null(at_);
        return *this;
    }

private:
    Statement& into_;
    int at_ = 0;
};

// Reads columns in order.
class Reader {
public:
    explicit Reader(const Statement& row) : row_(row) {}
    std::string text() { return row_.str(at_++); }
    std::int64_t integer() { return row_.integer(at_++); }
    std::optional<double> real_if() {
        const int at = at_++;
        return row_.is_null(at) ? std::nullopt : std::optional(row_.real(at));
    }
    std::optional<std::int64_t> integer_if() {
        const int at = at_++;
        return row_.is_null(at) ? std::nullopt : std::optional(row_.integer(at));
    }

private:
    const Statement& row_;
    int at_ = 0;
};

std::string day_of(std::string_view what, const std::string& date) {
    if (date.empty()) return today();
    if (!is_date(date)) throw Error(Exit::usage, fmt::format("{}: \"{}\" is not a date: write YYYY-MM-DD", what, date));
    if (date > today()) throw Error(Exit::usage, fmt::format("{}: {} has not come yet: write the day it was done", what, date));
    return date;
}

void insert(const Database& database, std::int64_t vehicle, const LineEvent& event) {
    Statement row(database,
                  "INSERT INTO line_events (vehicle, job, role, event, item, quantity, seller, return_by, core_by, core_cents, note, date, entered, corrects)"
                  " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    Binder(row) << vehicle << event.job << event.role << event.event << event.item << event.quantity << event.seller << event.return_by << event.core_by
                << event.core_cents << event.note << day_of(event.event, event.date) << today() << event.corrects;
    row.run();
}

void insert(const Database& database, std::int64_t vehicle, const WorkRecord& one) {
    Statement row(database,
                  "INSERT INTO records (vehicle, job, what, role, item, made, label, quantity, torque_nm, seals_out, seals_in, out_l, out_temp_c, in_l, in_temp_c,"
                  " gears, codes, drives, leaks, odometer_km, photo, note, date, entered, corrects)"
                  " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    Binder(row) << vehicle << one.job << one.what << one.role << one.item << one.made << one.label << one.quantity << one.torque_nm << one.seals_out << one.seals_in
                << one.out_l << one.out_temp_c << one.in_l << one.in_temp_c << one.gears << one.codes << one.drives << one.leaks << one.odometer_km << one.photo
                << one.note << day_of(one.what, one.date) << today() << one.corrects;
    row.run();
}

void insert(const Database& database, std::int64_t vehicle, const MoneyEntry& entry) {
    Statement row(database, "INSERT INTO money (vehicle, job, kind, cents, note, date, entered, corrects) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    Binder(row) << vehicle << entry.job << entry.kind << entry.cents << entry.note << day_of(entry.kind, entry.date) << today() << entry.corrects;
    row.run();
}

Closing closing_of(const Statement& row) {
    Reader read(row);
    Closing closing;
    closing.job = read.integer();
    closing.job_key = read.text();
    closing.vehicle = read.text();
    closing.cause = read.text();
    closing.worked = read.text();
    closing.hours = *read.real_if();
    closing.cost_cents = read.integer();
    closing.note = read.text();
    closing.date = read.text();
    return closing;
}

constexpr std::string_view newest_closings =
    "SELECT c.job, j.job, v.name, c.cause, c.worked, c.hours, c.cost_cents, c.note, c.date FROM closings c"
    " JOIN jobs_started j ON j.id = c.job JOIN vehicles v ON v.id = c.vehicle WHERE c.id = (SELECT max(id) FROM closings n WHERE n.job = c.job)";

}  // namespace

std::int64_t ShopRecords::vehicle_id(std::string_view name) const {
    Statement find(database_, "SELECT id FROM vehicles WHERE name = ? COLLATE BINARY");
    if (find.bind(1, name).step()) return find.integer(0);
    throw Error(Exit::no_input, fmt::format("vehicle {}: there is no vehicle of that name: see `casebound vehicle list`", name));
}

void ShopRecords::check_job(std::int64_t vehicle, std::optional<std::int64_t> job) const {
    if (!job) return;
    Statement find(database_, "SELECT 1 FROM jobs_started WHERE id = ? AND vehicle = ?");
    if (!find.bind(1, *job).bind(2, vehicle).step()) throw Error(Exit::no_input, fmt::format("job {}: it was not started on this vehicle", *job));
}

void ShopRecords::check_corrected(std::int64_t vehicle, std::string_view table, std::optional<std::int64_t> corrects) const {
    if (!corrects) return;
    Statement find(database_, fmt::format("SELECT 1 FROM {0} r WHERE id = ? AND vehicle = ? AND NOT EXISTS (SELECT 1 FROM {0} c WHERE c.corrects = r.id)", table));
    if (!find.bind(1, *corrects).bind(2, vehicle).step())
        throw Error(Exit::no_input, fmt::format("entry {}: no such entry of this vehicle stands: see its history sheet for the numbers", *corrects));
}

void ShopRecords::add(std::string_view vehicle, const NewWork& work) {
    Transaction transaction(database_);
    const auto id = vehicle_id(vehicle);
    const auto each = [&](const auto& entries, std::string_view table) {
        for (const auto& entry : entries) {
            check_job(id, entry.job);
            check_corrected(id, table, entry.corrects);
            insert(database_, id, entry);
        }
    };
    each(work.events, "line_events");
    each(work.records, "records");
    each(work.money, "money");
    transaction.commit();
}

void ShopRecords::close(std::string_view vehicle, const Closing& closing) {
    Transaction transaction(database_);
    const auto id = vehicle_id(vehicle);
    check_job(id, closing.job);
    Statement row(database_, "INSERT INTO closings (job, vehicle, cause, worked, hours, cost_cents, note, date, entered) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
    Binder(row) << closing.job << id << closing.cause << closing.worked << std::optional(closing.hours) << closing.cost_cents << closing.note
                << day_of("closing", closing.date) << today();
    row.run();
    transaction.commit();
}

std::vector<LineEvent> ShopRecords::events(std::string_view vehicle) const {
    std::vector<LineEvent> all;
    Statement rows(database_,
                   "SELECT id, job, role, event, item, quantity, seller, return_by, core_by, core_cents, note, date, corrects,"
                   " NOT EXISTS (SELECT 1 FROM line_events c WHERE c.corrects = e.id) FROM line_events e WHERE vehicle = ? ORDER BY id");
    rows.bind(1, vehicle_id(vehicle));
    while (rows.step()) {
        Reader read(rows);
        LineEvent one;
        one.id = read.integer();
        one.job = read.integer_if();
        one.role = read.text();
        one.event = read.text();
        one.item = read.text();
        one.quantity = read.real_if();
        one.seller = read.text();
        one.return_by = read.text();
        one.core_by = read.text();
        one.core_cents = read.integer_if();
        one.note = read.text();
        one.date = read.text();
        one.corrects = read.integer_if();
        one.stands = read.integer() != 0;
        all.push_back(std::move(one));
    }
    return all;
}

std::vector<WorkRecord> ShopRecords::records(std::string_view vehicle) const {
    std::vector<WorkRecord> all;
    Statement rows(database_,
                   "SELECT id, job, what, role, item, made, label, quantity, torque_nm, seals_out, seals_in, out_l, out_temp_c, in_l, in_temp_c, gears, codes, drives,"
                   " leaks, odometer_km, photo, note, date, corrects, NOT EXISTS (SELECT 1 FROM records c WHERE c.corrects = r.id)"
                   " FROM records r WHERE vehicle = ? ORDER BY id");
    rows.bind(1, vehicle_id(vehicle));
    while (rows.step()) {
        Reader read(rows);
        WorkRecord one;
        one.id = read.integer();
        one.job = read.integer_if();
        for (auto* text : {&one.what, &one.role, &one.item, &one.made, &one.label}) *text = read.text();
        one.quantity = read.real_if();
        one.torque_nm = read.real_if();
        one.seals_out = read.integer_if();
        one.seals_in = read.integer_if();
        for (auto* number : {&one.out_l, &one.out_temp_c, &one.in_l, &one.in_temp_c}) *number = read.real_if();
        one.gears = read.text();
        one.codes = read.text();
        one.drives = read.integer_if();
        one.leaks = read.text();
        one.odometer_km = read.real_if();
        for (auto* text : {&one.photo, &one.note, &one.date}) *text = read.text();
        one.corrects = read.integer_if();
        one.stands = read.integer() != 0;
        all.push_back(std::move(one));
    }
    return all;
}

std::vector<MoneyEntry> ShopRecords::money(std::string_view vehicle) const {
    std::vector<MoneyEntry> all;
    Statement rows(database_,
                   "SELECT id, job, kind, cents, note, date, corrects, NOT EXISTS (SELECT 1 FROM money c WHERE c.corrects = m.id)"
                   " FROM money m WHERE vehicle = ? ORDER BY id");
    rows.bind(1, vehicle_id(vehicle));
    while (rows.step()) {
        Reader read(rows);
        MoneyEntry one;
        one.id = read.integer();
        one.job = read.integer_if();
        one.kind = read.text();
        one.cents = read.integer();
        one.note = read.text();
        one.date = read.text();
        one.corrects = read.integer_if();
        one.stands = read.integer() != 0;
        all.push_back(std::move(one));
    }
    return all;
}

std::vector<Closing> ShopRecords::closings(std::string_view vehicle) const {
    std::vector<Closing> all;
    Statement rows(database_, fmt::format("{} AND c.vehicle = ? ORDER BY c.job", newest_closings));
    rows.bind(1, vehicle_id(vehicle));
    while (rows.step()) all.push_back(closing_of(rows));
    return all;
}

std::int64_t ShopRecords::spent_cents(std::string_view vehicle) const {
    std::int64_t spent = 0;
    for (const auto& entry : money(vehicle))
        if (entry.stands && entry.kind != "sale") spent += entry.comes_in() ? -entry.cents : entry.cents;
    return spent;
}

OwnRate ShopRecords::rate_of(std::string_view job) const {
    OwnRate rate;
    Statement rows(database_, fmt::format("{} AND j.job = ? ORDER BY c.job", newest_closings));
    rows.bind(1, job);
    while (rows.step()) {
        const auto closing = closing_of(rows);
        ++rate.closed;
        rate.worked += closing.worked == "yes";
        rate.failed += closing.worked == "no";
        rate.hours.push_back(closing.hours);
        rate.cost_cents.push_back(closing.cost_cents);
    }
    return rate;
}

int ShopRecords::vehicles_sold(std::string_view since, std::string_view until, bool only_sold) const {
    Statement count(database_,
                    "SELECT count(DISTINCT vehicle) FROM records r WHERE (what = 'sold' OR (what = 'for_sale' AND NOT ?3)) AND date BETWEEN ?1 AND ?2"
                    " AND NOT EXISTS (SELECT 1 FROM records c WHERE c.corrects = r.id)");
    count.bind(1, since).bind(2, until).bind(3, std::int64_t{only_sold});
    return count.step() ? static_cast<int>(count.integer(0)) : 0;
}

std::string days_after(std::string_view date, int days) {
    const Database clock(":memory:", Database::Mode::create);
    Statement later(clock, "SELECT date(?1, ?2)");
    later.bind(1, date).bind(2, fmt::format("{:+d} days", days)).step();
    return later.str(0);
}

}  // namespace casebound
