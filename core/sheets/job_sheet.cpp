// The job sheet: what lies beside the vehicle. Page one is the work: boxes, parts, numbers, counts, what stays
// behind; what is to be minded at several places, and where the figures are from, once and at the end.
#include <algorithm>
#include <cctype>
#include <utility>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/session/ask_domains.h"
#include "core/sheets/check_off.h"
#include "core/sheets/sheets.h"
#include "core/work/why.h"

namespace casebound {

namespace {

bool among(const std::vector<std::string>& texts, const std::string& text) {
    return std::find(texts.begin(), texts.end(), text) != texts.end();
}

std::string member_or_packs(const ListLine& line, const Option& option) {
    if (!option.containers.empty()) return containers_text(option.containers, line.answer.unit);
    if (auto open = amount_open_text(line, option); !open.empty()) return open;
    return option.members.empty() ? named(option.title, option.group) : option.members.front().item;
}

std::vector<std::string> to_mind(const ListLine& line) {
    std::vector<std::string> all = line.notes;
    if (const auto* best = line.answer.best()) {
        all.insert(all.end(), best->notes.begin(), best->notes.end());
        for (const auto& caution : best->cautions) all.push_back(caution.text);
    }
    return all;
}

// What is to be minded at several places is said once, with the places.
std::vector<std::pair<std::string, std::vector<std::string>>> minded_at_several(const PartsList& list) {
    std::vector<std::pair<std::string, std::vector<std::string>>> all;
    for (const auto& line : list.lines)
        for (const auto& text : to_mind(line)) {
            const auto known = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.first == text; });
            if (known == all.end()) all.push_back({text, {line.answer.title}});
            else if (std::find(known->second.begin(), known->second.end(), line.answer.title) == known->second.end())
                known->second.push_back(line.answer.title);
        }
    std::erase_if(all, [](const auto& one) { return one.second.size() < 2; });
    return all;
}

SheetRows caution_rows(const PartsList& list) {
    SheetRows rows;
    for (const auto& caution : list.cautions)
        if (caution.text != jack_caution_of_packs) rows.push_back({{}, caution.text});
    for (const auto& [text, places] : minded_at_several(list))
        rows.push_back({fmt::format("{}", fmt::join(places, ", ")), text});
    rows.push_back({{}, closing_caution});
    return rows;
}

SheetRow part_row(const ListLine& line, const Situation& situation, const std::vector<std::string>& said_once) {
    const bool look = line.reach == Reach::look_first ||
                      (line.reach == Reach::disturbs &&
                       line.answer.verdict != Verdict::not_answered);  // as on the parts list
    const auto verdict = std::string(look ? "look first" : verdict_words(line.answer.verdict));
    const auto number = cases_words(situation, line.answer, line_cases(line, situation, member_or_packs), " or ");
    std::vector<std::string> mind;
    for (auto& text : to_mind(line))
        if (!among(mind, text) && !among(said_once, text)) mind.push_back(std::move(text));
    for (auto& text : mind)  // joined below
        while (text.ends_with('.')) text.pop_back();
    SheetRow row{line.answer.title, fmt::format("{}, {}", verdict, need_text(line))};
    for (const auto& text : {number, fmt::format("{}", fmt::join(mind, "; "))})
        if (!text.empty()) row.text += "; " + text;
    if (line.answer.verdict != Verdict::fits || look) mind.insert(mind.begin(), verdict);
    row.cells = {line.answer.title, need_text(line), number.empty() ? "-" : number,
                 fmt::format("{}", fmt::join(mind, "; "))};
    return row;
}

std::string where_it_stays(const Stay& stay, const Situation& situation) {
    if (stay.where.empty()) return stay.place;
    return fmt::format("{} (where {})", stay.place,
                       where_words(situation.model().set, stay.on, situation.narrowing().left));
}

SheetRow stay_row(const Stay& stay, const Situation& situation) {
    std::string where = where_it_stays(stay, situation), how;
    if (!stay.see.empty()) how += "; to see it: " + stay.see;
    if (!stay.remove.empty()) how += "; to get it out: " + stay.remove;
    const auto count = stay_count(stay);
    SheetRow row{stay.title, fmt::format("{}{}{}{}", where, count.empty() ? "" : ". ", count, how)};
    row.cells = {stay.title, where + how, count.empty() ? "-" : std::to_string(stay.count),
                 count.empty() ? "seen to ____" : "out ____ in ____"};
    return row;
}

bool is_letter_or_digit(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

// Does a figure of its own begin here: not the end of a span, a list or a tolerance?
bool stands_alone(std::string_view before) {
    while (before.ends_with(' ')) before.remove_suffix(1);
    for (const std::string_view joins : {" to", " or", " and"})
        if (before.ends_with(joins)) return false;
    return before.empty() || std::isalpha(static_cast<unsigned char>(before.back())) ||
           std::string_view(":;+(").find(before.back()) != std::string_view::npos;
}

// How long a torque at the front of `text` is, its unit included; 0: there is none.
std::size_t torque_at(std::string_view text) {
    const auto digits = std::min(text.find_first_not_of("0123456789."), text.size());
    if (digits == 0) return 0;
    const auto from = text.find_first_not_of(' ', digits);
    for (const std::string_view unit : {"N·m", "N m", "Nm"})
        if (from != std::string_view::npos && text.substr(from).starts_with(unit) &&
            (from + unit.size() == text.size() || !is_letter_or_digit(text[from + unit.size()])))
            return from + unit.size();
    return 0;
}

// What a domain says of tightening, each torque as the tools read it: "26 lb ft (35 N·m) + 45°; new each time".
std::string torques_shown(std::string_view said) {
    std::string out;
    for (std::size_t at = 0; at < said.size();) {
        const bool begins = at == 0 || !(is_letter_or_digit(said[at - 1]) || said[at - 1] == '.');
        const auto length = begins && stands_alone(said.substr(0, at)) ? torque_at(said.substr(at)) : 0;
        out += length > 0 ? shown_value(said.substr(at, length)) : std::string(1, said[at]);
        at += std::max<std::size_t>(length, 1);
    }
    return out;
}

// How each role of the list is tightened, by the domains; where one should be and is not on record, that is said.
SheetRows torque_rows(Session& session, const Situation& situation, const PartsList& list) {
    SheetRows rows;
    for (const auto& line : list.lines) {
        if (line.answer.verdict == Verdict::none_needed) continue;
        const auto said = tightening_of(session, situation, line.answer.role);
        if (!said) rows.push_back({line.answer.title, fmt::format("not answered: {}", said.failure)});
        else if (said->none_here) continue;
        else if (said->fasteners.empty()) rows.push_back({line.answer.title, "not recorded, see the maker's"});
        else
            for (const auto& one : said->fasteners)
                rows.push_back(
                    {line.answer.title,
                     in_titles(session.catalog(), fmt::format("{}: {}", one.what, torques_shown(one.tightening))),
                     {},
                     source_words(one.source)});
    }
    rows.push_back({"all others", "not recorded, see the maker's"});
    return rows;
}

SheetRow check_off_row(const CheckOffLine& line) {
    std::string text = fmt::format("[{}] {}, {}", line.fitted ? "x" : " ", line.need, line.state_with_doubt());
    if (!line.item.empty()) text += "; " + line.item;
    if (!line.so_far.empty()) text += "; " + line.so_far;
    if (!line.return_by.empty()) text += "; may go back until " + line.return_by;
    if (!line.core_by.empty()) text += "; old part back by " + line.core_by;
    return {line.title, text};
}

// Which book says it stands at the end, not between the figures.
SheetRows sources_of(SheetRows& rows) {
    SheetRows sources;
    for (auto& row : rows)
        if (!row.source.empty()) sources.push_back({row.subject, std::exchange(row.source, {})});
    return sources;
}

}  // namespace

JobSheet job_sheet(Session& session, const Situation& situation, const std::vector<std::string>& asked) {
    const auto jobs = named_or_open_jobs(session, situation, asked);
    auto list = in_words(make_parts_list(situation.places(), jobs), session.catalog());
    for (auto& line : list.lines) line.answer = with_deciding(std::move(line.answer), situation);
    JobSheet sheet;
    sheet.head = sheet_head(session, situation, list.invented);
    sheet.right_only_if = hearsay_rows(told_words(situation, list.hearsay));
    for (const auto& one : each_once(in_the_way(list, situation))) sheet.in_the_way.push_back({one.title, one.why});
    sheet.torques = torque_rows(session, situation, list);
    sheet.found = trouble_rows(session, situation);
    for (const auto& title : list.titles) sheet.work.push_back({{}, title});
    std::vector<std::string> said_once;
    for (const auto& [text, places] : minded_at_several(list)) said_once.push_back(text);
    for (const auto& line : list.lines)  // a place that the vehicle does not have is nothing to tick
        if (line.answer.verdict != Verdict::none_needed || line.waits())
            sheet.parts.push_back(part_row(line, situation, said_once));
    for (const auto& stay : list.stays) sheet.stays.push_back(stay_row(stay, situation));
    sheet.cautions = caution_rows(list);
    for (const auto& caution : evidence_cautions(session, situation))
        sheet.found.push_back({"about the evidence", caution});
    for (const auto& line : check_off(session, situation.name())) sheet.check_off.push_back(check_off_row(line));
    return sheet;
}

Sheet sheet_of(const JobSheet& sheet) {
    auto torques = sheet.torques, found = sheet.found;
    auto sources = sources_of(torques);
    for (auto& row : sources_of(found)) sources.push_back(std::move(row));
    Sheet made{"job",
               sheet.head,
               {{"work", "Work", sheet.work},
                {"right_only_if", "RIGHT ONLY IF THIS IS TRUE", sheet.right_only_if, "nothing is assumed"},
                {"in_the_way", "In the way of ordering", sheet.in_the_way, "nothing"},
                {"parts", "Parts", sheet.parts, "none", {"part", "count", "number", "to mind"}},
                {"stays",
                 "Stays behind: look, and count what comes out and what goes in",
                 sheet.stays,
                 "nothing is on record",
                 {"what", "where, and how", "count", "counted"}},
                {"torques", "Torques", torques},
                {"cautions", "Cautions", sheet.cautions},
                {"found", "Found so far", found, "no finding that speaks of trouble is told"},
                {"check_off", "Check-off", sheet.check_off, "no job is started"},
                {"sources", "Where the figures are from", sources}}};
    return without_empty(std::move(made), {"right_only_if", "in_the_way", "found", "check_off", "sources"});
}

}  // namespace casebound
