// The one table of commands: what is dispatched is what help lists.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"

namespace casebound {

struct OptionSpec {
    std::string name, value, help;         // value: what stands for it in help ("DATE"); empty for a flag
    bool many = false;                     // may be given several times
    std::vector<std::string> values = {};  // all that may stand for it; empty: anything
};

// "WHAT": the words that may stand for it, as they are typed.
struct WordList {
    std::string name;
    std::vector<std::string> words;
};

struct Command {
    std::string name;                 // "list", "pack load"
    std::string words;                // "VEHICLE JOB..."
    std::string summary;              // one line
    std::size_t least = 0, most = 0;  // positionals
    std::vector<OptionSpec> options;
    Result (*run)(Session&, const Args&) = nullptr;
    std::string example = {};  // what may be typed, whole
    std::vector<WordList> lists = {};
};

// Every command, in the order help shows them. Those of the program itself stand above the page, which runs the others:
// they are given, and take their place among them.
std::vector<Command> commands(const std::vector<Command>& of_program = {});

// Parts of the table, one a file.
std::vector<Command> pack_commands();
std::vector<Command> vehicle_commands();
std::vector<Command> fit_commands();
std::vector<Command> ask_commands();
std::vector<Command> swap_commands();
std::vector<Command> audit_commands();
std::vector<Command> triage_commands();
std::vector<Command> decide_commands();
std::vector<Command> offer_commands();
std::vector<Command> buy_commands();
std::vector<Command> record_commands();
std::vector<Command> close_commands();
std::vector<Command> due_commands();
std::vector<Command> sheet_commands();
std::vector<Command> shop_commands();
std::vector<Command> keep_commands();
std::vector<Command> note_commands();
std::vector<Command> find_commands();
std::vector<Command> table_commands();
std::vector<Command> domain_commands();
std::vector<Command> page_commands();
std::vector<Command> program_commands();  // these two, and those of the program itself

// `casebound DOMAIN INQUIRY [NAME=VALUE]... [--for VEHICLE]`, and the list of a domain's inquiries.
Result run_inquiry(Session& session, const std::string& domain, const Args& args);

// For a command of `one_write`: everything is done, then taken back.
inline const OptionSpec dry_run{"dry-run", "",
                                "do all of it, show what comes of it, and take it back: nothing is written"};

// The answer of such a run, which says that nothing was written.
Result taken_back(const Session& session, Result result);

// Throws Error(usage) in a dry run: `what` is written outside the shop file, where it could not be taken back.
void refuse_dry_run(const Args& args, std::string_view what);

// A command that checks and writes, as one immediate transaction of the shop: what was checked is still so when it is
// written, whatever other processes do, and what fails on the way has written nothing; nor has a dry run.
template <Result (*run)(Session&, const Args&)> Result one_write(Session& session, const Args& args) {
    Transaction writing(session.shop());
    auto result = run(session, args);
    if (args.has(dry_run.name)) return taken_back(session, std::move(result));
    writing.commit();
    return result;
}

inline constexpr std::size_t any_number = 1000;

}  // namespace casebound
