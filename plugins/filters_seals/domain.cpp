// Filters and seals as a domain: its words, tables and rules, handed to core. Holds no state.
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/hooks.h"
#include "schema_sql.h"

namespace casebound::filters_seals {
namespace {

class FiltersSeals final : public Domain {
public:
    std::string_view title() const override { return "filters and seals"; }
    Vocabulary vocabulary() const override { return filters_seals::vocabulary(); }
    std::string_view schema() const override { return schema_sql; }
    std::vector<Fault> check(const Facts& facts, std::string_view pack) const override {
        return check_pack(facts, pack);
    }
    Examination examine(const Candidate& candidate, const Services& services) const override {
        return examine_candidate(candidate, services);
    }
    Opinion may_stand_in(const Substitution& swap, const Services& services) const override {
        return opinion_on(swap, services);
    }
    Findings findings(const Services& services) const override { return findings_of(services); }
    Tightening tightening(std::string_view role, const Services& services) const override {
        return tightening_of(role, services);
    }
    std::vector<Hold> holds(const Services& services) const override { return holds_of(services); }

    std::vector<Inquiry> inquiries() const override {
        std::vector<Inquiry> all;
        for (const auto group :
             {stack_inquiries, seal_count_inquiries, left_behind_inquiries, seal_size_inquiries, oring_inquiries,
              press_fit_inquiries, elastomer_inquiries, gasket_inquiries, debris_inquiries, fastener_inquiries})
            for (auto& inquiry : group()) all.push_back(std::move(inquiry));
        return all;
    }
};

}  // namespace

const Domain& instance() {
    static const FiltersSeals domain;
    return domain;
}

}  // namespace casebound::filters_seals

CASEBOUND_MANIFEST("filters_seals", casebound::filters_seals::instance)
