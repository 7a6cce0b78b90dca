// The domain of service fluids: engine oil with its filter, coolant, the washers of their plugs, and brake fluid.
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/plugs.h"
#include "rows/stand_in.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::service_fluids {

std::vector<Inquiry> inquiries() {
    return {oil_class_inquiry(), fill_inquiry(), freeze_point_inquiry(), draw_off_inquiry(),   mix_inquiry(),
            oil_due(),           coolant_due(),  washer_inquiry(),       brake_fluid_inquiry()};
}

}  // namespace casebound::service_fluids

CASEBOUND_DOMAIN(service_fluids, "service fluids", check, examine, may_stand_in, findings, tightening, services_due,
                 holds, inquiries)
