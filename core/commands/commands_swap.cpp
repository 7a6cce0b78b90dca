// swap: may OFFERED stand in for WANTED?
#include <fmt/format.h>

#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/verdict/part_number.h"
#include "core/work/why.h"

namespace casebound {

namespace {

Exit exit_of(SwapVerdict verdict) {
    switch (verdict) {
        case SwapVerdict::yes: return Exit::yes;
        case SwapVerdict::no:
        case SwapVerdict::differs: return Exit::no;
        default: return Exit::cannot_tell;
    }
}

Result run_swap(Session& session, const Args& args) {
    const auto situation = args.has("for") ? session.situation(args.option("for")) : nullptr;
    const auto answer = swap_on(session, situation.get(), item_meant(session.catalog(), args.words.at(0)),
                                item_meant(session.catalog(), args.words.at(1)));
    if (!session.json()) return {exit_of(answer.verdict), swap_text(answer, session.full(), session.catalog())};
    auto json = document("swap");
    if (situation) json["vehicle"] = json_of(*situation);
    json["answer"] = json_of(answer);
    return {exit_of(answer.verdict), json_text(json)};
}

}  // namespace

std::vector<Command> swap_commands() {
    return {{"swap",
             "WANTED OFFERED",
             "may OFFERED stand in for WANTED? one way only",
             2,
             2,
             {{"for", "VEHICLE", "on this vehicle: its conditions are met or not"}},
             run_swap,
             "casebound swap QF-4 QF-5 --for van"}};
}

}  // namespace casebound
