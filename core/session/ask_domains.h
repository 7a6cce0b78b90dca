// Questions about a vehicle that any domain may answer: each loaded domain that has an inquiry of the agreed name is
// asked. `service-due`: is its service due; `findings`: which findings told speak of trouble (lines) and what the
// evidence lacks (cautions); `torques`: how the fasteners of `role` are tightened. Names no domain.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "core/session/session.h"

namespace casebound {

using InquiryWords = std::vector<std::pair<std::string, std::string>>;

struct DomainSays {
    std::string domain;
    Answer answer;
    std::string fault;  // why it could not be answered; empty when it was
};

// `words`: what a domain's inquiry is asked with.
std::vector<DomainSays> domains_say(
    Session& session, const Situation& situation, std::string_view inquiry,
    const std::function<InquiryWords(const Inquiry&, const std::string& domain)>& words = {});

std::vector<std::string> evidence_cautions(Session& session, const Situation& situation);  // from `findings`
std::vector<std::string> evidence_cautions(Session& session,
                                           const std::string& vehicle);  // none when no loaded pack has its line
std::vector<AnswerLine> troubles(Session& session, const Situation& situation);  // from `findings`

}  // namespace casebound
