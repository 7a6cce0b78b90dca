// The mounts domain: engine and gearbox mounts, their position, kind and connection, what they pass on, and lifting.
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/stand_in.h"
#include "rows/tightening.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::mounts {

std::vector<Inquiry> inquiries() {
    return {replacement_inquiry(), pair_inquiry(),
            shake_inquiry(),       natural_frequency_inquiry(),
            isolation_inquiry(),   solid_for_hydraulic_inquiry(),
            lift_inquiry(),        lifting_point_inquiry(),
            sag_inquiry(),         tightening_inquiry()};
}

}  // namespace casebound::mounts

CASEBOUND_DOMAIN(mounts, "mounts", check, examine, may_stand_in, findings, tightening, holds, inquiries)
