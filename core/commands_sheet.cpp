// The job sheet, the history sheet and the disclosure sheet. What is not on record is shown as "not known"; nothing
// is promised.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "command.h"
#include "dates.h"
#include "json_of.h"
#include "order_report.h"
#include "reminders.h"
#include "report.h"
#include "shop_records.h"
#include "text_layout.h"
#include "units.h"

namespace casebound {

namespace {

struct Section { std::string title; std::vector<std::string> lines; };

struct Sheet {
    std::string kind, vehicle, title, date;
    bool invented{};
    std::vector<Section> sections;
};

std::string spaced(std::string words) {
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

std::string known(const std::string& text) { return text.empty() ? "not known" : text; }

std::string work_line(const WorkRecord& one) {
    std::string text = fmt::format("entry {}, {}: {}", one.id, one.date, spaced(one.what));
    if (one.what == "looked_at") text += " and not replaced";
    for (const auto& part : {one.role, one.item}) if (!part.empty()) text += " " + part;
    if (one.what == "fitted") text += fmt::format("; part: {}; label: {}", known(spaced(one.made)), known(one.label));
    if (one.quantity) text += "; quantity " + plain_number(*one.quantity, 2);
    if (one.torque_nm) text += fmt::format("; torque {} N m", plain_number(*one.torque_nm, 1));
    if (one.seals_out || one.seals_in) text += fmt::format("; seals {} out, {} in", one.seals_out ? std::to_string(*one.seals_out) : "not known", one.seals_in ? std::to_string(*one.seals_in) : "not known");
    if (one.out_l) text += fmt::format("; {} L out{}", plain_number(*one.out_l, 2), one.out_temp_c ? fmt::format(" at {} °C", plain_number(*one.out_temp_c, 1)) : "");
    if (one.in_l) text += fmt::format("; {} L in{}", plain_number(*one.in_l, 2), one.in_temp_c ? fmt::format(" at {} °C", plain_number(*one.in_temp_c, 1)) : "");
    if (one.what == "proof") text += fmt::format("; gears: {}; codes{}: {}; leaks: {}", known(one.gears), one.drives ? fmt::format(" after {} drives", *one.drives) : "", known(one.codes), known(one.leaks));
    if (one.odometer_km) text += fmt::format("; odometer {} km", plain_number(*one.odometer_km, 0));
    for (const auto& part : {one.photo, one.note}) if (!part.empty()) text += "; " + part;
    if (one.corrects) text += fmt::format("; corrects entry {}", *one.corrects);
    return text + (one.stands ? "" : " (no longer stands)");
}

std::string event_line(const LineEvent& one) {
    std::string text = fmt::format("{}: {} {}", one.date, one.role, spaced(one.event));
    for (const auto& part : {one.item, one.seller, one.note}) if (!part.empty()) text += "; " + part;
    if (!one.return_by.empty()) text += "; may go back until " + one.return_by;
    if (!one.core_by.empty()) text += "; old part back by " + one.core_by;
    return text + (one.stands ? "" : " (no longer stands)");
}

std::vector<std::string> open_jobs(Session& session, const std::string& vehicle) {
    std::set<std::int64_t> closed;
    for (const auto& closing : ShopRecords(session.shop().database()).closings(vehicle)) closed.insert(closing.job);
    std::vector<std::string> jobs;
    for (const auto& job : session.shop().jobs(vehicle))
        if (!closed.count(job.id) && std::find(jobs.begin(), jobs.end(), job.job) == jobs.end()) jobs.push_back(job.job);
    return jobs;
}

std::string part_line(const ListLine& line) {
    std::string text = fmt::format("{}: {}, {}", line.answer.title, verdict_words(line.answer.verdict), need_text(line));
    for (const auto& option : line.options)
        if (!option.members.empty()) text += fmt::format("; {}", option.members.front().item);
    for (const auto& note : line.notes) text += "; " + note;
    if (const auto* best = line.answer.best()) {
        for (const auto& note : best->notes) text += "; " + note;  // torques among them
        for (const auto& caution : best->cautions) text += "; " + caution;
    }
    return text;
}

Sheet job_sheet(Session& session, const Situation& situation, const std::vector<std::string>& asked) {
    Sheet sheet{"job", situation.name(), situation.headline(), today(), false, {}};
    const auto jobs = asked.empty() ? open_jobs(session, situation.name()) : asked;
    if (jobs.empty()) throw Error(Exit::usage, fmt::format("{}: no job is open: name one, or casebound record {} start job=...", situation.name(), situation.name()));
    const Interchange interchange(session.catalog(), session.plugins(), session.engine(), &situation.judge());
    const auto list = make_parts_list(situation.judge(), interchange, jobs);
    sheet.invented = list.invented;
    Section work{"Work", list.titles}, parts{"Parts", {}}, stays{"Stays in the case", {}}, cautions{"Cautions", {}}, so_far{"Done so far", {}};
    for (const auto& line : list.lines) parts.lines.push_back(part_line(line));
    for (const auto& stay : list.stays)
        stays.lines.push_back(fmt::format("{}, {}{}. {} {} {} out, {} in.", stay.title, stay.place, stay.where.empty() ? "" : " (where " + stay.where + ")", stay.see, stay.remove, stay.count, stay.count));
    for (const auto& caution : list.cautions) cautions.lines.push_back(caution.text);
    cautions.lines.emplace_back(closing_caution);
    for (const auto& event : ShopRecords(session.shop().database()).events(situation.name())) so_far.lines.push_back(event_line(event));
    sheet.sections = {work, parts, stays, cautions, so_far};
    return sheet;
}

Section told_section(Session& session, const std::string& vehicle, bool all) {
    Section told{"Found out", {}};
    for (const auto& entry : all ? session.shop().history(vehicle) : session.shop().told(vehicle))
        told.lines.push_back(fmt::format("{}: {} {} ({}){}{}{}", entry.date, entry.attribute, entry.withdrawn ? "taken back" : "= " + entry.text, entry.withdrawn ? "-" : tell_evidence_words(entry.evidence),
                                         entry.photo.empty() ? "" : "; photo " + entry.photo, entry.note.empty() ? "" : "; " + entry.note, entry.stands || entry.withdrawn ? "" : " (no longer stands)"));
    return told;
}

Sheet history_sheet(Session& session, const Situation& situation) {
    const ShopRecords records(session.shop().database());
    const auto& name = situation.name();
    const auto currency = session.shop().setting("currency").value_or("cu");
    Section work{"Work", {}}, parts{"Parts", {}}, money{"Money", {}}, closed{"Jobs closed", {}};
    for (const auto& one : records.records(name)) work.lines.push_back(work_line(one));
    for (const auto& event : records.events(name)) parts.lines.push_back(event_line(event));
    for (const auto& one : records.money(name)) money.lines.push_back(fmt::format("entry {}, {}: {} {}{}{}", one.id, one.date, one.kind, money_text(one.cents, currency), one.note.empty() ? "" : "; " + one.note, one.stands ? "" : " (no longer stands)"));
    for (const auto& one : records.closings(name)) closed.lines.push_back(fmt::format("{}: {}: cause: {}; worked: {}; {} h; {}", one.date, one.job_key, one.cause, spaced(one.worked), plain_number(one.hours, 2), money_text(one.cost_cents, currency)));
    return {"history", name, situation.headline(), today(), false, {told_section(session, name, true), work, parts, money, closed}};
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

Sheet disclosure_sheet(Session& session, const Situation& situation) {
    const ShopRecords records(session.shop().database());
    const auto& name = situation.name();
    Section faults{"Known faults", {}}, work{"Work done", {}}, looked{"Looked at, not replaced", {}}, proof{"Checked afterwards", {}}, odometer{"Odometer", {}}, unknown{"Not verified", {}};
    for (const auto& one : records.closings(name))
        faults.lines.push_back(fmt::format("{}: {}; {}", one.job_key, one.cause, one.worked == "yes" ? "did not return in the checks below" : one.worked == "no" ? "STILL THERE" : "result not known"));
    for (const auto& job : open_jobs(session, name)) faults.lines.push_back(job + ": work begun and not ended");
    std::optional<double> km;
    std::string km_date;
    for (const auto& one : records.records(name)) {
        if (!one.stands) continue;
        if (one.what == "fitted") work.lines.push_back(work_line(one));
        if (one.what == "looked_at") looked.lines.push_back(work_line(one));
        if (one.what == "proof") proof.lines.push_back(work_line(one));
        if (one.odometer_km) km = one.odometer_km, km_date = one.date;
    }
    odometer.lines.push_back(km ? fmt::format("{} km, read {}", plain_number(*km, 0), km_date) : "not known");
    for (auto* section : {&faults, &work, &looked, &proof})
        if (section->lines.empty()) section->lines.emplace_back("not known");
    for (const auto& answer : situation.judge().roles())
        if (std::none_of(work.lines.begin(), work.lines.end(), [&](const auto& line) { return line.find(answer.role) != std::string::npos; })) unknown.lines.push_back(answer.title + ": not known");
    const auto law = reminders(session.shop().setting("jurisdiction").value_or(""), sale_facts(records, situation), today());
    return {"disclosure", name, situation.headline(), today(), false, {faults, work, looked, proof, odometer, told_section(session, name, false), unknown, {"Reminders", law}}};
}

std::string sheet_text(const Sheet& sheet) {
    std::string out = spread(fmt::format("{} sheet, {}, {}", sheet.kind, sheet.vehicle, sheet.date), invented_label(sheet.invented)) + wrapped(sheet.title);
    for (const auto& section : sheet.sections) {
        out += "\n" + section.title + "\n";
        for (const auto& line : section.lines) out += wrapped(line, 2, 2);
        if (section.lines.empty()) out += "  not known\n";
    }
    return out;
}

Json sheet_json(const Sheet& sheet) {
    Json json{{"kind", sheet.kind}, {"vehicle", sheet.vehicle}, {"title", sheet.title}, {"date", sheet.date}, {"invented", sheet.invented}};
    json["sections"] = Json::array();
    for (const auto& section : sheet.sections) json["sections"].push_back({{"title", section.title}, {"lines", section.lines}});
    return json;
}

Result run_sheet(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto kind = args.words.size() > 1 ? args.words[1] : std::string("job");
    Sheet sheet;
    if (kind == "job") sheet = job_sheet(session, *situation, {args.words.begin() + std::min<std::ptrdiff_t>(2, std::ssize(args.words)), args.words.end()});
    else if (kind == "history") sheet = history_sheet(session, *situation);
    else if (kind == "disclosure") sheet = disclosure_sheet(session, *situation);
    else throw Error(Exit::usage, fmt::format("{}: no such sheet: job, history or disclosure", kind));
    for (const auto origin : situation->model().origins) sheet.invented |= session.catalog().invented(origin);
    if (!session.json()) return {Exit::yes, sheet_text(sheet)};
    auto json = document("sheet");
    json["sheet"] = sheet_json(sheet);
    return {Exit::yes, json_text(json)};
}

}  // namespace

std::vector<Command> sheet_commands() {
    return {{"sheet", "VEHICLE [job|history|disclosure] [JOB...]", "the job sheet of the open jobs, the history, or what to disclose", 1, any_number, {}, run_sheet}};
}

}  // namespace casebound
