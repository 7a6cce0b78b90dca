// The domain of stabilisers: stabiliser links and the bushes of the bar, what clunks, and how they are tightened.
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/fasteners.h"
#include "rows/findings.h"
#include "rows/stand_in.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::stabilisers {

std::vector<Inquiry> inquiries() {
    return {clunk_inquiry(),  compare_inquiry(),    bush_inquiry(),
            torque_inquiry(), proof_load_inquiry(), twist_inquiry()};
}

}  // namespace casebound::stabilisers

CASEBOUND_DOMAIN(stabilisers, "stabilisers", check, examine, may_stand_in, findings, tightening, holds, inquiries)
