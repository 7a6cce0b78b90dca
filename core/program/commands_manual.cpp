// `help`, and `manual` and `completion`: what is installed beside the program, written by the program itself.
#include <fmt/format.h>

#include "core/program/help.h"
#include "core/program/manual.h"
#include "core/program/typed_words.h"
#include "core/program/word_offers.h"

namespace casebound {

namespace {

Result run_help(Session& session, const Args& args) {
    const auto table = commands(program_commands());
    if (args.words.empty()) return {Exit::yes, help_text(table)};
    auto first = args.words[0];
    const auto second = args.words.size() > 1 ? args.words[1] : std::string();
    if (auto text = help_for(table, first, second); !text.empty()) return {Exit::yes, std::move(text)};
    if (session.plugins().find(first)) {
        Args asked;
        asked.words.assign(args.words.begin() + 1, args.words.end());
        asked.options["help"] = {};
        return run_inquiry(session, first, asked);
    }
    std::vector<std::string> domains;
    for (const auto& domain : session.plugins().domains) domains.push_back(domain.name);
    throw Error(Exit::usage, fmt::format("help: {}: neither a command nor a loaded domain: {}", first,
                                         command_hint(first, table, domains)));
}

Result run_manual(Session&, const Args&) { return {Exit::yes, manual_page(commands(program_commands()))}; }

Result run_completion(Session& session, const Args& args) {
    const auto table = commands(program_commands());
    if (args.words.at(0) == "next") {
        std::string out;
        for (const auto& one : offered_next(session, table, {args.words.begin() + 1, args.words.end()}))
            out += one.word + (one.what.empty() ? "" : "\t" + one.what) + "\n";
        return {Exit::yes, out};
    }
    if (args.words.size() > 1)
        throw Error(Exit::usage, fmt::format("completion: {}: one word too many", args.words[1]));
    return {Exit::yes, completion_script(args.words.at(0), table)};
}

}  // namespace

std::vector<Command> program_commands() {
    auto all = page_commands();
    for (auto& command : domain_commands()) all.push_back(std::move(command));
    all.push_back({"help",
                   "[COMMAND]",
                   "all commands, or one with its words, options and an example",
                   0,
                   2,
                   {},
                   run_help,
                   "casebound help list"});
    all.push_back(
        {"manual", "", "the manual page, as `man` reads it", 0, 0, {}, run_manual, "casebound manual | man -l -"});
    all.push_back({"completion",
                   "SHELL",
                   "what bash, zsh or fish needs to complete words, those of your vehicles and packs too",
                   1,
                   any_number,
                   {},
                   run_completion,
                   "casebound completion bash > casebound.bash",
                   {{"SHELL", {"bash", "zsh", "fish"}}}});
    return all;
}

}  // namespace casebound
