#include "core/session/inquiry_session.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

// Notes which tables of its own a domain asks for.
class WatchedFacts : public Facts {
public:
    WatchedFacts(const Facts& facts, const std::string& domain) : facts_(facts), own_(domain + "_") {}
    const std::vector<Row>& rows(std::string_view table, std::string_view column,
                                 std::string_view value) const override {
        if (table.rfind(own_, 0) == 0) asked_.emplace(table);
        return facts_.rows(table, column, value);
    }
    bool asked_in_vain() const {  // for its own rows, and there are none on file
        return !asked_.empty() && std::all_of(asked_.begin(), asked_.end(),
                                              [&](const std::string& table) { return facts_.rows(table).empty(); });
    }

private:
    const Facts& facts_;
    std::string own_;
    mutable std::set<std::string> asked_;
};

bool is_settled(const Answer& answer) {
    return !answer.verdict || answer.verdict == Verdict::fits || answer.verdict == Verdict::does_not_fit ||
           answer.verdict == Verdict::none_needed;
}

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
    const WatchedFacts watched(*facts, domain.name());
    auto run = run_inquiry_with(domain, inquiry, named, Services{watched, session.engine(), vehicle});
    if (!is_settled(run.answer) && watched.asked_in_vain())
        run.answer.next.emplace_back(
            "No rows on file: `casebound pack load --reference` loads what every domain ships, `casebound pack load "
            "FOLDER` a pack of your own.");
    return run;
}

}  // namespace casebound
