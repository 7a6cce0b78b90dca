// What was typed, read against the one table of commands, by the conventions of GNU: --NAME VALUE or --NAME=VALUE, in any
// place; after `--` nothing is an option. Throws Error(usage): what is missing or not known, the nearest of what is, and
// the usage line. Runs nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/program/global_options.h"
#include "core/session/command.h"

namespace casebound {

struct TypedCommand {
    const Command* command{};
    Args args;
};

TypedCommand typed_command(const std::vector<std::string>& words, const std::vector<Command>& table,
                           Session::Options& options);

// The words of a domain's inquiry, whose inputs are NAME=VALUE; `domain_at` is where the domain stands.
Args typed_inquiry(const std::vector<std::string>& words, std::size_t domain_at, Session::Options& options);

// Where the command or domain stands: the first word that is neither a global option nor its value.
std::size_t first_word(const std::vector<std::string>& words);

// "did you mean list?", or where the commands are listed. `also`: names that are no commands.
std::string command_hint(std::string_view typed, const std::vector<Command>& table,
                         const std::vector<std::string>& also = {});

std::string first_part(const Command& command);  // "pack" of "pack load"

}  // namespace casebound
