// `manual` and `completion`: what is installed beside the program, written by the program itself.
#include "core/program/manual.h"

namespace casebound {

namespace {

Result run_manual(Session&, const Args&) { return {Exit::yes, manual_page(commands(program_commands()))}; }

Result run_completion(Session&, const Args& args) {
    return {Exit::yes, completion_script(args.words.at(0), commands(program_commands()))};
}

}  // namespace

std::vector<Command> program_commands() {
    auto all = page_commands();
    for (auto& command : domain_commands()) all.push_back(std::move(command));
    all.push_back({"manual", "", "the manual page, as `man` reads it", 0, 0, {}, run_manual});
    all.push_back({"completion", "SHELL", "what bash, zsh or fish needs to complete words", 1, 1, {}, run_completion});
    return all;
}

}  // namespace casebound
