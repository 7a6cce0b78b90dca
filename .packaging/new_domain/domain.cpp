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

Vocabulary vocabulary() {
    return vocabulary_of(
        {within(1, 3000,
                number_of("mm", 0.5, "new_domain_space", "space for the new domain part",
                          "Measure between the two brackets, at the middle.", 4)),
         as_finding(yes_or_no("new_domain_bent", "bracket is bent", "Hold a straight edge against the bracket.", 2))},
        {{"new-domain-part",
          "new domain part",
          StandIns::may_be_offered,
          {{"new-domain-place", "new domain place"}},
          "each",
          {"new_domain_parts", {{"length_mm", "length, mm"}}}}});
}

std::vector<Inquiry> inquiries() { return {clearance()}; }

}  // namespace
}  // namespace casebound::new_domain

// The hooks that this domain has: each a function of that name.
CASEBOUND_DOMAIN(new_domain, "new domain", check, examine, findings, holds, inquiries)
