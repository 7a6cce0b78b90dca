// What was done on a vehicle, written down. Words are checked against the catalog before anything is written; one
// command is one transaction; nothing is overwritten.
#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/buy/order_report.h"
#include "core/buy/order_text.h"
#include "core/commands/mismatch.h"
#include "core/commands/on_order.h"
#include "core/commands/photos_given.h"
#include "core/commands/record_answer.h"
#include "core/commands/record_shelf.h"
#include "core/ground/dates.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/reason/vocabulary.h"
#include "core/say/json_of.h"
#include "core/session/typed_names.h"
#include "core/sheets/check_off.h"
#include "core/sheets/sheets.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/verdict/part_number.h"
#include "core/work/bench_match.h"
#include "core/work/item_doubt.h"
#include "core/work/record_words.h"

namespace casebound {

namespace {

// The dates that the offer on file gives, counted from the day the part came.
void add_dates(Session& session, const std::string& vehicle, LineEvent& event) {
    if (event.event != "received") return;
    if (event.item.empty()) event.item = item_on_order(session, vehicle, event.role, event.corrects);
    if (event.seller.empty()) event.seller = seller_of_order(session, vehicle, event);
    if (event.seller.empty()) return;
    const auto offer = ShopOffers(session.shop()).offer(event.seller, event.item);
    if (!offer) return;
    const auto came = event.date.empty() ? today() : event.date;
    if (event.return_by.empty() && offer->returnable.value_or(false) && offer->return_days)
        event.return_by = days_after(came, *offer->return_days);
    if (event.core_by.empty() && offer->core_days) event.core_by = days_after(came, *offer->core_days);
    if (!event.core_cents && offer->core_cents > 0) event.core_cents = offer->core_cents;
}

Json json_of_events(const std::vector<LineEvent>& events) {
    Json json = Json::array();
    for (const auto& event : events)
        json.push_back({{"entry", event.id},
                        {"job", event.job ? Json(*event.job) : Json(nullptr)},
                        {"role", event.role},
                        {"event", event.event},
                        {"item", event.item},
                        {"seller", event.seller},
                        {"return_by", event.return_by},
                        {"core_by", event.core_by},
                        {"note", event.note},
                        {"date", event.date},
                        {"stands", event.stands}});
    return json;
}

}  // namespace

std::vector<std::string> checks_open(Session& session, const std::string& vehicle) {
    const ShopRecords records(session.shop());
    std::set<std::int64_t> closed;
    for (const auto& closing : records.closings(vehicle)) closed.insert(closing.job);
    std::vector<std::string> checks;
    for (const auto& one : records.records(vehicle)) {
        if (!one.stands || (one.job && closed.contains(*one.job))) continue;
        for (const auto& check : open_checks(session, vehicle, one))
            checks.push_back(
                fmt::format("{}{}{}", place_title(session.catalog(), one.role), one.role.empty() ? "" : ": ", check));
    }
    return checks;
}

Result record_answer(Session& session, const std::string& vehicle, const std::string& notes, Exit exit, bool whole,
                     const std::vector<std::string>& against) {
    const auto lines = check_off(session, vehicle);
    if (!session.json()) {
        std::string out = notes + (whole ? check_off_text(lines) : still_to_order_text(lines));
        if (whole)
            for (const auto& check : checks_open(session, vehicle)) out += wrapped("CHECK: " + check, 0, 2);
        return {exit, out};
    }
    const ShopRecords records(session.shop());
    auto json = document("record");
    json["vehicle"] = vehicle;
    json["events"] = json_of_events(records.events(vehicle));
    json["check_off"] = json_list(lines);
    json["records"] = records.records(vehicle).size();
    json["spent_cents"] = records.spent_cents(vehicle);
    json["agrees"] = exit == Exit::yes && against.empty();
    json["against"] = against;
    json["checks"] = checks_open(session, vehicle);
    json["mismatches"] = json_of(mismatches_open(session, vehicle));
    return {exit, json_text(json)};
}

namespace {

void refuse_when_open(Session& session, const std::string& vehicle, const std::string& job) {
    std::set<std::int64_t> closed;
    for (const auto& closing : ShopRecords(session.shop()).closings(vehicle)) closed.insert(closing.job);
    for (const auto& started : ShopRecords(session.shop()).jobs(vehicle))
        if (started.job == job && !closed.contains(started.id))
            throw Error(Exit::usage,
                        fmt::format("{}: {} is open already (job {}, started {}): go on with it, or close it first",
                                    vehicle, job, started.id, started.started));
}

Result record_start(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    const auto typed = jobs_typed(session.catalog(), {words.need("job")});
    const auto& job = typed.front();
    refuse_when_open(session, vehicle, job);
    const auto id = ShopRecords(session.shop()).start_job(vehicle, job, words.text("note"));
    return record_answer(session, vehicle, wrapped(fmt::format("{}: {} is started (job {}).", vehicle, job, id)),
                         Exit::yes, true);
}

Result record_money(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    const auto entry = money_from(session, vehicle, words);
    ShopRecords records(session.shop());
    records.add(vehicle, {{}, {}, {entry}, {}});
    const auto currency = currency_of(session);
    return record_answer(
        session, vehicle,
        wrapped(fmt::format("{}: {} {}. Gone into it so far: {}.", vehicle, entry.kind,
                            money_text(entry.cents, currency), money_text(records.spent_cents(vehicle), currency))));
}

Result record_match(Session& session, const std::string& vehicle, LineEvent event, const KeyValueArgs& words) {
    const auto match = bench_match(*session.situation(vehicle), event.role, event.item, words.others());
    auto compared = match.agree;
    compared.insert(compared.end(), match.differ.begin(), match.differ.end());
    event.note = fmt::format("{}{}{}", fmt::join(compared, "; "), event.note.empty() ? "" : "; ", event.note);
    if (!match.matches()) event.event = "mismatched";
    ShopRecords(session.shop()).add(vehicle, {{event}, {}, {}, {}});
    const auto taken_back = match.matches() ? take_back_mismatch(session, vehicle, event, words) : "";
    const auto in_words = [&](const std::vector<std::string>& all) {
        std::vector<std::string> texts;
        for (const auto& one : all)
            texts.push_back(
                one.find('=') == std::string::npos ? one : condition_words(one, session.catalog().vocabularies()));
        return fmt::format("{}", fmt::join(texts, ", "));
    };
    std::vector<std::string> not_compared;
    for (const auto& name : match.not_compared) {
        const auto* attribute = session.catalog().vocabularies().attribute(name);
        not_compared.push_back(attribute ? named(attribute->title, name) : name);
    }
    std::string notes = match.matches()
                            ? wrapped(fmt::format("{}: matches the old one: {}.",
                                                  place_title(session.catalog(), event.role), in_words(match.agree)),
                                      0, 2)
                            : wrapped(
                                  fmt::format("{}: DOES NOT MATCH: {}. Do not open the vehicle for it; send it back.",
                                              place_title(session.catalog(), event.role), in_words(match.differ)),
                                  0, 2);
    notes += taken_back;
    if (!match.instead.empty()) notes += wrapped(fmt::format("What was measured belongs to {}.", match.instead), 2, 2);
    if (!match.not_compared.empty())
        notes += wrapped(
            fmt::format("Not compared, though it tells the alternatives apart: {}.", fmt::join(not_compared, ", ")), 2,
            2);
    return record_answer(session, vehicle, notes, match.matches() ? Exit::yes : Exit::no);
}

std::string work_notes(Session& session, const std::string& vehicle, const WorkRecord& one) {
    std::string notes;
    for (const auto& check : open_checks(session, vehicle, one)) notes += wrapped("CHECK: " + check, 0, 2);
    return notes;
}

// A part is written down whatever the catalog says; what is said against it is said, and that nothing is begun.
Result part_answer(Session& session, const std::string& vehicle, const std::string& role, const std::string& item,
                   std::string notes) {
    std::vector<std::string> against;
    Exit exit = Exit::yes;
    if (const auto doubt = item_doubt(session, vehicle, role, item)) {
        against.push_back(fmt::format("{}: {}", item, doubt->words));
        notes += wrapped(fmt::format("CHECK: {}.", against.front()), 0, 2);
        if (doubt->says_no) exit = Exit::no;
    }
    if (open_jobs(session, vehicle).empty())
        notes += wrapped(
            fmt::format("No job is started: it stands for none. casebound record {} start job=...", vehicle), 0, 2);
    return record_answer(session, vehicle, notes, exit, false, against);
}

// How much of an item is on record in a role: came, or ordered when nothing came, less what is gone.
double on_record(Session& session, const std::string& vehicle, const LineEvent& event) {
    const auto known = session.catalog().item(event.item);
    const auto* role = session.catalog().vocabularies().role(event.role);
    const auto* kind = role ? session.catalog().vocabularies().item_kind(role->item_kind) : nullptr;
    const bool each = !kind || kind->unit == "each";
    const double pack = !each && known ? known->pack_quantity : 1;
    double came = 0, ordered = 0, gone = 0;
    for (const auto& one : ShopRecords(session.shop()).events(vehicle)) {
        if (!one.stands || event.corrects == one.id || one.role != event.role ||
            (!event.item.empty() && one.item != event.item))
            continue;
        if (one.event == "received") came += one.quantity.value_or(pack);
        if (one.event == "ordered") ordered += one.quantity.value_or(pack);
        if (one.event == "returned" || one.event == "left_over") gone += one.quantity.value_or(1);
        if (one.event == "fitted" && event.event == "left_over") gone += one.quantity.value_or(each ? 1 : 0);
    }
    return std::max(came, ordered) - gone;
}

void check_count(Session& session, const std::string& vehicle, const LineEvent& event) {
    if (event.event != "left_over" && event.event != "returned") return;
    const double there = std::max(0.0, on_record(session, vehicle, event)), said = event.quantity.value_or(1);
    constexpr double rounding = 1e-6;
    if (said <= there + rounding || (!event.quantity && there > 0)) return;
    throw Error(Exit::usage, fmt::format("quantity: {} of {} cannot be {}: on record as ordered or received, and not "
                                         "{}: {}. Record what came first, or write corrects=ENTRY",
                                         plain_number(said, 2), event.item.empty() ? event.role : event.item,
                                         event.event == "returned" ? "returned" : "left over",
                                         event.event == "returned" ? "gone" : "used", plain_number(there, 2)));
}

// The event that was written together with a record of something fitted.
std::optional<LineEvent> event_with(const ShopRecords& records, const std::string& vehicle, const WorkRecord& record) {
    for (const auto& event : records.events(vehicle))
        if (event.stands && event.event == "fitted" && event.role == record.role && event.item == record.item &&
            event.date == record.date)
            return event;
    return std::nullopt;
}

Result record_fitted(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    ShopRecords records(session.shop());
    const auto record = work_from(session, vehicle, "fitted", words);
    auto event = event_from(session, vehicle, "fitted", words);
    event.corrects.reset();
    const auto all = records.records(vehicle);
    const auto corrected = std::find_if(all.begin(), all.end(),
                                        [&](const WorkRecord& one) { return one.stands && record.corrects == one.id; });
    const auto* wrong = corrected == all.end() ? nullptr : &*corrected;
    if (wrong)
        if (const auto with = event_with(records, vehicle, *wrong)) event.corrects = with->id;
    records.add(vehicle, {{event}, {record}, {}, shelf_moves(session.catalog(), vehicle, record, wrong, all)});
    std::string notes = wrapped(fmt::format("{}: {} fitted.", vehicle, place_title(session.catalog(), record.role)));
    if (record.made == "own_stock")
        notes += wrapped(fmt::format("Taken from the own shelf; {} left there.",
                                     plain_number(ShopOffers(session.shop()).on_shelf(record.item), 2)),
                         2, 2);
    return part_answer(session, vehicle, record.role, record.item, notes + work_notes(session, vehicle, record));
}

Result record_work(Session& session, const std::string& vehicle, const std::string& what, const KeyValueArgs& words) {
    if (what == "fitted") return record_fitted(session, vehicle, words);
    const auto one = work_from(session, vehicle, what, words);
    if (what == "looked_at") words.need("role");
    if (what == "odometer") words.need("odometer");
    if (what == "proof" && one.gears.empty() && one.codes.empty() && one.leaks.empty())
        throw Error(Exit::usage,
                    "proof: nothing is proved: give gears=1-2-3-4, codes=none drives=5, or leaks=dry leak-after=24h");
    ShopRecords(session.shop()).add(vehicle, {{}, {one}, {}, {}});
    return record_answer(session, vehicle,
                         wrapped(fmt::format("{}: written down.", vehicle)) + work_notes(session, vehicle, one));
}

Result record_event(Session& session, const std::string& vehicle, const std::string& what, const KeyValueArgs& words) {
    auto event = event_from(session, vehicle, what, words);
    if (what == "matched") return record_match(session, vehicle, std::move(event), words);
    if (what == "left_over") words.need("item");
    check_count(session, vehicle, event);
    add_dates(session, vehicle, event);
    ShopRecords(session.shop()).add(vehicle, {{event}, {}, {}, left_over_moves(session, vehicle, event)});
    std::string notes = take_back_mismatch(session, vehicle, event, words);
    notes += wrapped(fmt::format("{}: written down{}.", place_title(session.catalog(), event.role),
                                 what == "left_over" ? "; it lies on the own shelf" : ""));
    if (!event.return_by.empty())
        notes += wrapped(event.return_by < today()
                             ? fmt::format("The last day to send it back, {}, has PASSED.", event.return_by)
                             : fmt::format("May go back until {}.", event.return_by),
                         2, 2);
    if (!event.core_by.empty())
        notes += wrapped(event.core_by < today()
                             ? fmt::format("The last day for the old part, {}, has PASSED.", event.core_by)
                             : fmt::format("The old part must be back by {}.", event.core_by),
                         2, 2);
    if (what == "ordered" || what == "received") return part_answer(session, vehicle, event.role, event.item, notes);
    return record_answer(session, vehicle, notes);
}

// In the order of the work.
std::vector<std::string> what_may_be_recorded() {
    return {"start",         "ordered",   "received", "matched",  "does_not_fit", "fitted",   "left_over", "returned",
            "core_returned", "looked_at", "proof",    "odometer", "money",        "for_sale", "sold"};
}

std::string underlined(std::string text) {
    std::replace(text.begin(), text.end(), '-', '_');
    return text;
}

// A place by its title as by its key, under either word: place="pan filter".
std::vector<std::string> with_places(Session& session, std::vector<std::string> words) {
    for (auto& word : words)
        for (const std::string_view key : {"role=", "place="})
            if (word.rfind(key, 0) == 0)
                word = "role=" + place_typed(session.catalog(), std::string_view(word).substr(key.size()));
    return words;
}

Result write_record(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    const auto what = underlined(args.words[1]);
    const KeyValueArgs words(with_places(session, args.words), 2, record_keys(), what == "matched");
    check_kind(session.catalog(), words.text("role"), item_meant(session.catalog(), words.text("item")));
    if (what == "start") return record_start(session, vehicle, words);
    if (what == "money") return record_money(session, vehicle, words);
    if (holds({"fitted", "looked_at", "proof", "odometer", "for_sale", "sold"}, what))
        return record_work(session, vehicle, what, words);
    if (args.has(dry_run.name) && takes_back_mismatch(session, vehicle, words))
        refuse_dry_run(args, "a row of your own pack");
    if (holds(line_events(), what)) return record_event(session, vehicle, what, words);
    const auto known = as_typed(what_may_be_recorded());
    const auto near = nearest(dashed(what), known);
    throw Error(Exit::usage, fmt::format("{}: not something to record: {}", args.words[1],
                                         near.empty() ? fmt::format("write {}", fmt::join(known, ", "))
                                                      : fmt::format("did you mean {}?", near)));
}

Result run_record(Session& session, const Args& args) {
    if (args.words.size() < 2)
        return record_answer(session, session.vehicle(args.words.at(0)).name, "", Exit::yes, true);
    if (underlined(args.words[1]) != "does_not_fit") return one_write_with_photos<write_record>(session, args);
    const KeyValueArgs words(with_places(session, args.words), 2, record_keys());
    return record_does_not_fit(session, args, words);
}

}  // namespace

std::vector<Command> record_commands() {
    return {
        {"record",
         "VEHICLE [WHAT KEY=VALUE...]",
         "write down what was done; the vehicle alone shows the check-off; after matched also what was measured, as "
         "ATTRIBUTE=VALUE",
         1,
         any_number,
         {photo_option, dry_run},
         run_record,
         "casebound record van fitted role=pan-filter item=PF-33 torque=10Nm",
         {{"WHAT", as_typed(what_may_be_recorded())}, {"KEY", as_typed(record_keys())}}}};
}

}  // namespace casebound
