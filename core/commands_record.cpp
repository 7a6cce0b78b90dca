// What was done on a vehicle, written down: record, close, due. Words are checked against the catalog before
// anything is written; nothing is overwritten.
#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "command.h"
#include "condition.h"
#include "dates.h"
#include "json_of.h"
#include "inquiry.h"
#include "keyed_words.h"
#include "order_report.h"
#include "shop_records.h"
#include "text_layout.h"
#include "units.h"

namespace casebound {

namespace {

const std::vector<std::string>& record_keys() {
    static const std::vector<std::string> keys{"job", "role", "item", "made", "label", "quantity", "torque", "seals_out", "seals_in", "out", "out_temp", "in", "in_temp", "gears", "codes",
                                               "drives", "leaks", "odometer", "photo", "note", "date", "seller", "return_by", "core_by", "core", "kind", "amount", "corrects"};
    return keys;
}

const std::vector<std::string> line_events{"ordered", "received", "matched", "fitted", "left_over", "returned", "core_returned"};
const std::vector<std::string> money_kinds{"purchase", "transport", "diagnosis", "parts", "fluid", "hire", "refund", "sale", "other"};
const std::vector<std::string> made_kinds{"new", "remanufactured", "used", "own_stock"};

bool holds(const std::vector<std::string>& words, const std::string& word) { return std::find(words.begin(), words.end(), word) != words.end(); }

std::string one_of(std::string_view key, std::string word, const std::vector<std::string>& allowed) {
    std::replace(word.begin(), word.end(), '-', '_');
    std::replace(word.begin(), word.end(), ' ', '_');
    if (!holds(allowed, word)) throw Error(Exit::usage, fmt::format("{}: \"{}\": write one of {}", key, word, fmt::join(allowed, ", ")));
    return word;
}

std::string date_if(const KeyedWords& words, std::string_view key) {
    const auto text = words.text(key);
    if (!text.empty() && !is_date(text)) throw Error(Exit::usage, fmt::format("{}: \"{}\" is not a date: write YYYY-MM-DD", key, text));
    return text;
}

// The started job a word means: its key (the newest of that key that is not closed) or its number.
std::optional<std::int64_t> job_of(Session& session, const std::string& vehicle, const std::string& word) {
    const auto jobs = session.shop().jobs(vehicle);
    std::vector<std::int64_t> closed;
    for (const auto& closing : ShopRecords(session.shop().database()).closings(vehicle)) closed.push_back(closing.job);
    const StartedJob* found = nullptr;
    for (const auto& job : jobs) {
        const bool open = std::find(closed.begin(), closed.end(), job.id) == closed.end();
        if (word.empty() ? open : (job.job == word || std::to_string(job.id) == word)) found = &job;
    }
    if (found) return found->id;
    if (word.empty()) return std::nullopt;
    throw Error(Exit::no_input, fmt::format("{}: job {} was not started: casebound record {} start job={}", vehicle, word, vehicle, word));
}

std::string known_role(Session& session, const std::string& role) {
    if (role.empty() || session.catalog().vocabularies().role(role)) return role;
    std::vector<std::string> known;
    for (const auto& [name, owned] : session.catalog().vocabularies().roles()) known.push_back(name);
    const auto near = nearest(role, known);
    throw Error(Exit::usage, fmt::format("{}: no such role{}", role, near.empty() ? "" : fmt::format(": did you mean {}?", near)));
}

std::string unit_of(Session& session, const std::string& role) {
    const auto* known = session.catalog().vocabularies().role(role);
    const auto* kind = known ? session.catalog().vocabularies().item_kind(known->item_kind) : nullptr;
    return kind && kind->unit != "each" ? kind->unit : "";
}

WorkRecord work_from(Session& session, const std::string& vehicle, const std::string& what, const KeyedWords& words) {
    WorkRecord one;
    one.what = what;
    one.job = job_of(session, vehicle, words.text("job"));
    one.role = known_role(session, words.text("role"));
    one.item = words.text("item");
    if (words.has("made")) one.made = one_of("made", words.text("made"), made_kinds);
    one.label = words.text("label");
    one.quantity = words.number("quantity", unit_of(session, one.role));
    one.torque_nm = words.number("torque", "N m");
    one.seals_out = words.whole("seals_out");
    one.seals_in = words.whole("seals_in");
    one.out_l = words.number("out", "L");
    one.out_temp_c = words.number("out_temp", "degC");
    one.in_l = words.number("in", "L");
    one.in_temp_c = words.number("in_temp", "degC");
    one.gears = words.text("gears");
    one.codes = words.text("codes");
    one.drives = words.whole("drives");
    one.leaks = words.text("leaks");
    one.odometer_km = words.number("odometer", "km");
    one.photo = words.text("photo");
    one.note = words.text("note");
    one.date = date_if(words, "date");
    one.corrects = words.whole("corrects");
    return one;
}

LineEvent event_from(Session& session, const std::string& vehicle, const std::string& event, const KeyedWords& words) {
    LineEvent one;
    one.event = event;
    one.job = job_of(session, vehicle, words.text("job"));
    one.role = known_role(session, words.need("role"));
    one.item = words.text("item");
    one.quantity = words.number("quantity", unit_of(session, one.role));
    one.seller = words.text("seller");
    one.return_by = date_if(words, "return_by");
    one.core_by = date_if(words, "core_by");
    one.core_cents = words.cents("core");
    one.note = words.text("note");
    one.date = date_if(words, "date");
    if (event != "fitted") one.corrects = words.whole("corrects");
    return one;
}

// The dates that the offer on file gives, counted from the day the part came.
void add_dates(Session& session, LineEvent& event) {
    if (event.event != "received" || event.seller.empty()) return;
    const auto offer = ShopOffers(session.shop().database()).offer(event.seller, event.item);
    if (!offer) return;
    const auto came = event.date.empty() ? today() : event.date;
    if (event.return_by.empty() && offer->returnable && offer->return_days) event.return_by = days_after(came, *offer->return_days);
    if (event.core_by.empty() && offer->core_days) event.core_by = days_after(came, *offer->core_days);
    if (!event.core_cents && offer->core_cents > 0) event.core_cents = offer->core_cents;
}

struct Match { std::vector<std::string> agree, differ, not_compared; };

// The part in hand against what this vehicle can have; the attributes are those its applications speak of.
Match bench_match(const Situation& situation, const std::string& role, const KeyedWords& words) {
    const auto answer = situation.judge().role(role);
    const auto& set = situation.model().set;
    Match match;
    std::vector<std::string> compared;
    for (const auto& [name, value] : words.others()) {
        const auto* column = set.column(name);
        if (!column) throw Error(Exit::usage, fmt::format("{}: neither a key of `record` nor an attribute of this vehicle line", name));
        Bits allowed(set.size());
        try {
            allowed = set.where(parse_condition(fmt::format("{}={}", name, value)));
        } catch (const ConditionFault& fault) {
            throw Error(Exit::usage, fmt::format("{}: {}", name, fault.what()));
        }
        compared.push_back(name);
        (allowed.meets(situation.narrowing().left) ? match.agree : match.differ).push_back(fmt::format("{}={}", name, value));
    }
    for (const auto& name : answer.speaks_of())
        if (!holds(compared, name)) match.not_compared.push_back(name);
    return match;
}

Json json_of_events(const std::vector<LineEvent>& events) {
    Json json = Json::array();
    for (const auto& event : events)
        json.push_back({{"entry", event.id}, {"job", event.job ? Json(*event.job) : Json(nullptr)}, {"role", event.role}, {"event", event.event}, {"item", event.item}, {"seller", event.seller},
                        {"return_by", event.return_by}, {"core_by", event.core_by}, {"note", event.note}, {"date", event.date}, {"stands", event.stands}});
    return json;
}

// The check-off: for each role that something happened to, its events in order.
std::string check_off(Session& session, const std::string& vehicle) {
    std::map<std::string, std::string> by_role;
    for (const auto& event : ShopRecords(session.shop().database()).events(vehicle)) {
        if (!event.stands) continue;
        auto words = event.event;
        std::replace(words.begin(), words.end(), '_', ' ');
        auto& text = by_role[event.role];
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", words, event.date);
    }
    if (by_role.empty()) return wrapped("Nothing is checked off yet.");
    Table table({"role", "so far"});
    for (const auto& [role, text] : by_role) table.row({role, text});
    return table.text();
}

Result record_answer(Session& session, const std::string& vehicle, const std::string& notes, Exit exit = Exit::yes) {
    if (!session.json()) return {exit, notes + check_off(session, vehicle)};
    const ShopRecords records(session.shop().database());
    auto json = document("record");
    json["vehicle"] = vehicle;
    json["events"] = json_of_events(records.events(vehicle));
    json["records"] = records.records(vehicle).size();
    json["spent_cents"] = records.spent_cents(vehicle);
    json["agrees"] = exit == Exit::yes;
    return {exit, json_text(json)};
}

Result record_start(Session& session, const std::string& vehicle, const KeyedWords& words) {
    const auto job = words.need("job");
    if (session.catalog().facts().rows("jobs", "job", job).empty()) throw Error(Exit::usage, fmt::format("{}: no such job in a loaded pack", job));
    const auto id = session.shop().start_job(vehicle, job, words.text("note"));
    return record_answer(session, vehicle, wrapped(fmt::format("{}: {} is started (job {}).", vehicle, job, id)));
}

Result record_money(Session& session, const std::string& vehicle, const KeyedWords& words) {
    MoneyEntry entry;
    entry.kind = one_of("kind", words.need("kind"), money_kinds);
    words.need("amount");
    entry.cents = *words.cents("amount");
    entry.job = job_of(session, vehicle, words.text("job"));
    entry.note = words.text("note");
    entry.date = date_if(words, "date");
    entry.corrects = words.whole("corrects");
    ShopRecords records(session.shop().database());
    records.add(vehicle, {{}, {}, {entry}});
    const auto currency = session.shop().setting("currency").value_or("cu");
    return record_answer(session, vehicle, wrapped(fmt::format("{}: {} {}. Gone into it so far: {}.", vehicle, entry.kind, money_text(entry.cents, currency), money_text(records.spent_cents(vehicle), currency))));
}

Result record_match(Session& session, const std::string& vehicle, LineEvent event, const KeyedWords& words) {
    const auto match = bench_match(*session.situation(vehicle), event.role, words);
    auto compared = match.agree;
    compared.insert(compared.end(), match.differ.begin(), match.differ.end());
    event.note = fmt::format("{}{}{}", fmt::join(compared, "; "), event.note.empty() || compared.empty() ? "" : "; ", event.note);
    if (!match.differ.empty()) event.event = "mismatched";
    ShopRecords(session.shop().database()).add(vehicle, {{event}, {}, {}});
    std::string notes = match.differ.empty() ? wrapped(fmt::format("{}: bench-matched.", event.role))
                                             : wrapped(fmt::format("{}: DOES NOT MATCH: {}. Do not open the vehicle for it; send it back.", event.role, fmt::join(match.differ, ", ")), 0, 2);
    if (!match.not_compared.empty()) notes += wrapped(fmt::format("Not compared: {}.", fmt::join(match.not_compared, ", ")), 2, 2);
    return record_answer(session, vehicle, notes, match.differ.empty() ? Exit::yes : Exit::no);
}

std::string fitted_notes(const WorkRecord& one) {
    std::string notes;
    if (one.seals_out && one.seals_in && *one.seals_out != *one.seals_in)
        notes += wrapped(fmt::format("CHECK: {} came out and {} went in. Count again before closing: one may still be in the case.", *one.seals_out, *one.seals_in), 0, 2);
    constexpr double allowance_l = 0.5;  // common practice, no source
    if (one.out_l && one.in_l && std::abs(*one.out_l - *one.in_l) > allowance_l)
        notes += wrapped(fmt::format("CHECK: {} L out and {} L in differ by more than {} L: read the level again at its temperature.", plain_number(*one.out_l, 2), plain_number(*one.in_l, 2), allowance_l), 0, 2);
    return notes;
}

Result record_work(Session& session, const std::string& vehicle, const std::string& what, const KeyedWords& words) {
    NewWork work;
    const auto one = work_from(session, vehicle, what, words);
    work.records.push_back(one);
    if (what == "fitted") work.events.push_back(event_from(session, vehicle, "fitted", words));
    if (what == "looked_at") words.need("role");
    if (what == "odometer") words.need("odometer");
    ShopRecords(session.shop().database()).add(vehicle, work);
    return record_answer(session, vehicle, wrapped(fmt::format("{}: written down.", vehicle)) + fitted_notes(one));
}

Result record_event(Session& session, const std::string& vehicle, const std::string& what, const KeyedWords& words) {
    auto event = event_from(session, vehicle, what, words);
    if (what == "matched") return record_match(session, vehicle, std::move(event), words);
    add_dates(session, event);
    ShopRecords(session.shop().database()).add(vehicle, {{event}, {}, {}});
    if (what == "left_over") ShopOffers(session.shop().database()).shelve(words.need("item"), event.quantity.value_or(1), "left over", vehicle);
    std::string notes = wrapped(fmt::format("{}: written down.", event.role));
    if (!event.return_by.empty()) notes += wrapped(fmt::format("May go back until {}.", event.return_by), 2, 2);
    if (!event.core_by.empty()) notes += wrapped(fmt::format("The old part must be back by {}.", event.core_by), 2, 2);
    return record_answer(session, vehicle, notes);
}

Result run_record(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    if (args.words.size() == 1) return record_answer(session, vehicle, "");
    auto what = args.words[1];
    std::replace(what.begin(), what.end(), '-', '_');
    const KeyedWords words(args.words, 2, record_keys(), what == "matched");
    if (what == "start") return record_start(session, vehicle, words);
    if (what == "money") return record_money(session, vehicle, words);
    if (holds({"fitted", "looked_at", "proof", "odometer", "for_sale", "sold"}, what)) return record_work(session, vehicle, what, words);
    if (holds(line_events, what)) return record_event(session, vehicle, what, words);
    throw Error(Exit::usage, fmt::format("{}: not something to record: start, {}, looked-at, proof, odometer, money, for-sale or sold", args.words[1], fmt::join(line_events, ", ")));
}

Result run_close(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    const KeyedWords words(args.words, 2, {"cause", "worked", "hours", "money", "note", "date"});
    Closing closing;
    closing.job = *job_of(session, vehicle, args.words.at(1));
    closing.cause = words.need("cause");
    closing.worked = one_of("worked", words.need("worked"), {"yes", "no", "not_known"});
    words.need("hours");
    closing.hours = *words.number("hours", "");
    closing.cost_cents = words.cents("money").value_or(0);
    closing.note = words.text("note");
    closing.date = date_if(words, "date");
    ShopRecords records(session.shop().database());
    records.close(vehicle, closing);
    const auto key = [&] { for (const auto& job : session.shop().jobs(vehicle)) if (job.id == closing.job) return job.job; return std::string(); }();
    const auto rate = records.rate_of(key);
    if (session.json()) {
        auto json = document("close");
        json["vehicle"] = vehicle;
        json["job"] = key;
        json["closed"] = rate.closed;
        json["worked"] = rate.worked;
        json["failed"] = rate.failed;
        return {Exit::yes, json_text(json)};
    }
    return {Exit::yes, wrapped(fmt::format("{}: {} is closed. Own {} closed: {}; it worked {} times and did not {}.", vehicle, key, key, rate.closed, rate.worked, rate.failed), 0, 2)};
}

struct Due { std::string date, vehicle, what; };

// A later event of the same role ends what an earlier one left open.
void add_returns(std::vector<Due>& dues, const std::string& vehicle, const std::vector<LineEvent>& events) {
    for (const auto& event : events) {
        if (!event.stands || (event.event != "received" && event.event != "ordered")) continue;
        const auto later = [&](std::initializer_list<std::string_view> kinds) {
            return std::any_of(events.begin(), events.end(), [&](const LineEvent& other) {
                return other.stands && other.id > event.id && other.role == event.role && std::find(kinds.begin(), kinds.end(), other.event) != kinds.end();
            });
        };
        if (!event.return_by.empty() && !later({"returned", "fitted"})) dues.push_back({event.return_by, vehicle, fmt::format("last day to send back {} ({})", event.item, event.role)});
        if (!event.core_by.empty() && !later({"core_returned"})) dues.push_back({event.core_by, vehicle, fmt::format("last day for the old part of {} ({})", event.item, event.role)});
    }
}

// What is known of the last service of a domain: the newest thing fitted in one of its roles.
std::vector<std::pair<std::string, std::string>> service_words(Session& session, const std::string& domain, const std::vector<WorkRecord>& records) {
    std::vector<std::pair<std::string, std::string>> words;
    const WorkRecord* last = nullptr;
    std::optional<double> now;
    for (const auto& one : records) {
        if (!one.stands) continue;
        if (one.odometer_km && (!now || *one.odometer_km > *now)) now = one.odometer_km;
        if (one.what == "fitted" && session.catalog().vocabularies().owner_of_role(one.role) == domain && (!last || one.date >= last->date)) last = &one;
    }
    if (last) words.emplace_back("last_changed", last->date);
    if (last && last->odometer_km) words.emplace_back("last_at", plain_number(*last->odometer_km, 0));
    if (now) words.emplace_back("odometer", plain_number(*now, 0));
    words.emplace_back("today", today());
    return words;
}

// Every loaded domain that has an inquiry of this name answers for the vehicle.
std::vector<std::string> services(Session& session, const std::string& vehicle) {
    std::vector<std::string> found;
    const auto situation = session.situation(vehicle);
    const auto records = ShopRecords(session.shop().database()).records(vehicle);
    for (const auto& plugin : session.plugins().domains)
        for (const auto& inquiry : plugin.domain->inquiries()) {
            if (inquiry.name != "service-due") continue;
            const Services lent{session.catalog().facts_for(plugin.name), session.engine(), situation.get()};
            const auto run = run_inquiry_with(inquiry, service_words(session, plugin.name, records), lent);
            found.push_back(run.answer.headline);
        }
    return found;
}

Result run_due(Session& session, const Args&) {
    std::vector<Due> dues;
    std::vector<std::pair<std::string, std::string>> service;
    const ShopRecords records(session.shop().database());
    for (const auto& vehicle : session.shop().vehicles()) {
        add_returns(dues, vehicle.name, records.events(vehicle.name));
        for (const auto& headline : services(session, vehicle.name)) service.emplace_back(vehicle.name, headline);
    }
    std::stable_sort(dues.begin(), dues.end(), [](const Due& a, const Due& b) { return a.date < b.date; });
    if (session.json()) {
        auto json = document("due");
        json["today"] = today();
        json["dates"] = Json::array();
        for (const auto& due : dues) json["dates"].push_back({{"date", due.date}, {"vehicle", due.vehicle}, {"what", due.what}, {"past", due.date < today()}});
        json["service"] = Json::array();
        for (const auto& [vehicle, headline] : service) json["service"].push_back({{"vehicle", vehicle}, {"answer", headline}});
        return {Exit::yes, json_text(json)};
    }
    std::string out = dues.empty() ? "No date is set.\n" : "";
    for (const auto& due : dues) out += wrapped(fmt::format("{}{} {}: {}", due.date, due.date < today() ? " PAST" : "", due.vehicle, due.what), 0, 2);
    for (const auto& [vehicle, headline] : service) out += wrapped(fmt::format("{}: service: {}", vehicle, headline), 0, 2);
    return {Exit::yes, out};
}

}  // namespace

std::vector<Command> record_commands() {
    return {
        {"record", "VEHICLE [WHAT KEY=VALUE...]",
         "write down what was done; WHAT: start, ordered, received, matched, fitted, left-over, returned, core-returned, looked-at, proof, odometer, money, for-sale, sold; alone: the check-off", 1, any_number, {}, run_record},
        {"close", "VEHICLE JOB cause=TEXT worked=yes|no|not-known hours=NUMBER [money=AMOUNT]", "end a job: what was wrong, and what it took", 5, any_number, {}, run_close},
        {"due", "", "dates of returns and old parts, and service due, over all vehicles", 0, 0, {}, run_due},
    };
}

}  // namespace casebound
