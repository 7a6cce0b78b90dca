#include "core/work/due_dates.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/units.h"
#include "core/say/report.h"
#include "core/session/ask_domains.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_backup.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

constexpr double rounding = 1e-6;

// What came at one time, or is on order: what of it may still go back, and old parts that are owed for it.
struct Delivery {
    const LineEvent* event{};
    double pack{}, left{}, cores{};  // pack: of a fluid, what is sold shut
    bool whole_left() const { return left + rounding >= std::min(pack, event->quantity.value_or(pack)); }
};

double pack_of(const Catalog& catalog, const std::string& item) {
    const auto known = catalog.item(item);
    const auto* kind = known ? catalog.vocabularies().item_kind(known->kind) : nullptr;
    return kind && kind->unit != "each" ? known->pack_quantity : 1;
}

// Deliveries of a vehicle with what went of them: the oldest of an item first, unless its seller is named. What is said
// without a quantity is all that there is.
class Deliveries {
public:
    Deliveries(const Catalog& catalog, const std::vector<LineEvent>& events) : catalog_(catalog) {
        for (const auto& event : events)
            if (event.stands) add(event);
    }

    const std::vector<Delivery>& all() const { return all_; }

private:
    void add(const LineEvent& event) {
        if (event.event == "received") end_order(event);
        if (event.event == "received" || event.event == "ordered") {
            const double pack = pack_of(catalog_, event.item), came = event.quantity.value_or(pack);
            all_.push_back({&event, pack, came, came});
        }
        if (event.event == "returned" || event.event == "fitted") take(event, &Delivery::left);
        if (event.event == "returned" || event.event == "core_returned") take(event, &Delivery::cores);
    }

    static bool same(const LineEvent& a, const LineEvent& b) {
        return a.role == b.role && (a.item == b.item || a.item.empty() || b.item.empty());
    }

    // Its days run from the receipt.
    void end_order(const LineEvent& received) {
        for (auto& one : all_)
            if (one.event->event == "ordered" && same(*one.event, received)) one.left = one.cores = 0;
    }

    void take(const LineEvent& gone, double Delivery::*from) {
        double quantity = gone.quantity.value_or(std::numeric_limits<double>::infinity());
        for (const bool of_its_seller : {true, false})
            for (auto& one : all_) {
                if (!same(*one.event, gone) || (one.event->seller == gone.seller) != of_its_seller) continue;
                const double taken = std::min(quantity, one.*from);
                one.*from -= taken, quantity -= taken;
            }
    }

    const Catalog& catalog_;
    std::vector<Delivery> all_;
};

void add_returns(std::vector<DueDate>& dues, const Catalog& catalog, const std::string& vehicle,
                 const std::vector<LineEvent>& events) {
    const Deliveries deliveries(catalog, events);
    for (const auto& one : deliveries.all()) {
        const auto& event = *one.event;
        const auto what = fmt::format("{}{}({})", event.item, event.item.empty() ? "" : " ",
                                      place_title(catalog, event.role));
        if (!event.return_by.empty() && one.whole_left())
            dues.push_back({event.return_by, vehicle, "last day to send back " + what});
        if (!event.core_by.empty() && one.cores > rounding)
            dues.push_back({event.core_by, vehicle, "last day for the old part of " + what});
    }
}

double days_between(const std::string& from, const std::string& to) {
    const Database clock(":memory:", Database::Mode::create);
    Statement days(clock, "SELECT julianday(?2) - julianday(?1)");
    return days.bind(1, from).bind(2, to).step() ? days.real(0) : 0;
}

void add_reading(std::vector<Reading>& readings, Session& session, const ToldFact& entry) {
    const auto* attribute = session.catalog().vocabularies().attribute(entry.attribute);
    try {
        const auto* value = entry.right_side.single();
        if (attribute && entry.stands && value)
            if (const auto number = typed_value(*attribute, *value).number)
                readings.push_back({entry.date, *number, entry.text});
    } catch (const ConditionFault&) {}
}

class ServiceFacts {
public:
    ServiceFacts(Session& session, const std::string& vehicle)
        : records_(ShopRecords(session.shop()).records(vehicle)) {
        std::erase_if(records_, [](const WorkRecord& one) { return !one.stands; });
        readings_ = odometer_readings(session, vehicle);
    }

    // What is known of the service of a role: the newest thing fitted in it, and the distance.
    ServiceWords words(const std::string& role) const {
        ServiceWords words;
        words.today = today();
        if (const auto* last = last_fitted(role)) {
            words.last_changed = last->date;
            if (const auto km = last->odometer_km ? last->odometer_km : reading_on(last->date))
                words.last_at_km = plain_number(*km, 0);
        }
        if (!readings_.empty()) words.odometer_km = plain_number(readings_.back().km, 0);
        if (const auto yearly = km_per_year(readings_)) words.km_per_year = plain_number(*yearly, 0);
        return words;
    }

    // An odometer that runs backwards is said, not smoothed over.
    std::string backwards() const {
        const auto all = odometer_contradictions(readings_);
        return all.empty() ? "" : all.front();
    }

private:
    const WorkRecord* last_fitted(const std::string& role) const {
        const WorkRecord* last = nullptr;
        for (const auto& one : records_)
            if (one.what == "fitted" && one.role == role && (!last || one.date >= last->date)) last = &one;
        return last;
    }

    std::optional<double> reading_on(const std::string& date) const {
        for (const auto& reading : readings_)
            if (reading.date == date) return reading.km;
        return std::nullopt;
    }

    std::vector<WorkRecord> records_;
    std::vector<Reading> readings_;
};

ServiceDue service_of(const std::string& vehicle, const ServiceSays& says) {
    if (!says.answer)
        return {vehicle, says.domain, fmt::format("Cannot tell: {}", says.fault), Verdict::check_first, {}};
    ServiceDue due{vehicle, says.domain, says.answer->headline, says.answer->verdict.value_or(Verdict::fits), {}};
    for (const auto& line : says.answer->lines) due.details.push_back(line.label + ": " + value_text(line));
    for (const auto* texts : {&says.answer->assumptions, &says.answer->cautions, &says.answer->next})
        due.details.insert(due.details.end(), texts->begin(), texts->end());
    return due;
}

void add_services(Session& session, const std::string& vehicle, std::vector<ServiceDue>& all) {
    try {
        const auto situation = session.situation(vehicle);
        const ServiceFacts facts(session, vehicle);
        for (const auto& says :
             services_say(session, *situation, [&](const std::string& role) { return facts.words(role); })) {
            all.push_back(service_of(vehicle, says));
            if (const auto words = facts.backwards(); !words.empty())
                all.back().details.insert(all.back().details.begin(), words);
        }
    } catch (const Error& error) {
        all.push_back({vehicle, {}, fmt::format("Cannot tell: {}", error.what()), Verdict::check_first, {}});
    }
}

}  // namespace

std::vector<Reading> odometer_readings(Session& session, const std::string& vehicle) {
    std::vector<Reading> readings;
    for (const auto& one : ShopRecords(session.shop()).records(vehicle))
        if (one.stands && one.odometer_km) readings.push_back({one.date, *one.odometer_km});
    for (const auto& entry : ShopTold(session.shop()).history(vehicle))
        if (entry.attribute == "odometer" && !entry.withdrawn) add_reading(readings, session, entry);
    std::stable_sort(readings.begin(), readings.end(),
                     [](const Reading& a, const Reading& b) { return a.date < b.date; });
    return readings;
}

std::vector<std::string> odometer_contradictions(const std::vector<Reading>& readings) {
    std::vector<std::string> said;
    for (std::size_t i = 1; i < readings.size(); ++i)
        if (readings[i].km < readings[i - 1].km)
            said.push_back(
                fmt::format("The odometer was {} km on {} and {} km on {}: one of them is wrong, or it was changed.",
                            plain_number(readings[i - 1].km, 0), readings[i - 1].date, plain_number(readings[i].km, 0),
                            readings[i].date));
    return said;
}

std::optional<double> km_per_year(const std::vector<Reading>& readings, int least_days) {
    if (readings.size() < 2) return std::nullopt;
    const auto &first_day = readings.front().date, &last_day = readings.back().date;
    const double first_km = readings.front().km, last_km = readings.back().km;
    const double days = days_between(first_day, last_day);
    if (days < least_days || last_km <= first_km) return std::nullopt;
    return std::max(1.0, std::round((last_km - first_km) / days * 365.25));
}

bool any_line_invented(Session& session) {
    const auto invented = [&](std::int64_t origin) { return session.catalog().invented(origin); };
    for (const auto& vehicle : ShopVehicles(session.shop()).all())
        if (const auto* line = session.catalog().line(vehicle.line))
            if (std::any_of(line->origins.begin(), line->origins.end(), invented)) return true;
    return false;
}

bool DueDate::past() const { return date < today(); }

std::vector<DueDate> return_dates(Session& session) {
    std::vector<DueDate> dues;
    const ShopRecords records(session.shop());
    for (const auto& vehicle : ShopVehicles(session.shop()).all())
        add_returns(dues, session.catalog(), vehicle.name, records.events(vehicle.name));
    std::stable_sort(dues.begin(), dues.end(), [](const DueDate& a, const DueDate& b) { return a.date < b.date; });
    return dues;
}

std::vector<ServiceDue> services_due(Session& session) {
    std::vector<ServiceDue> all;
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) add_services(session, vehicle.name, all);
    std::stable_sort(all.begin(), all.end(), [](const ServiceDue& a, const ServiceDue& b) {
        return (a.verdict == Verdict::fits) < (b.verdict == Verdict::fits);
    });
    return all;
}

std::optional<std::string> backup_due(Session& session) {
    constexpr int fresh_days = 14;  // our choice: what is told in two weeks is work to tell again
    const auto old = [](const std::string& day) { return days_after(day, fresh_days) <= today(); };
    const auto vehicles = ShopVehicles(session.shop()).all();
    if (std::none_of(vehicles.begin(), vehicles.end(), [&](const Vehicle& one) { return old(one.created); })) return {};
    const auto last = last_backup(session.options().shop);
    if (last && !old(last->date)) return {};
    return (last ? fmt::format("The last backup of the shop is of {}, {}", last->date, last->path)
                 : std::string("There is no backup of the shop")) +
           ": `casebound shop backup FOLDER` writes one, to be taken off this machine.";
}

}  // namespace casebound
