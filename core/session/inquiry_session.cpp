#include "core/session/inquiry_session.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

// Facts for an inquiry when no catalog is loaded: every table is empty.
class NoFacts : public Facts {
public:
    const std::vector<Row>& rows(std::string_view, std::string_view, std::string_view) const override {
        static const std::vector<Row> none;
        return none;
    }
};

}  // namespace

std::vector<Inquiry> inquiries_of(const GuardedDomain& domain) {
    auto asked = domain.inquiries();
    if (!asked) throw Error(Exit::refused, fmt::format("not answered: {}", asked.failure));
    return std::move(*asked);
}

Inquiry inquiry_named(const GuardedDomain& domain, const std::string& name) {
    const auto inquiries = inquiries_of(domain);
    const auto found = std::find_if(inquiries.begin(), inquiries.end(),
                                    [&](const Inquiry& one) { return one.name == name; });
    if (found != inquiries.end()) return *found;
    std::vector<std::string> names;
    for (const auto& one : inquiries) names.push_back(one.name);
    const auto near = nearest(name, names);
    throw Error(Exit::usage, fmt::format("{} {}: no such inquiry: {}", domain.name(), name,
                                         near.empty() ? fmt::format("there are {}", fmt::join(names, ", "))
                                                      : fmt::format("did you mean {}?", near)));
}

InquiryRun run_inquiry_in(Session& session, const GuardedDomain& domain, const Inquiry& inquiry,
                          const std::vector<std::pair<std::string, std::string>>& named, const Situation* vehicle) {
    const NoFacts none;
    const Facts* facts = &none;
    try {
        facts = &session.catalog().facts_for(domain);
    } catch (const Error& error) {
        if (error.exit() != Exit::no_input) throw;
    }
    return run_inquiry_with(domain, inquiry, named, Services{*facts, session.engine(), vehicle});
}

}  // namespace casebound
