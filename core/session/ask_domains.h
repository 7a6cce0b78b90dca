// What the loaded domains say of a vehicle, hook by hook: trouble, evidence, tightening, service. A domain that fails
// says so in its own place, and every other is heard. Names no domain.
#pragma once

#include <string>
#include <vector>

#include "core/session/inquiry.h"
#include "core/session/session.h"

namespace casebound {

// Findings told that speak of trouble; a domain that could not say is one of them, titled "not answered".
std::vector<Trouble> troubles(Session& session, const Situation& situation);

std::vector<std::string> evidence_cautions(Session& session, const Situation& situation);  // what the evidence lacks
std::vector<std::string> evidence_cautions(Session& session,
                                           const std::string& vehicle);  // none when no loaded pack has its line

// How a role is tightened, by the domain that owns it.
Asked<Tightening> tightening_of(Session& session, const Situation& situation, const std::string& role);

// Is a service due? What is known is filled in by `words`.
struct ServiceWords {
    std::string today, last_changed, last_at_km, odometer_km, km_per_year;  // "" when not known
};
struct ServiceSays {
    std::string domain;
    std::optional<Answer> answer;
    std::string fault;  // why it could not be answered; empty when it was
};
std::vector<ServiceSays> services_say(Session& session, const Situation& situation,
                                      const std::function<ServiceWords(const std::string& role)>& known);

}  // namespace casebound
