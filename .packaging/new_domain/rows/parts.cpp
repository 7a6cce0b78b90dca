#include "rows/parts.h"

#include "science/clearance.h"

namespace casebound::new_domain {

Examination examine(const Candidate& candidate, const Services& services) {
    Examination result;
    if (const auto* part = row_of_group(services.facts, "new_domain_parts", candidate.group)) {
        const double length_mm = part->need_number("length_mm");
        const auto served = spaces_served(length_mm);
        result.objections.push_back(
            {"not new_domain_space=" + served, Verdict::does_not_fit,
             "a part of " + number_text(length_mm) + " mm goes into spaces of " + served + " mm", row_source(*part)});
    }
    if (!known_of(services.vehicle, "new_domain_space")) result.questions.emplace_back("new_domain_space");
    for (const auto& place : rows_here(services, "new_domain_places"))
        if (place->stated("advice"))
            result.cautions.push_back({std::string(place->text("advice")) + place.where(), row_source(*place)});
    return result;
}

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    std::vector<RowFault> faults;
    for (const auto& row : facts.rows("new_domain_places"))
        if (row.origin.pack == pack && !row.stated("space_mm") && !row.stated("advice"))
            faults.push_back({row.origin, "space_mm", "the row says nothing: state the space or an advice"});
    return faults;
}

}  // namespace casebound::new_domain
