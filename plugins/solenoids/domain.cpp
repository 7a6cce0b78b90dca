// The solenoids domain: functions, apply tables, the fault that explains the gears, coils, codes, and how parts are sold.
#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/check.h"
#include "rows/examine.h"
#include "rows/findings.h"
#include "rows/holds.h"
#include "rows/stand_in.h"
#include "rows/telling.h"
#include "rows/vocabulary.h"
#include "schema_sql.h"

namespace casebound::solenoids {

std::vector<Inquiry> inquiries() {
    return together({fault_inquiries(), gear_inquiries(), coil_inquiries(), code_inquiries(), part_inquiries(),
                     position_inquiries()});
}

}  // namespace casebound::solenoids

CASEBOUND_DOMAIN(solenoids, "solenoids", check, examine, may_stand_in, telling, findings, holds, inquiries)
