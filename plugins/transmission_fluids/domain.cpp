// The domain as core loads it. Everything it does stands in the files named after it.
#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"
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
    return together({viscosity_inquiries(), old_fluid_inquiries(), quantity_inquiries(), level_inquiries(),
                     service_inquiries(), claim_inquiries(), grade_inquiries()});
}

}  // namespace casebound::transmission_fluids

CASEBOUND_DOMAIN(transmission_fluids, "transmission fluids", check, examine, may_stand_in, findings, services_due,
                 holds, inquiries)
