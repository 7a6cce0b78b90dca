#include "core/host/guarded_domain.h"

#include <cstdio>
#include <exception>
#include <stdexcept>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/line_escapes.h"
#include "core/host/domain_watch.h"

namespace casebound {

namespace {

// One line of a plugin's own words, for a message.
std::string shown(std::string_view words) {
    constexpr std::size_t longest = 300;
    return on_one_line(words.substr(0, longest));
}

template <class T, class Call> Asked<T> guarded(const std::string& domain, const std::string& hook, Call call,
                                                RunningHook::Pace pace = RunningHook::Pace::answer) {
    const RunningHook running(domain, hook, pace);
    const auto failed = [&](std::string_view what) {
        return Asked<T>{std::nullopt, fmt::format("{} failed in {}: {}", domain, shown(hook), shown(what))};
    };
    try {
        return {std::optional<T>(call()), {}};
    } catch (const Damaged&) {
        throw;  // not the domain's failure
    } catch (const OutOfMemoryIn&) {
        throw;  // a domain that asks others
    } catch (const std::bad_alloc&) {
        throw OutOfMemoryIn(domain, hook);  // nor this: an answer without it would be another
    } catch (const std::exception& error) { return failed(error.what()); } catch (...) {
        return failed("it threw something that is no std::exception");
    }
}

// "hook(one, other)" of the words that are not empty.
std::string called(std::string_view hook, std::initializer_list<std::string_view> words) {
    std::size_t size = hook.size() + 2;
    for (const auto word : words) size += word.size() + 2;
    std::string all;
    all.reserve(size);
    all.append(hook).append(1, '(');
    for (const auto word : words)
        if (!word.empty()) all.append(all.back() == '(' ? "" : ", ").append(word);
    return all.append(1, ')');
}

}  // namespace

Asked<std::string> GuardedDomain::title() const {
    return guarded<std::string>(name_, "title()", [&] { return std::string(domain_->title()); });
}

Asked<std::string> GuardedDomain::schema() const {
    return guarded<std::string>(name_, "schema()", [&] { return std::string(domain_->schema()); });
}

Asked<Vocabulary> GuardedDomain::vocabulary() const {
    return guarded<Vocabulary>(name_, "vocabulary()", [&] { return domain_->vocabulary(); });
}

Asked<std::vector<std::string>> GuardedDomain::reads() const {
    return guarded<std::vector<std::string>>(name_, "reads()", [&] { return domain_->reads(); });
}

Asked<std::vector<Inquiry>> GuardedDomain::inquiries() const {
    return guarded<std::vector<Inquiry>>(name_, "inquiries()", [&] { return domain_->inquiries(); });
}

Asked<std::vector<RowFault>> GuardedDomain::check(const Facts& facts, std::string_view pack) const {
    return guarded<std::vector<RowFault>>(
        name_, fmt::format("check({})", pack), [&] { return domain_->check(facts, pack); },
        RunningHook::Pace::whole_pack);
}

Asked<Examination> GuardedDomain::examine(const Candidate& candidate, const Services& services) const {
    return guarded<Examination>(name_, called("examine", {candidate.role, candidate.group, candidate.item}),
                                [&] { return domain_->examine(candidate, services); });
}

Asked<Opinion> GuardedDomain::may_stand_in(const Substitution& substitution, const Services& services) const {
    return guarded<Opinion>(
        name_, fmt::format("may_stand_in({} for {})", substitution.offered_group, substitution.wanted_group),
        [&] { return domain_->may_stand_in(substitution, services); });
}

Asked<Telling> GuardedDomain::telling(std::string_view attribute, std::string_view text,
                                      const Services& services) const {
    return guarded<Telling>(name_, fmt::format("telling({}={})", attribute, text),
                            [&] { return domain_->telling(attribute, text, services); });
}

Asked<Findings> GuardedDomain::findings(const Services& services) const {
    return guarded<Findings>(name_, "findings()", [&] { return domain_->findings(services); });
}

Asked<Tightening> GuardedDomain::tightening(std::string_view role, const Services& services) const {
    return guarded<Tightening>(name_, fmt::format("tightening({})", role),
                               [&] { return domain_->tightening(role, services); });
}

Asked<std::vector<ServiceInquiry>> GuardedDomain::services_due() const {
    return guarded<std::vector<ServiceInquiry>>(name_, "services_due()", [&] { return domain_->services_due(); });
}

Asked<std::vector<Hold>> GuardedDomain::holds(const Services& services) const {
    return guarded<std::vector<Hold>>(name_, "holds()", [&] { return domain_->holds(services); });
}

Asked<Answer> GuardedDomain::run(const Inquiry& inquiry, const Given& given, const Services& services) const {
    std::string refused;
    auto asked = guarded<std::optional<Answer>>(name_, inquiry.name, [&]() -> std::optional<Answer> {
        try {
            return inquiry.run(given, services);
        } catch (const std::domain_error& error) {
            refused = error.what();
            return std::nullopt;
        }
    });
    if (asked && !*asked) throw std::domain_error(refused);
    if (!asked) return {std::nullopt, std::move(asked.failure)};
    return {std::move(**asked), {}};
}

}  // namespace casebound
