#include "core/sheets/sheets.h"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "core/buy/order_text.h"
#include "core/ground/dates.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/say/vehicle_text.h"
#include "core/session/ask_domains.h"
#include "core/session/typed_names.h"
#include "core/sheets/check_off.h"
#include "core/sheets/photo_words.h"
#include "core/sheets/sheet_rows.h"
#include "core/shop/reminders.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/shop/shop_told.h"
#include "core/work/due_dates.h"
#include "core/work/item_doubt.h"
#include "core/work/why.h"

namespace casebound {

namespace {

std::string job_title(const Catalog& catalog, const std::string& job) {
    const auto& rows = catalog.facts().rows("jobs", "job", job);
    return rows.empty() ? job : std::string(rows.front().text("title"));
}

SheetRows told_rows(const std::vector<ToldFact>& entries, const Vocabularies& words) {
    SheetRows rows;
    for (const auto& entry : entries) rows.push_back(row_of(entry, words));
    return rows;
}

std::optional<int> model_year_of(const Situation& situation) {
    const auto years = situation.possible("year");
    if (years.size() != 1) return std::nullopt;
    return std::stoi(years.front().text);
}

SaleFacts sale_facts(const ShopRecords& records, const Situation& situation, std::optional<double> gross_weight_kg) {
    const auto since = days_after(today(), -365);
    SaleFacts facts{model_year_of(situation), gross_weight_kg, records.vehicles_sold(since, today(), true),
                    records.vehicles_sold(since, today(), false)};
    bool sold = false, offered = false;
    for (const auto& one : records.records(situation.name())) {
        if (!one.stands || one.date < since) continue;
        sold |= one.what == "sold";
        offered |= one.what == "sold" || one.what == "for_sale";
    }
    facts.sold_12_months -= sold;
    facts.sold_or_offered_12_months -= offered;
    return facts;
}

// Filled by the litre rather than fitted.
bool is_quantity(Session& session, const std::string& role) {
    const auto& words = session.catalog().vocabularies();
    const auto* known = words.role(role);
    const auto* kind = known ? words.item_kind(known->item_kind) : nullptr;
    return kind && kind->unit != "each";
}

// What was fitted, and what the catalog says against it.
SheetRow fitted_row(const Situation& situation, const WorkRecord& one) {
    auto row = row_of(one, situation.judge().catalog().vocabularies());
    try {
        if (const auto doubt = item_doubt(situation, situation.places().role(one.role), one.item))
            row.text += (doubt->unfit ? "; BUT BY THE CATALOG: " : "; ") + doubt->words;
    } catch (const Error&) {  // the pack with the role was dropped: what was done stays
    }
    return row;
}

std::string reading_words(const Reading& reading) {
    const auto km = fmt::format("{} km", plain_number(reading.km, 0));
    return reading.told.empty() ? km : fmt::format("{} (told as {})", km, reading.told);
}

// The newest reading; every one, and what is wrong with them, when they contradict each other.
SheetRows odometer_rows(Session& session, const std::string& vehicle) {
    const auto readings = odometer_readings(session, vehicle);
    const auto wrong = odometer_contradictions(readings);
    SheetRows rows;
    for (const auto& reading : readings)
        if (!wrong.empty() || &reading == &readings.back()) rows.push_back({{}, reading_words(reading), reading.date});
    for (const auto& words : wrong) rows.push_back({{}, words});
    return rows;
}

// A cure is claimed only as far as a check after it is on record.
std::string ending(const Closing& closing, const std::vector<WorkRecord>& records) {
    if (closing.worked == "no") return "STILL THERE";
    if (closing.worked != "yes") return "result not known";
    const bool checked = std::any_of(records.begin(), records.end(), [&](const WorkRecord& one) {
        return one.stands && one.what == "proof" && (one.job == closing.job || one.date >= closing.date);
    });
    return checked ? "did not return in the checks below" : "said to be gone; no check is on record";
}

// What is wrong with it, from jobs closed and begun, findings that stand, and parts looked at and left in.
SheetRows fault_rows(Session& session, const Situation& situation, const std::vector<WorkRecord>& records) {
    SheetRows rows;
    for (const auto& one : ShopRecords(session.shop()).closings(situation.name()))
        rows.push_back({job_title(session.catalog(), one.job_key),
                        fmt::format("{}; {}", one.cause, ending(one, records)), one.date});
    for (const auto& job : open_jobs(session, situation.name()))
        rows.push_back({job_title(session.catalog(), job), "work begun and not ended"});
    for (auto& row : trouble_rows(session, situation))
        rows.push_back({row.subject, row.text + "; as found, not necessarily as it is now", {}, row.source});
    for (const auto& one : records)
        if (one.stands && one.what == "looked_at" && !one.state.empty() && one.state != "sound")
            rows.push_back(
                {row_of(one, session.catalog().vocabularies()).subject,
                 fmt::format("{}; looked at and not replaced{}{}", one.state, one.note.empty() ? "" : ": ", one.note),
                 one.date});
    for (const auto& caution : evidence_cautions(session, situation)) rows.push_back({"about the evidence", caution});
    return rows;
}

}  // namespace

std::string source_words(const SourceNote& source) {
    return fmt::format("{} ({})", source.title, evidence_words(source.evidence));
}

SheetRows trouble_rows(Session& session, const Situation& situation) {
    SheetRows rows;
    for (const auto& trouble : troubles(session, situation))
        rows.push_back({trouble.title, trouble.text, {}, source_words(trouble.source)});
    return rows;
}

// Nothing stands in their place: JSON keeps them.
Sheet without_empty(Sheet sheet, const std::vector<std::string>& names) {
    for (auto& section : sheet.sections)
        if (std::find(names.begin(), names.end(), section.name) != names.end()) section.if_empty.clear();
    return sheet;
}

SheetRows hearsay_rows(const std::vector<std::string>& hearsay) {
    SheetRows rows;
    for (const auto& text : hearsay) rows.push_back({{}, text + ": look for yourself"});
    return rows;
}

namespace {

// `kinds`: only those that show one of these; empty: all.
SheetRows photo_rows(Session& session, const std::string& vehicle, const std::set<std::string>& kinds) {
    SheetRows rows;
    for (const auto& photo : worded_photos(session, vehicle)) {
        const bool wanted = kinds.empty() || std::any_of(photo.shows.begin(), photo.shows.end(),
                                                         [&](const auto& one) { return kinds.contains(one.kind); });
        if (!photo.stands() || !wanted) continue;
        SheetRow row{fmt::format("photo {}", photo.number),
                     fmt::format("{}; {}", fmt::join(photo.of, "; "), photo_measure(photo)), photo.entered};
        row.photos = {photo};
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace

SheetHead sheet_head(Session& session, const Situation& situation, bool invented) {
    SheetHead head{situation.name(), situation.headline(), today(), invented};
    for (const auto origin : situation.model().origins) head.invented |= session.catalog().invented(origin);
    return head;
}

std::vector<std::string> open_jobs(Session& session, const std::string& vehicle) {
    std::set<std::int64_t> closed;
    for (const auto& closing : ShopRecords(session.shop()).closings(vehicle)) closed.insert(closing.job);
    std::vector<std::string> jobs;
    for (const auto& job : ShopRecords(session.shop()).jobs(vehicle))
        if (!closed.count(job.id) && std::find(jobs.begin(), jobs.end(), job.job) == jobs.end())
            jobs.push_back(job.job);
    return jobs;
}

std::vector<std::string> named_or_open_jobs(Session& session, const Situation& situation,
                                            const std::vector<std::string>& asked) {
    auto jobs = asked.empty() ? open_jobs(session, situation.name()) : asked;
    if (jobs.empty())
        throw Error(Exit::usage, fmt::format("{}: no job is open: name one, or casebound record {} start job=... "
                                             "(casebound list {} names the jobs)",
                                             situation.name(), situation.name(), situation.name()));
    return jobs;
}

HistorySheet history_sheet(Session& session, const Situation& situation) {
    const ShopRecords records(session.shop());
    const auto& name = situation.name();
    const auto currency = currency_of(session);
    const auto& words = session.catalog().vocabularies();
    HistorySheet sheet{
        sheet_head(session, situation), told_rows(ShopTold(session.shop()).history(name), words), {}, {}, {}, {}, {}};
    for (const auto& one : records.records(name)) sheet.work.push_back(row_of(one, words));
    for (const auto& event : records.events(name)) sheet.parts.push_back(row_of(event, words));
    for (const auto& one : records.money(name)) sheet.money.push_back(row_of(one, currency));
    for (const auto& one : records.closings(name)) sheet.closed.push_back(row_of(one, currency));
    sheet.photos = photo_rows(session, name, {});
    return sheet;
}

DisclosureSheet disclosure_sheet(Session& session, const Situation& situation, std::optional<double> gross_weight_kg,
                                 bool with_photos) {
    const ShopRecords shop(session.shop());
    const auto records = shop.records(situation.name());
    const auto& words = session.catalog().vocabularies();
    DisclosureSheet sheet;
    sheet.head = sheet_head(session, situation);
    sheet.head.title = situation.model().title;
    sheet.identity = {{"Identification number", situation.vehicle().vin.empty() ? "not known: ______________________"
                                                                                : situation.vehicle().vin}};
    sheet.faults = fault_rows(session, situation, records);
    sheet.found_out = told_rows(ShopTold(session.shop()).standing(situation.name()), words);
    sheet.signatures = {{"Seller, and date", "______________________________"},
                        {"Buyer, and date", "______________________________"}};
    sheet.odometer = odometer_rows(session, situation.name());
    std::set<std::string> seen;
    for (const auto& one : records) {
        if (!one.stands) continue;
        if (one.what == "fitted")
            (is_quantity(session, one.role) ? sheet.fluids : sheet.work).push_back(fitted_row(situation, one));
        if (one.what == "looked_at") sheet.looked_at.push_back(row_of(one, words));
        if (one.what == "fitted" || one.what == "looked_at") seen.insert(one.role);
        if (one.what == "proof") sheet.proof.push_back(row_of(one, words));
    }
    if (with_photos) sheet.photos = photo_rows(session, situation.name(), {"telling", "record", "event"});
    std::vector<std::string> unseen;
    for (const auto& answer : situation.places().roles())
        if (!seen.count(answer.role) && answer.verdict != Verdict::none_needed) unseen.push_back(answer.title);
    if (!unseen.empty())
        sheet.unverified = {{"not looked at by the seller", fmt::format("{}", fmt::join(unseen, "; "))}};
    const auto facts = sale_facts(shop, situation, gross_weight_kg);
    for (const auto& law : reminders(ShopSettings(session.shop()).get("jurisdiction").value_or(""), facts, today()))
        sheet.reminders.push_back({{}, law});
    return sheet;
}

Sheet sheet_of(const HistorySheet& sheet) {
    return {"history",
            sheet.head,
            {{"found_out", "Found out", sheet.found_out},
             {"work", "Work", sheet.work},
             {"parts", "Parts", sheet.parts},
             {"money", "Money", sheet.money},
             {"closed", "Jobs closed", sheet.closed},
             {"photos", "Photos", sheet.photos, ""}}};
}

// What nobody knows is said once, as a list.
Sheet sheet_of(const DisclosureSheet& sheet) {
    Sheet made{"disclosure",
               sheet.head,
               {{"identity", "The vehicle", sheet.identity},
                {"faults", "Known faults", sheet.faults},
                {"work", "Work done", sheet.work},
                {"fluids", "Fluids", sheet.fluids},
                {"looked_at", "Looked at, not replaced", sheet.looked_at},
                {"proof", "Checked afterwards", sheet.proof},
                {"odometer", "Odometer", sheet.odometer},
                {"found_out", "Found out", sheet.found_out},
                {"unverified", "Not known", sheet.unverified},
                {"photos", "Photos", sheet.photos, ""},
                {"signatures", "Signatures", sheet.signatures},
                {"reminders", "For the seller, not part of what is signed", sheet.reminders}}};
    std::vector<std::string> unknown;
    std::vector<std::string> names;
    for (const auto& section : made.sections)
        if (section.rows.empty() && section.name != "unverified" && !section.takes_no_room()) {
            unknown.push_back(section.title);
            names.push_back(section.name);
        }
    for (auto& section : made.sections)
        if (section.name == "unverified" && !unknown.empty())
            section.rows.insert(section.rows.begin(),
                                {"nothing is on record of", fmt::format("{}", fmt::join(unknown, "; "))});
    return without_empty(std::move(made), names);
}

std::string row_text(const SheetRow& row) {
    std::string text = row.entry ? fmt::format("entry {}", *row.entry) : "";
    if (!row.date.empty()) text += (text.empty() ? "" : ", ") + row.date;
    if (!text.empty()) text += ": ";
    if (!row.subject.empty()) text += row.subject + ": ";
    text += row.text;
    if (row.corrects) text += fmt::format("; corrects entry {}", *row.corrects);
    if (!row.source.empty()) text += fmt::format(" [{}]", row.source);
    return text + (row.stands ? "" : " (no longer stands)");
}

std::string sheet_text(const Sheet& sheet) {
    std::string out = spread(fmt::format("{} sheet, {}, {}", sheet.kind, sheet.head.vehicle, sheet.head.date),
                             invented_label(sheet.head.invented)) +
                      wrapped(sheet.head.title);
    for (const auto& section : sheet.sections) {
        if (section.takes_no_room()) continue;
        out += "\n" + section.title + "\n";
        const auto box = section.columns.empty() ? "" : "[ ] ";
        for (const auto& row : section.rows) {
            out += wrapped(box + row_text(row), 2, 6);
            for (const auto& photo : row.photos) out += fmt::format("      {}\n", photo_file(photo));
        }
        if (section.rows.empty()) out += wrapped(section.if_empty, 2);
    }
    return out;
}

Json json_of(const Sheet& sheet) {
    Json json{{"kind", sheet.kind},
              {"vehicle", sheet.head.vehicle},
              {"title", sheet.head.title},
              {"date", sheet.head.date},
              {"invented", sheet.head.invented}};
    json["sections"] = Json::array();
    for (const auto& section : sheet.sections) {
        Json rows = Json::array();
        for (const auto& row : section.rows)
            rows.push_back({{"entry", row.entry ? Json(*row.entry) : Json(nullptr)},
                            {"date", row.date},
                            {"subject", row.subject},
                            {"text", row.text},
                            {"source", row.source},
                            {"corrects", row.corrects ? Json(*row.corrects) : Json(nullptr)},
                            {"stands", row.stands}});
        for (std::size_t i = 0; i < section.rows.size(); ++i)
            for (const auto& photo : section.rows[i].photos) rows[i]["photos"].push_back(casebound::json_of(photo));
        json["sections"].push_back(
            {{"name", section.name}, {"title", section.title}, {"rows", rows}, {"if_empty", section.if_empty}});
    }
    return json;
}

}  // namespace casebound
