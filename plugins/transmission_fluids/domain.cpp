// The domain as core loads it. Everything it does stands in the files named after it.
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/stand_in.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::transmission_fluids {
namespace {

class TransmissionFluids final : public Domain {
public:
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
};

}  // namespace

const Domain& instance();
const Domain& instance() {
    static const TransmissionFluids domain;
    return domain;
}

}  // namespace casebound::transmission_fluids

CASEBOUND_MANIFEST("transmission_fluids", casebound::transmission_fluids::instance)
