// A domain as the rest of core meets it: every call of a plugin's code goes through here. What a domain throws, of any
// type, ends here and becomes "not answered", with the domain, the hook and the message; but for memory that is refused,
// which ends the whole answer as OutOfMemoryIn. Nothing else of core ever holds a Domain. Keeps no state but the name.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

// What a domain answered, or why it did not.
template <class T> struct Asked {
    std::optional<T> answer;
    std::string failure;  // "DOMAIN failed in examine(ROLE, GROUP): vector::at"; empty when it answered
    explicit operator bool() const { return answer.has_value(); }
    const T& operator*() const { return *answer; }
    T& operator*() { return *answer; }
    const T* operator->() const { return &*answer; }
    T* operator->() { return &*answer; }
};

class GuardedDomain {
public:
    GuardedDomain(std::string name, const Domain& domain) : name_(std::move(name)), domain_(&domain) {}

    const std::string& name() const { return name_; }

    Asked<std::string> title() const;
    Asked<std::string> schema() const;
    Asked<Vocabulary> vocabulary() const;
    Asked<std::vector<std::string>> reads() const;
    Asked<std::vector<Inquiry>> inquiries() const;
    Asked<std::vector<RowFault>> check(const Facts& facts, std::string_view pack) const;
    Asked<Examination> examine(const Candidate& candidate, const Services& services) const;
    Asked<Opinion> may_stand_in(const Substitution& substitution, const Services& services) const;
    Asked<Telling> telling(std::string_view attribute, std::string_view text, const Services& services) const;
    Asked<Findings> findings(const Services& services) const;
    Asked<Tightening> tightening(std::string_view role, const Services& services) const;
    Asked<std::vector<ServiceInquiry>> services_due() const;
    Asked<std::vector<Hold>> holds(const Services& services) const;
    // std::domain_error passes: it is how an inquiry refuses inputs that make no sense together.
    Asked<Answer> run(const Inquiry& inquiry, const Given& given, const Services& services) const;

private:
    std::string name_;
    const Domain* domain_;
};

}  // namespace casebound
