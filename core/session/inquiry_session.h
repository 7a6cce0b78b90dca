// An inquiry of a loaded domain, asked within a session: found by its name, lent the catalog's facts, if there are any,
// and the vehicle, if one is meant. Renders nothing.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/session/inquiry.h"
#include "core/session/session.h"

namespace casebound {

// Throws Error(usage) with a near miss.
Inquiry inquiry_named(const GuardedDomain& domain, const std::string& name);

// Those of a domain. Throws Error(refused) when it fails to say.
std::vector<Inquiry> inquiries_of(const GuardedDomain& domain);

InquiryRun run_inquiry_in(Session& session, const GuardedDomain& domain, const Inquiry& inquiry,
                          const std::vector<std::pair<std::string, std::string>>& named, const Situation* vehicle);

}  // namespace casebound
