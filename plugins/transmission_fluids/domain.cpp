// The domain as core loads it. Everything it does stands in the files named after it.
#include "domain.h"

#include <iterator>

#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/holds.h"
#include "rows/stand_in.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::transmission_fluids {

std::vector<Inquiry> inquiries() {
    std::vector<Inquiry> all;
    for (const auto group : {viscosity_inquiries, old_fluid_inquiries, quantity_inquiries, level_inquiries,
                             service_inquiries, claim_inquiries, grade_inquiries}) {
        auto some = group();
        all.insert(all.end(), std::make_move_iterator(some.begin()), std::make_move_iterator(some.end()));
    }
    return all;
}

namespace {

class TransmissionFluids final : public Domain {
public:
    std::string_view title() const override { return "transmission fluids"; }
    Vocabulary vocabulary() const override { return transmission_fluids::vocabulary(); }
    std::string_view schema() const override { return schema_sql; }
    std::vector<Fault> check(const Facts& facts, std::string_view pack) const override {
        return transmission_fluids::check(facts, pack);
    }
    Examination examine(const Candidate& candidate, const Services& services) const override {
        return transmission_fluids::examine(candidate, services);
    }
    Opinion may_stand_in(const Substitution& swap, const Services& services) const override {
        return transmission_fluids::may_stand_in(swap, services);
    }
    std::vector<Inquiry> inquiries() const override { return transmission_fluids::inquiries(); }
    Findings findings(const Services& services) const override { return transmission_fluids::findings(services); }
    std::vector<ServiceInquiry> services_due() const override { return transmission_fluids::services_due(); }
    std::vector<Hold> holds(const Services& services) const override { return transmission_fluids::holds(services); }
};

}  // namespace

const Domain& instance() {
    static const TransmissionFluids domain;
    return domain;
}

}  // namespace casebound::transmission_fluids

CASEBOUND_MANIFEST("transmission_fluids", casebound::transmission_fluids::instance)
