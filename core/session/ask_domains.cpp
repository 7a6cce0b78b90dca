#include "core/session/ask_domains.h"

#include "core/session/inquiry.h"

namespace casebound {

std::vector<DomainSays> domains_say(Session& session, const Situation& situation, std::string_view name,
                                    const std::function<InquiryWords(const Inquiry&, const std::string&)>& words) {
    std::vector<DomainSays> all;
    for (const auto& plugin : session.plugins().domains)
        for (const auto& inquiry : plugin.domain->inquiries()) {
            if (inquiry.name != name) continue;
            DomainSays says{plugin.name, {}, {}};
            const auto& facts = session.catalog().facts_for(plugin.name);
            try {
                says.answer = run_inquiry_with(inquiry, words ? words(inquiry, plugin.name) : InquiryWords{},
                                               {facts, session.engine(), &situation})
                                  .answer;
            } catch (const Error& error) { says.fault = error.what(); }
            all.push_back(std::move(says));
        }
    return all;
}

std::vector<std::string> evidence_cautions(Session& session, const Situation& situation) {
    std::vector<std::string> all;
    for (const auto& says : domains_say(session, situation, "findings"))
        all.insert(all.end(), says.answer.cautions.begin(), says.answer.cautions.end());
    return all;
}

std::vector<std::string> evidence_cautions(Session& session, const std::string& vehicle) {
    if (!session.catalog().line(session.vehicle(vehicle).line)) return {};
    return evidence_cautions(session, *session.situation(vehicle));
}

std::vector<AnswerLine> troubles(Session& session, const Situation& situation) {
    std::vector<AnswerLine> all;
    for (const auto& says : domains_say(session, situation, "findings"))
        all.insert(all.end(), says.answer.lines.begin(), says.answer.lines.end());
    return all;
}

}  // namespace casebound
