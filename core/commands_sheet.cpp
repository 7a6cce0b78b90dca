// The job sheet, the history sheet and the disclosure sheet.
#include <algorithm>

#include <fmt/format.h>

#include "command.h"
#include "json_of.h"
#include "sheet_text.h"
#include "units.h"

namespace casebound {

namespace {

std::optional<double> gross_weight(const Args& args) {
    if (!args.has("gross-weight")) return std::nullopt;
    try {
        return quantity_in(args.option("gross-weight"), "kg");
    } catch (const UnitFault& fault) {
        throw Error(Exit::usage, fmt::format("gross-weight: {}", fault.what()));
    }
}

Sheet asked_sheet(Session& session, const Situation& situation, const Args& args) {
    const auto kind = args.words.size() > 1 ? args.words[1] : std::string("job");
    if (kind == "job") return sheet_of(job_sheet(session, situation, {args.words.begin() + std::min<std::ptrdiff_t>(2, std::ssize(args.words)), args.words.end()}));
    if (kind == "history") return sheet_of(history_sheet(session, situation));
    if (kind == "disclosure") return sheet_of(disclosure_sheet(session, situation, gross_weight(args)));
    throw Error(Exit::usage, fmt::format("{}: no such sheet: job, history or disclosure", kind));
}

Result run_sheet(Session& session, const Args& args) {
    const auto situation = session.situation(args.words.at(0));
    const auto sheet = asked_sheet(session, *situation, args);
    if (!session.json()) return {Exit::yes, sheet_text(sheet)};
    auto json = document("sheet");
    json["sheet"] = json_of(sheet);
    return {Exit::yes, json_text(json)};
}

}  // namespace

std::vector<Command> sheet_commands() {
    return {{"sheet", "VEHICLE [job|history|disclosure] [JOB...]", "the job sheet of the open jobs, the history, or what to disclose", 1, any_number,
             {{"gross-weight", "WEIGHT", "gross vehicle weight rating, kg or lb, for the odometer reminder of the disclosure sheet"}}, run_sheet}};
}

}  // namespace casebound
