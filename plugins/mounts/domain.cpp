// The mounts domain: engine and gearbox mounts, their position, kind and connection, what they pass on, and lifting.
#include "domain.h"

#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/stand_in.h"
#include "rows/tightening.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::mounts {
namespace {

class Mounts final : public Domain {
public:
    std::string_view title() const override { return "mounts"; }
    Vocabulary vocabulary() const override { return mounts::vocabulary(); }
    std::string_view schema() const override { return schema_sql; }
    std::vector<Fault> check(const Facts& facts, std::string_view pack) const override {
        return mounts::check(facts, pack);
    }
    Examination examine(const Candidate& candidate, const Services& services) const override {
        return mounts::examine(candidate, services);
    }
    Opinion may_stand_in(const Substitution& substitution, const Services& services) const override {
        return mounts::may_stand_in(substitution, services);
    }
    std::vector<Inquiry> inquiries() const override {
        return {replacement_inquiry(), pair_inquiry(),
                shake_inquiry(),       natural_frequency_inquiry(),
                isolation_inquiry(),   solid_for_hydraulic_inquiry(),
                lift_inquiry(),        lifting_point_inquiry(),
                sag_inquiry(),         tightening_inquiry()};
    }
    Findings findings(const Services& services) const override { return findings_told(services); }
    Tightening tightening(std::string_view role, const Services& services) const override {
        return tightening_of(role, services);
    }
    std::vector<Hold> holds(const Services& services) const override { return holds_told(services); }
};

}  // namespace

const Domain& instance() {
    static const Mounts domain;
    return domain;
}

}  // namespace casebound::mounts

CASEBOUND_MANIFEST("mounts", casebound::mounts::instance)
