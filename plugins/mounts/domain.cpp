// The mounts domain: engine and gearbox mounts, their position, kind and connection, what they pass on, and lifting.
#include "domain.h"

#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/stand_in.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::mounts {
namespace {

class Mounts final : public Domain {
public:
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
        std::vector<Inquiry> all;
        for (const auto& part : {choice_inquiries(), trouble_inquiries(), vibration_inquiries(), lifting_inquiries(),
                                 fitting_inquiries(), torque_inquiries(), finding_inquiries()})
            all.insert(all.end(), part.begin(), part.end());
        return all;
    }
};

}  // namespace

const Domain& instance() {
    static const Mounts domain;
    return domain;
}

}  // namespace casebound::mounts

CASEBOUND_MANIFEST("mounts", casebound::mounts::instance)
