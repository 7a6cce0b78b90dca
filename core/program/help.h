// What the program says of itself, all of it out of the one table of commands: the few to begin with, all of them, one
// whole, its usage line. Never names a domain.
#pragma once

#include <string>
#include <vector>

#include "core/session/command.h"

namespace casebound {

std::string start_text(const std::vector<Command>& table);  // where nothing was typed
std::string help_text(const std::vector<Command>& table);
std::string help_of(const Command& command);
// Of the command or the group that the words name; "" when they name none.
std::string help_for(const std::vector<Command>& table, const std::string& first, const std::string& second);
std::string usage_line(const Command& command);      // "usage: casebound list VEHICLE JOB..."
std::string option_words(const OptionSpec& option);  // what it is, and all its values where they are few
std::string version_text();

}  // namespace casebound
