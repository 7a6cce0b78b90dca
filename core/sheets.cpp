#include "sheets.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "dates.h"
#include "reminders.h"
#include "report.h"
#include "sheet_rows.h"
#include "units.h"

namespace casebound {

namespace {

SheetHead head_of(Session& session, const Situation& situation) {
    SheetHead head{situation.name(), situation.headline(), today(), false};
    for (const auto origin : situation.model().origins) head.invented |= session.catalog().invented(origin);
    return head;
}

SheetRow part_row(const ListLine& line) {
    std::string text = fmt::format("{}, {}", verdict_words(line.answer.verdict), need_text(line));
    for (const auto& option : line.options)
        if (!option.members.empty()) text += fmt::format("; {}", option.members.front().item);
    for (const auto& note : line.notes) text += "; " + note;
    if (const auto* best = line.answer.best()) {
        for (const auto& note : best->notes) text += "; " + note;
        for (const auto& caution : best->cautions) text += "; " + caution;
    }
    return {line.answer.title, text};
}

SheetRow stay_row(const Stay& stay) {
    std::string text = fmt::format("{}{}. {} out, {} in", stay.place, stay.where.empty() ? "" : " (where " + stay.where + ")", stay.count, stay.count);
    if (!stay.see.empty()) text += "; to see it: " + stay.see;
    if (!stay.remove.empty()) text += "; to get it out: " + stay.remove;
    return {stay.title, text, {}, source_text(stay.origin)};
}

SheetRows told_rows(const std::vector<TellEntry>& entries) {
    SheetRows rows;
    for (const auto& entry : entries) rows.push_back(row_of(entry));
    return rows;
}

std::optional<int> model_year_of(const Situation& situation) {
    const auto years = situation.possible("year");
    if (years.size() != 1) return std::nullopt;
    return std::stoi(years.front().text);
}

SaleFacts sale_facts(const ShopRecords& records, const Situation& situation) {
    const auto since = days_after(today(), -365);
    SaleFacts facts{model_year_of(situation), records.vehicles_sold(since, today(), true), records.vehicles_sold(since, today(), false)};
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

std::string ending(const std::string& worked) { return worked == "yes" ? "did not return in the checks below" : worked == "no" ? "STILL THERE" : "result not known"; }

}  // namespace

std::vector<std::string> open_jobs(Session& session, const std::string& vehicle) {
    std::set<std::int64_t> closed;
    for (const auto& closing : ShopRecords(session.shop().database()).closings(vehicle)) closed.insert(closing.job);
    std::vector<std::string> jobs;
    for (const auto& job : session.shop().jobs(vehicle))
        if (!closed.count(job.id) && std::find(jobs.begin(), jobs.end(), job.job) == jobs.end()) jobs.push_back(job.job);
    return jobs;
}

JobSheet job_sheet(Session& session, const Situation& situation, const std::vector<std::string>& asked) {
    const auto jobs = asked.empty() ? open_jobs(session, situation.name()) : asked;
    if (jobs.empty()) throw Error(Exit::usage, fmt::format("{}: no job is open: name one, or casebound record {} start job=...", situation.name(), situation.name()));
    const Interchange interchange(session.catalog(), session.plugins(), session.engine(), &situation.judge());
    const auto list = make_parts_list(situation.judge(), interchange, jobs);
    JobSheet sheet{head_of(session, situation), {}, {}, {}, {}, {}};
    sheet.head.invented |= list.invented;
    for (const auto& title : list.titles) sheet.work.push_back({{}, title});
    for (const auto& line : list.lines) sheet.parts.push_back(part_row(line));
    for (const auto& stay : list.stays) sheet.stays.push_back(stay_row(stay));
    for (const auto& caution : list.cautions) sheet.cautions.push_back({{}, caution.text, {}, source_text(caution.origin)});
    sheet.cautions.push_back({{}, closing_caution});
    for (const auto& event : ShopRecords(session.shop().database()).events(situation.name())) sheet.done.push_back(row_of(event));
    return sheet;
}

HistorySheet history_sheet(Session& session, const Situation& situation) {
    const ShopRecords records(session.shop().database());
    const auto& name = situation.name();
    const auto currency = session.shop().setting("currency").value_or("cu");
    HistorySheet sheet{head_of(session, situation), told_rows(session.shop().history(name)), {}, {}, {}, {}};
    for (const auto& one : records.records(name)) sheet.work.push_back(row_of(one));
    for (const auto& event : records.events(name)) sheet.parts.push_back(row_of(event));
    for (const auto& one : records.money(name)) sheet.money.push_back(row_of(one, currency));
    for (const auto& one : records.closings(name)) sheet.closed.push_back(row_of(one, currency));
    return sheet;
}

DisclosureSheet disclosure_sheet(Session& session, const Situation& situation) {
    const ShopRecords records(session.shop().database());
    const auto& name = situation.name();
    DisclosureSheet sheet{head_of(session, situation), {}, {}, {}, {}, {}, told_rows(session.shop().told(name)), {}, {}};
    for (const auto& one : records.closings(name)) sheet.faults.push_back({one.job_key, fmt::format("{}; {}", one.cause, ending(one.worked)), one.date});
    for (const auto& job : open_jobs(session, name)) sheet.faults.push_back({job, "work begun and not ended"});
    std::set<std::string> seen;
    for (const auto& one : records.records(name)) {
        if (!one.stands) continue;
        if (one.what == "fitted" || one.what == "looked_at") (one.what == "fitted" ? sheet.work : sheet.looked_at).push_back(row_of(one)), seen.insert(one.role);
        if (one.what == "proof") sheet.proof.push_back(row_of(one));
        if (one.odometer_km) sheet.odometer = {{{}, fmt::format("{} km", plain_number(*one.odometer_km, 0)), one.date}};
    }
    for (const auto& answer : situation.judge().roles())
        if (!seen.count(answer.role)) sheet.unverified.push_back({answer.title, "not known"});
    for (const auto& law : reminders(session.shop().setting("jurisdiction").value_or(""), sale_facts(records, situation), today())) sheet.reminders.push_back({{}, law});
    return sheet;
}

Sheet sheet_of(const JobSheet& sheet) {
    return {"job", sheet.head,
            {{"work", "Work", sheet.work}, {"parts", "Parts", sheet.parts}, {"stays", "Stays in the case", sheet.stays, "nothing is on record"}, {"cautions", "Cautions", sheet.cautions}, {"done", "Done so far", sheet.done, "nothing yet"}}};
}

Sheet sheet_of(const HistorySheet& sheet) {
    return {"history", sheet.head,
            {{"found_out", "Found out", sheet.found_out}, {"work", "Work", sheet.work}, {"parts", "Parts", sheet.parts}, {"money", "Money", sheet.money}, {"closed", "Jobs closed", sheet.closed}}};
}

Sheet sheet_of(const DisclosureSheet& sheet) {
    return {"disclosure", sheet.head,
            {{"faults", "Known faults", sheet.faults}, {"work", "Work done", sheet.work}, {"looked_at", "Looked at, not replaced", sheet.looked_at}, {"proof", "Checked afterwards", sheet.proof},
             {"odometer", "Odometer", sheet.odometer}, {"found_out", "Found out", sheet.found_out}, {"unverified", "Not verified", sheet.unverified}, {"reminders", "Reminders", sheet.reminders}}};
}

}  // namespace casebound
