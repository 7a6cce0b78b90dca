// The manual page and the completions of the shells, written out of the one table of commands. Never names a domain:
// which are loaded differs from one machine to the next.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/session/command.h"

namespace casebound {

std::string manual_page(const std::vector<Command>& table);  // for man, section 1

// `shell`: bash, zsh or fish. Throws Error(usage) for another one.
std::string completion_script(std::string_view shell, const std::vector<Command>& table);

}  // namespace casebound
