// The sheets: text, JSON, and HTML to print.
#include <algorithm>

#include <fmt/format.h>

#include "core/ground/units.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/sheets/bench_sheet.h"
#include "core/sheets/order_sheet.h"
#include "core/sheets/sheet_html.h"
#include "core/sheets/sheets.h"

namespace casebound {

namespace {

std::optional<double> gross_weight(const Args& args) {
    if (!args.has("gross-weight")) return std::nullopt;
    try {
        return quantity_in(args.option("gross-weight"), "kg");
    } catch (const UnitFault& fault) { throw Error(Exit::usage, fmt::format("gross-weight: {}", fault.what())); }
}

struct AskedSheet {
    Sheet sheet;
    Json more = Json::object();
};  // more: what its rows only say in words

Json json_of(const BenchLine& line) {
    Json json{{"role", line.role},
              {"title", line.title},
              {"need", line.need},
              {"parts", Json::array()},
              {"tell_apart", Json::array()}};
    for (const auto& part : line.parts)
        json["parts"].push_back(
            {{"items", part.items}, {"title", part.title}, {"where", part.where}, {"verdict", part.verdict}});
    for (const auto& mark : line.marks)
        json["tell_apart"].push_back(
            {{"attribute", mark.attribute}, {"title", mark.title}, {"how", mark.how}, {"told", mark.told}});
    return json;
}

AskedSheet asked_sheet(Session& session, const Situation& situation, const std::string& kind,
                       const std::vector<std::string>& jobs, std::optional<double> gross_weight_kg, bool with_photos) {
    if (kind == "job") return {sheet_of(job_sheet(session, situation, jobs))};
    if (kind == "history") return {sheet_of(history_sheet(session, situation))};
    if (kind == "disclosure") return {sheet_of(disclosure_sheet(session, situation, gross_weight_kg, with_photos))};
    if (kind == "order") {
        const auto sheet = order_sheet(session, situation, jobs);
        return {sheet_of(sheet),
                {{"currency", sheet.currency},
                 {"order", sheet.order ? casebound::json_of(*sheet.order, sheet.tax_percent) : Json(nullptr)}}};
    }
    if (kind == "bench-match") {
        const auto sheet = bench_sheet(session, situation, jobs);
        Json lines = Json::array();
        for (const auto& line : sheet.lines) lines.push_back(json_of(line));
        return {sheet_of(sheet), {{"lines", lines}}};
    }
    throw Error(Exit::usage, fmt::format("{}: no such sheet: job, order, bench-match, history or disclosure", kind));
}

Result run_sheet(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto kind = args.words.size() > 1 ? args.words[1] : std::string("job");
    const std::vector<std::string> jobs(args.words.begin() + std::min<std::ptrdiff_t>(2, std::ssize(args.words)),
                                        args.words.end());
    const auto paper = paper_from(args.option("paper", "a4"));
    if (args.has("html")) {
        if (session.json()) throw Error(Exit::usage, "sheet: --html and --json at once: take one of them");
        return {
            Exit::yes,
            sheet_html(print_sheet(session, *situation, kind, jobs, gross_weight(args), args.has("photos")), paper)};
    }
    const auto asked = asked_sheet(session, *situation, kind, jobs, gross_weight(args), args.has("photos"));
    if (!session.json()) return {Exit::yes, sheet_text(asked.sheet)};
    auto json = document("sheet");
    json["sheet"] = casebound::json_of(asked.sheet);
    json["sheet"].update(asked.more);
    return {Exit::yes, json_text(json)};
}

}  // namespace

std::vector<Command> sheet_commands() {
    return {{"sheet",
             "VEHICLE [job|order|bench-match|history|disclosure] [JOB...]",
             "a sheet of the open jobs: work, order, or bench match; the history; or what to disclose",
             1,
             any_number,
             {{"html", "", "as HTML to print from a browser"},
              {"paper", "SIZE", "with --html (default: a4)", false, {"a4", "letter"}},
              {"photos", "", "the disclosure sheet with the photos; the history has them always"},
              {"gross-weight", "WEIGHT",
               "gross vehicle weight rating, kg or lb, for the odometer reminder of the disclosure sheet"}},
             run_sheet,
             "casebound sheet van job pan-service --html > job.html"}};
}

}  // namespace casebound
