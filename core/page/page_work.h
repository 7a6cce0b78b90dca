// What stands written down of the work on a vehicle, as a table of the page.
#pragma once

#include <string>

#include "core/html/html.h"
#include "core/session/session.h"

namespace casebound {

void write_work(Html& html, Session& session, const std::string& vehicle);  // nothing for none

}  // namespace casebound
