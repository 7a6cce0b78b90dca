// What was done on a vehicle: jobs started, events of a job's lines, records, money and closings. Only ever added to: a row may
// name an earlier one of the same vehicle that it corrects, and both stay. One call is one transaction.
// Knows no role, item or job: the caller checks words. Throws Error: 64 for what may not be, 66 for what is not there.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/ground/photo.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_offers.h"

namespace casebound {

struct StartedJob {
    std::int64_t id{};
    std::string job, started, note;  // started: YYYY-MM-DD
};

// What every entry has.
struct Entry {
    std::int64_t id{};                  // set by the shop
    std::optional<std::int64_t> job{};  // started job
    std::string note{}, date{};         // date: YYYY-MM-DD; empty: today
    std::optional<std::int64_t> corrects{};
    bool stands = true;           // no later row corrects it
    std::vector<Photo> photos{};  // those that show it; to add it, their numbers are enough
};

struct LineEvent : Entry {
    std::string role{}, event{};  // ordered, received, matched, mismatched, fitted, left_over, returned, core_returned
    std::string item{};
    std::optional<double> quantity{};
    std::string seller{}, return_by{}, core_by{};  // dates, empty: none
    std::optional<std::int64_t> core_cents{};
};

struct WorkRecord : Entry {
    std::string what{};                           // fitted, looked_at, proof, odometer, for_sale, sold
    std::string role{}, item{}, made{}, label{};  // made: new, remanufactured, used, own_stock
    std::optional<double> quantity{}, torque_nm{};
    std::optional<std::int64_t> seals_out{}, seals_in{};
    std::optional<double> out_l{}, out_temp_c{}, in_l{}, in_temp_c{};
    std::string gears{}, codes{};
    std::optional<std::int64_t> drives{};
    std::string leaks{};
    std::optional<double> leak_minutes{}, odometer_km{};
    std::string photo{};  // a name alone, of entries before version 6 of the shop file
    std::string state{};  // of what was looked at: sound, worn, damaged, leaking
};

struct MoneyEntry : Entry {
    std::string kind{};  // purchase, transport, diagnosis, parts, fluid, hire, refund, sale, other
    std::int64_t cents{};
    bool comes_in() const { return kind == "refund" || kind == "sale"; }
    // What the vehicle costs and brings whatever is done on it: no job's.
    bool of_vehicle() const {
        return kind == "purchase" || kind == "transport" || kind == "diagnosis" || kind == "sale";
    }
};

// What an order took for true although it is in doubt.
struct Accepted {
    std::string attribute, text;  // "pan_depth", "41mm"
    std::string doubt;            // why it is in doubt, in words
    std::int64_t job{};           // started job that the order is for
    std::string job_key{}, entered{};
};

struct Closing {
    std::int64_t job{};                               // started job
    std::string job_key{}, vehicle{}, cause, worked;  // worked: yes, no, not_known; job_key, vehicle: set by the shop
    double hours{};
    std::int64_t cost_cents{};
    std::string note{}, date{};
};

// Together in one transaction.
struct NewWork {
    std::vector<LineEvent> events{};
    std::vector<WorkRecord> records{};
    std::vector<MoneyEntry> money{};
    std::vector<ShelfMove> shelf{};
    std::vector<Accepted> accepted{};  // of a job that is named or found
};

// What closed jobs of one kind say.
struct OwnRate {
    int closed{}, worked{}, failed{};
    std::vector<double> hours{};
    std::vector<std::int64_t> cost_cents{};
};

class ShopRecords {
public:
    explicit ShopRecords(Database& shop) : database_(shop) {}

    std::int64_t start_job(std::string_view vehicle, std::string_view job, std::string_view note = {});
    std::vector<StartedJob> jobs(std::string_view vehicle) const;  // oldest first

    void add(std::string_view vehicle, const NewWork& work);
    // All of it belongs to the newest job of that key that is not closed, started with `note` when there is none:
    // together in one transaction. Returns the job.
    std::int64_t add_to_job(std::string_view vehicle, std::string_view job, std::string_view note, NewWork work);
    void close(std::string_view vehicle, const Closing& closing);  // Error 66 when the job is not the vehicle's

    std::vector<LineEvent> events(std::string_view vehicle) const;  // oldest first, corrected ones too
    std::vector<WorkRecord> records(std::string_view vehicle) const;
    std::vector<MoneyEntry> money(std::string_view vehicle) const;
    std::vector<Closing> closings(std::string_view vehicle) const;  // the newest of each job, by job
    std::int64_t spent_cents(std::string_view vehicle) const;       // that stands: out less refunds, without sales
    // Of orders, oldest first: what nobody has measured or read since.
    std::vector<Accepted> accepted(std::string_view vehicle) const;
    OwnRate rate_of(std::string_view job) const;  // over all vehicles
    // Vehicles put up for sale or sold from `since` to `until`, each once; `only_sold`: sold ones.
    int vehicles_sold(std::string_view since, std::string_view until, bool only_sold) const;

private:
    void add_within(std::int64_t vehicle, const NewWork& work);
    void check_job(std::int64_t vehicle, std::optional<std::int64_t> job) const;
    void check_corrected(std::int64_t vehicle, std::string_view table, std::optional<std::int64_t> corrects) const;
    Database& database_;
};

// `date` and `days` later. Requires: is_date(date).
std::string days_after(std::string_view date, int days);

}  // namespace casebound
