// The solenoids domain: functions, apply tables, the fault that explains the gears, coils, codes, and how parts are sold.
#include "domain.h"

#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/holds.h"
#include "rows/stand_in.h"
#include "rows/telling.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::solenoids {
namespace {

class Solenoids final : public Domain {
public:
    std::string_view title() const override { return "solenoids"; }
    Vocabulary vocabulary() const override { return solenoids::vocabulary(); }
    std::string_view schema() const override { return schema_sql; }
    std::vector<casebound::Fault> check(const Facts& facts, std::string_view pack) const override {
        return solenoids::check(facts, pack);
    }
    Examination examine(const Candidate& candidate, const Services& services) const override {
        return solenoids::examine(candidate, services);
    }
    Opinion may_stand_in(const Substitution& substitution, const Services& services) const override {
        return solenoids::may_stand_in(substitution, services);
    }
    Telling telling(std::string_view attribute, std::string_view text, const Services& services) const override {
        return solenoids::telling(attribute, text, services);
    }
    Findings findings(const Services& services) const override { return solenoids::findings(services); }
    std::vector<Hold> holds(const Services& services) const override { return solenoids::holds(services); }
    std::vector<Inquiry> inquiries() const override {
        std::vector<Inquiry> all;
        for (const auto& part :
             {fault_inquiries(), gear_inquiries(), coil_inquiries(), code_inquiries(), part_inquiries()})
            all.insert(all.end(), part.begin(), part.end());
        return all;
    }
};

}  // namespace

const Domain& instance() {
    static const Solenoids domain;
    return domain;
}

}  // namespace casebound::solenoids

CASEBOUND_MANIFEST("solenoids", casebound::solenoids::instance)
