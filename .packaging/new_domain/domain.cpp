// The domain: its words, its tables, and which file answers what. Opens no file, prints nothing, keeps no state.
#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"
#include "inquiries/clearance.h"
#include "rows/parts.h"
#include "rows/told.h"
#include "schema_sql.h"

namespace casebound::new_domain {
namespace {

class NewDomain final : public Domain {
public:
    std::string_view title() const override { return "new domain"; }
    std::string_view schema() const override { return schema_sql; }

    Vocabulary vocabulary() const override {
        return {{within(1, 3000,
                        number_of("mm", 0.5, "new_domain_space", "space for the new domain part",
                                  "Measure between the two brackets, at the middle.", 4)),
                 as_finding(
                     yes_or_no("new_domain_bent", "bracket is bent", "Hold a straight edge against the bracket.", 2))},
                {{"new-domain-part", "new domain part", "each"}},
                {{"new-domain-place",
                  "new domain place",
                  "new-domain-part",
                  StandIns::may_be_offered,
                  {"new_domain_parts", {{"length_mm", "length, mm"}}}}}};
    }

    std::vector<Fault> check(const Facts& facts, std::string_view pack) const override {
        return faults_in(facts, pack);
    }
    Examination examine(const Candidate& candidate, const Services& services) const override {
        return examined(candidate, services);
    }
    Findings findings(const Services& services) const override { return findings_told(services); }
    std::vector<Hold> holds(const Services& services) const override { return holds_told(services); }
    std::vector<Inquiry> inquiries() const override { return {clearance()}; }
};

const Domain& instance() {
    static const NewDomain domain;
    return domain;
}

}  // namespace
}  // namespace casebound::new_domain

CASEBOUND_MANIFEST("new_domain", casebound::new_domain::instance)
