#include "core/shop/shop_records.h"

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/text_layout.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_photos.h"

namespace casebound {

namespace {

// The columns of each table, once: they are written and read in this order.
template <class One> struct Columns;

template <> struct Columns<LineEvent> {
    static constexpr std::string_view table = "line_events", shown_as = "event";
    static std::string_view what(const LineEvent& one) { return one.event; }
    template <class Row, class Visit> static void each(Row& one, Visit&& visit) {
        visit("role", one.role), visit("event", one.event), visit("item", one.item), visit("quantity", one.quantity),
            visit("seller", one.seller);
        visit("return_by", one.return_by), visit("core_by", one.core_by), visit("core_cents", one.core_cents);
    }
};

template <> struct Columns<WorkRecord> {
    static constexpr std::string_view table = "records", shown_as = "record";
    static std::string_view what(const WorkRecord& one) { return one.what; }
    template <class Row, class Visit> static void each(Row& one, Visit&& visit) {
        visit("what", one.what), visit("role", one.role), visit("item", one.item), visit("made", one.made),
            visit("label", one.label);
        visit("quantity", one.quantity), visit("torque_nm", one.torque_nm), visit("seals_out", one.seals_out),
            visit("seals_in", one.seals_in);
        visit("out_l", one.out_l), visit("out_temp_c", one.out_temp_c), visit("in_l", one.in_l),
            visit("in_temp_c", one.in_temp_c);
        visit("gears", one.gears), visit("codes", one.codes), visit("drives", one.drives), visit("leaks", one.leaks),
            visit("leak_minutes", one.leak_minutes);
        visit("odometer_km", one.odometer_km), visit("photo", one.photo), visit("state", one.state);
    }
};

template <> struct Columns<MoneyEntry> {
    static constexpr std::string_view table = "money", shown_as = "money";
    static std::string_view what(const MoneyEntry& one) { return one.kind; }
    template <class Row, class Visit> static void each(Row& one, Visit&& visit) {
        visit("kind", one.kind), visit("cents", one.cents);
    }
};

// The columns of one table with those that every entry has.
template <class One, class Row, class Visit> void each_column(Row& one, Visit&& visit) {
    visit("job", one.job), visit("note", one.note), visit("date", one.date), visit("corrects", one.corrects);
    Columns<One>::each(one, visit);
}

template <class One> std::string column_names() {
    std::string names;
    const One none;
    each_column<One>(none,
                     [&](std::string_view name, const auto&) { names.append(names.empty() ? "" : ", ").append(name); });
    return names;
}

// Binds values in order; an absent one is NULL.
class Binder {
public:
    explicit Binder(Statement& into) : into_(into) {}
    void take(std::string_view text) { into_.bind_or_null(++at_, text); }
    void take(std::int64_t value) { into_.bind(++at_, value); }
    void take(std::optional<double> value) { into_.bind_or_null(++at_, value); }
    void take(std::optional<std::int64_t> value) { value ? into_.bind(++at_, *value) : into_.bind_null(++at_); }

private:
    Statement& into_;
    int at_ = 0;
};

// Reads values in order.
class Reader {
public:
    explicit Reader(const Statement& row) : row_(row) {}
    void give(std::string& text) { text = row_.str(at_++); }
    void give(std::int64_t& value) { value = row_.integer(at_++); }
    void give(double& value) { value = row_.real(at_++); }
    void give(bool& value) { value = row_.integer(at_++) != 0; }
    void give(std::optional<double>& value) {
        value = row_.is_null(at_) ? std::nullopt : std::optional(row_.real(at_)), ++at_;
    }
    void give(std::optional<std::int64_t>& value) {
        value = row_.is_null(at_) ? std::nullopt : std::optional(row_.integer(at_)), ++at_;
    }

private:
    const Statement& row_;
    int at_ = 0;
};

std::string day_of(std::string_view what, const std::string& date) {
    if (date.empty()) return today();
    if (!is_date(date)) throw Error(Exit::usage, fmt::format("{}: \"{}\" is not a date: write YYYY-MM-DD", what, date));
    if (date > today())
        throw Error(Exit::usage, fmt::format("{}: {} has not come yet: write the day it was done", what, date));
    return date;
}

template <class One> void insert(const Database& database, std::int64_t vehicle, One one) {
    one.date = day_of(Columns<One>::what(one), one.date);
    std::string marks;
    each_column<One>(one, [&](std::string_view, const auto&) { marks += ", ?"; });
    Statement row(database, fmt::format("INSERT INTO {} (vehicle, entered, {}) VALUES (?, ?{}) RETURNING id",
                                        Columns<One>::table, column_names<One>(), marks));
    Binder binder(row);
    binder.take(vehicle), binder.take(today());
    each_column<One>(one, [&](std::string_view, const auto& value) { binder.take(value); });
    row.step();
    const auto id = row.integer(0);
    row.run();
    link_photos(database, one.photos, Columns<One>::shown_as, id);
}

void insert(const Database& database, std::int64_t vehicle, const Accepted& one) {
    Statement row(database,
                  "INSERT INTO accepted (vehicle, job, attribute, text, doubt, after_telling, entered) VALUES (?1, ?2, "
                  "?3, ?4, ?5, (SELECT coalesce(max(id), 0) FROM tellings WHERE vehicle = ?1), ?6)");
    row.bind(1, vehicle).bind(2, one.job).bind(3, one.attribute).bind(4, one.text).bind(5, one.doubt).bind(6, today());
    row.run();
}

// Oldest first. What stands is decided here and nowhere else.
template <class One> std::vector<One> all_of(const Database& database, std::int64_t vehicle) {
    std::vector<One> all;
    Statement rows(database, fmt::format("SELECT {1}, id, NOT EXISTS (SELECT 1 FROM {0} c WHERE c.corrects = r.id) "
                                         "FROM {0} r WHERE vehicle = ? ORDER BY id",
                                         Columns<One>::table, column_names<One>()));
    rows.bind(1, vehicle);
    auto photos = photos_by_entry(database, vehicle, Columns<One>::shown_as);
    while (rows.step()) {
        One one;
        Reader reader(rows);
        each_column<One>(one, [&](std::string_view, auto& value) { reader.give(value); });
        reader.give(one.id), reader.give(one.stands);
        if (const auto of_it = photos.find(one.id); of_it != photos.end()) one.photos = std::move(of_it->second);
        all.push_back(std::move(one));
    }
    return all;
}

// A part that was written down for the wrong place, or another part for the place; else it is another entry's number.
template <class One> void check_same_matter(const Database& database, std::int64_t vehicle, const One& entry) {
    const auto named = [](const One& one) {
        const auto place = one.role.empty() ? std::string("no place") : one.role;
        return one.item.empty() ? place : fmt::format("{} ({})", place, one.item);
    };
    if (!entry.corrects) return;
    for (const auto& wrong : all_of<One>(database, vehicle))
        if (wrong.id == *entry.corrects && wrong.role != entry.role && (entry.item.empty() || entry.item != wrong.item))
            throw Error(Exit::usage,
                        fmt::format("entry {}: it is {} for {}, not for {}: see the history sheet for the numbers",
                                    wrong.id, spaced(Columns<One>::what(wrong)), named(wrong), named(entry)));
}
void check_same_matter(const Database&, std::int64_t, const MoneyEntry&) {}

Closing closing_of(const Statement& row) {
    Reader read(row);
    Closing one;
    read.give(one.job);
    for (auto* text : {&one.job_key, &one.vehicle, &one.cause, &one.worked}) read.give(*text);
    read.give(one.hours), read.give(one.cost_cents), read.give(one.note), read.give(one.date);
    return one;
}

constexpr std::string_view newest_closings =
    "SELECT c.job, j.job, v.name, c.cause, c.worked, c.hours, c.cost_cents, c.note, c.date FROM closings c"
    " JOIN jobs_started j ON j.id = c.job JOIN vehicles v ON v.id = c.vehicle WHERE c.id = (SELECT max(id) FROM "
    "closings n WHERE n.job = c.job)";

std::int64_t add_started_job(Database& shop, std::int64_t vehicle, std::string_view job, std::string_view note) {
    Statement insert(shop, "INSERT INTO jobs_started (vehicle, job, started, note) VALUES (?, ?, ?, ?) RETURNING id");
    insert.bind(1, vehicle).bind(2, job).bind(3, today()).bind_or_null(4, note).step();
    const auto id = insert.integer(0);
    insert.run();
    return id;
}

}  // namespace

std::int64_t ShopRecords::start_job(std::string_view vehicle, std::string_view job, std::string_view note) {
    if (job.empty())
        throw Error(Exit::usage, fmt::format("vehicle {}: no job is given: name the job that is started", vehicle));
    Transaction transaction(database_);
    const auto id = add_started_job(database_, vehicle_id(database_, vehicle), job, note);
    transaction.commit();
    return id;
}

std::vector<StartedJob> ShopRecords::jobs(std::string_view vehicle) const {
    std::vector<StartedJob> all;
    Statement rows(database_, "SELECT id, job, started, note FROM jobs_started WHERE vehicle = ? ORDER BY id");
    rows.bind(1, vehicle_id(database_, vehicle));
    while (rows.step()) all.push_back({rows.integer(0), rows.str(1), rows.str(2), rows.str(3)});
    return all;
}

void ShopRecords::check_job(std::int64_t vehicle, std::optional<std::int64_t> job) const {
    if (!job) return;
    Statement find(database_, "SELECT 1 FROM jobs_started WHERE id = ? AND vehicle = ?");
    if (!find.bind(1, *job).bind(2, vehicle).step())
        throw Error(Exit::no_input, fmt::format("job {}: it was not started on this vehicle", *job));
}

void ShopRecords::check_corrected(std::int64_t vehicle, std::string_view table,
                                  std::optional<std::int64_t> corrects) const {
    if (!corrects) return;
    Statement find(database_, fmt::format("SELECT 1 FROM {0} r WHERE id = ? AND vehicle = ? AND NOT EXISTS (SELECT 1 "
                                          "FROM {0} c WHERE c.corrects = r.id)",
                                          table));
    if (!find.bind(1, *corrects).bind(2, vehicle).step())
        throw Error(Exit::no_input,
                    fmt::format("entry {}: no such entry of this vehicle stands: see its history sheet for the numbers",
                                *corrects));
}

void ShopRecords::add(std::string_view vehicle, const NewWork& work) {
    Transaction transaction(database_);
    add_within(vehicle_id(database_, vehicle), work);
    transaction.commit();
}

std::int64_t ShopRecords::add_to_job(std::string_view vehicle, std::string_view job, std::string_view note,
                                     NewWork work) {
    Transaction transaction(database_);
    const auto id = vehicle_id(database_, vehicle);
    Statement open(database_,
                   "SELECT max(id) FROM jobs_started j WHERE vehicle = ? AND job = ? AND NOT EXISTS (SELECT 1 FROM "
                   "closings c WHERE c.job = j.id)");
    open.bind(1, id).bind(2, job).step();
    const auto started = open.is_null(0) ? add_started_job(database_, id, job, note) : open.integer(0);
    for (auto& event : work.events) event.job = started;
    for (auto& record : work.records) record.job = started;
    for (auto& money : work.money) money.job = started;
    for (auto& one : work.accepted) one.job = started;
    add_within(id, work);
    open.reset();
    transaction.commit();
    return started;
}

void ShopRecords::add_within(std::int64_t vehicle, const NewWork& work) {
    const auto add_all = [&]<class One>(const std::vector<One>& entries) {
        for (const auto& entry : entries) {
            check_job(vehicle, entry.job);
            check_corrected(vehicle, Columns<One>::table, entry.corrects);
            check_same_matter(database_, vehicle, entry);
            insert(database_, vehicle, entry);
        }
    };
    add_all(work.events), add_all(work.records), add_all(work.money);
    for (const auto& move : work.shelf) move_on_shelf(database_, move);
    for (const auto& one : work.accepted) {
        check_job(vehicle, one.job);
        insert(database_, vehicle, one);
    }
}

void ShopRecords::close(std::string_view vehicle, const Closing& closing) {
    Transaction transaction(database_);
    const auto id = vehicle_id(database_, vehicle);
    check_job(id, closing.job);
    Statement row(database_,
                  "INSERT INTO closings (job, vehicle, cause, worked, hours, cost_cents, note, date, entered) VALUES "
                  "(?, ?, ?, ?, ?, ?, ?, ?, ?)");
    row.bind(1, closing.job)
        .bind(2, id)
        .bind(3, closing.cause)
        .bind(4, closing.worked)
        .bind(5, closing.hours)
        .bind(6, closing.cost_cents);
    row.bind_or_null(7, closing.note).bind(8, day_of("closing", closing.date)).bind(9, today());
    row.run();
    transaction.commit();
}

std::vector<LineEvent> ShopRecords::events(std::string_view vehicle) const {
    return all_of<LineEvent>(database_, vehicle_id(database_, vehicle));
}
std::vector<WorkRecord> ShopRecords::records(std::string_view vehicle) const {
    return all_of<WorkRecord>(database_, vehicle_id(database_, vehicle));
}
std::vector<MoneyEntry> ShopRecords::money(std::string_view vehicle) const {
    return all_of<MoneyEntry>(database_, vehicle_id(database_, vehicle));
}

std::vector<Closing> ShopRecords::closings(std::string_view vehicle) const {
    std::vector<Closing> all;
    Statement rows(database_, fmt::format("{} AND c.vehicle = ? ORDER BY c.job", newest_closings));
    rows.bind(1, vehicle_id(database_, vehicle));
    while (rows.step()) all.push_back(closing_of(rows));
    return all;
}

std::int64_t ShopRecords::spent_cents(std::string_view vehicle) const {
    std::int64_t spent = 0;
    for (const auto& entry : money(vehicle))
        if (entry.stands && entry.kind != "sale" &&
            (entry.comes_in() ? __builtin_sub_overflow(spent, entry.cents, &spent)
                              : __builtin_add_overflow(spent, entry.cents, &spent)))
            throw Error(Exit::bad_data, fmt::format("vehicle {}: its money comes to more than can be counted: correct "
                                                    "the entry that is too large (`casebound vehicle show {}`)",
                                                    vehicle, vehicle));
    return spent;
}

std::vector<Accepted> ShopRecords::accepted(std::string_view vehicle) const {
    std::vector<Accepted> all;
    Statement rows(
        database_,
        "SELECT a.attribute, a.text, a.doubt, a.job, j.job, a.entered FROM accepted a JOIN jobs_started j ON "
        "j.id = a.job WHERE a.vehicle = ? AND NOT EXISTS (SELECT 1 FROM tellings t WHERE t.vehicle = "
        "a.vehicle AND t.attribute = a.attribute AND t.id > a.after_telling AND t.evidence IN ('measured', "
        "'read') AND NOT EXISTS (SELECT 1 FROM tellings c WHERE c.corrects = t.id)) ORDER BY a.id");
    rows.bind(1, vehicle_id(database_, vehicle));
    while (rows.step())
        all.push_back({rows.str(0), rows.str(1), rows.str(2), rows.integer(3), rows.str(4), rows.str(5)});
    return all;
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
                    "SELECT count(DISTINCT vehicle) FROM records r WHERE (what = 'sold' OR (what = 'for_sale' AND NOT "
                    "?3)) AND date BETWEEN ?1 AND ?2"
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
