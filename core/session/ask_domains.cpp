#include "core/session/ask_domains.h"

#include <fmt/format.h>

namespace casebound {

namespace {

Services services_for(Session& session, const GuardedDomain& domain, const Situation& situation) {
    return {session.catalog().facts_for(domain), session.engine(), &situation};
}

std::vector<std::pair<std::string, std::string>> named(const ServiceInquiry& service, const ServiceWords& words) {
    std::vector<std::pair<std::string, std::string>> all;
    const auto give = [&](const std::string& input, const std::string& value) {
        if (!input.empty() && !value.empty()) all.emplace_back(input, value);
    };
    give(service.today, words.today);
    give(service.last_changed, words.last_changed);
    give(service.last_at_km, words.last_at_km);
    give(service.odometer_km, words.odometer_km);
    give(service.km_per_year, words.km_per_year);
    return all;
}

}  // namespace

std::vector<Trouble> troubles(Session& session, const Situation& situation) {
    std::vector<Trouble> all;
    for (const auto& plugin : session.plugins().domains) {
        const auto said = plugin.domain.findings(services_for(session, plugin.domain, situation));
        if (said) all.insert(all.end(), said->troubles.begin(), said->troubles.end());
        else all.push_back({"", "not answered", said.failure, {Evidence::memory, plugin.title, {}}});
    }
    return all;
}

std::vector<std::string> evidence_cautions(Session& session, const Situation& situation) {
    std::vector<std::string> all;
    for (const auto& doubt : situation.narrowing().doubts) all.push_back(doubt.reason + ": " + doubt.until);
    for (const auto& plugin : session.plugins().domains) {
        const auto said = plugin.domain.findings(services_for(session, plugin.domain, situation));
        if (!said) all.push_back(fmt::format("not answered: {}", said.failure));
        else
            for (const auto& caution : said->cautions) all.push_back(caution.text);
    }
    return all;
}

std::vector<std::string> evidence_cautions(Session& session, const std::string& vehicle) {
    if (!session.catalog().line(session.vehicle(vehicle).line)) return {};
    return evidence_cautions(session, *session.situation(vehicle));
}

Asked<Tightening> tightening_of(Session& session, const Situation& situation, const std::string& role) {
    const auto owner = session.catalog().vocabularies().owner_of_role(role);
    const auto* domain = session.plugins().find(owner);
    if (!domain) return {std::nullopt, fmt::format("{} is not loaded", owner)};
    return domain->tightening(role, services_for(session, *domain, situation));
}

std::vector<ServiceSays> services_say(Session& session, const Situation& situation,
                                      const std::function<ServiceWords(const std::string& role)>& known) {
    std::vector<ServiceSays> all;
    for (const auto& plugin : session.plugins().domains) {
        const auto services = plugin.domain.services_due();
        if (!services) {
            all.push_back({plugin.name, std::nullopt, services.failure});
            continue;
        }
        for (const auto& service : *services) {
            try {
                all.push_back({plugin.name,
                               run_inquiry_with(plugin.domain, service.inquiry, named(service, known(service.role)),
                                                services_for(session, plugin.domain, situation))
                                   .answer,
                               {}});
            } catch (const Error& error) { all.push_back({plugin.name, std::nullopt, error.what()}); }
        }
    }
    return all;
}

}  // namespace casebound
