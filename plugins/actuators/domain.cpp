// The domain of actuators: small motors that move a door, flap or valve of heating and air, what ails them, and what
// keeps one from standing in for another.
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/stand_in.h"
#include "rows/telling.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::actuators {

std::vector<Inquiry> inquiries() {
    return {trouble_inquiry(), feedback_inquiry(), end_stops_inquiry(), motor_inquiry(),
            steps_inquiry(),   compare_inquiry(),  way_in_inquiry(),    code_inquiry(),
            wire_inquiry(),    fuse_inquiry(),     battery_inquiry(),   sensor_inquiry()};
}

}  // namespace casebound::actuators

CASEBOUND_DOMAIN(actuators, "actuators", check, examine, may_stand_in, telling, findings, holds, inquiries)
