#include "rows/stand_in.h"

#include "core/contract/comparison.h"
#include "rows/records.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

// The maker's word, where the vehicle and the place are known.
void by_maker(Opinion& opinion, Place place, const Services& services) {
    for (const auto& row : rows_at(services, "actuators_makers_rules", place)) {
        if (row->text("rule") != "exact_part_only") continue;
        lower(opinion, row.holds == Holds::yes ? Verdict::does_not_fit : Verdict::check_first);
        opinion.reasons.push_back("the source names this part and no other" + row.where());
        opinion.source = weaker(opinion.source, row_source(*row));
    }
}

}  // namespace

Opinion may_stand_in(const Substitution& substitution, const Services& services) {
    if (substitution.wanted_group == substitution.offered_group) return {};
    const auto* wanted = row_of_group(services.facts, motors_table, substitution.wanted_group);
    const auto* offered = row_of_group(services.facts, motors_table, substitution.offered_group);
    if (!wanted && !offered) return {};
    if (!wanted || !offered)
        return one_not_recorded(wanted ? substitution.offered_group : substitution.wanted_group,
                                "cavities and coding of the plug, shaft, travel, drive");
    Opinion opinion;
    opinion.source = weaker(row_source(*wanted), row_source(*offered));
    auto here = actuator_of_row(*wanted);
    if (const auto place = place_of_role(substitution.role); place.function != Function::unknown) here.place = place;
    for (const auto& difference : differences(here, actuator_of_row(*offered))) put(opinion, difference);
    by_maker(opinion, here.place, services);
    return opinion;
}

}  // namespace casebound::actuators
