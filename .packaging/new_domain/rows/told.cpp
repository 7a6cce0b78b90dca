#include "rows/told.h"

#include "core/contract/told_trouble.h"

namespace casebound::new_domain {

Findings findings(const Services& services) {
    return {told_trouble(services, {{"new_domain_bent", {"yes"}, "bracket that is bent"}}), {}};
}

std::vector<Hold> holds(const Services& services) {
    const auto bent = told_of(services.vehicle, "new_domain_bent");
    if (!bent || bent->text != "yes") return {};
    Hold hold;
    hold.roles = {"new-domain-place"};
    hold.reason = "the bracket is bent: the space that was measured is not the space that will be";
    hold.source = bent->source();
    hold.until = "straighten the bracket, then measure the space again";
    hold.attributes = {"new_domain_bent", "new_domain_space"};
    return {hold};
}

}  // namespace casebound::new_domain
