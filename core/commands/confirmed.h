// What cannot be got back is done only when it is said so: with --yes, or typed at a terminal after what is lost was shown.
#pragma once

#include <string>

#include "core/session/session.h"

namespace casebound {

// Asks on standard error, and only when it is typed at a terminal and no JSON is wanted.
bool confirmed(const Session& session, const Args& args, const std::string& lost);

inline constexpr const char* not_done = "Not done. Repeat it with --yes, and it is.\n";

}  // namespace casebound
