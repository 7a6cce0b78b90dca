// Filters and seals as a domain: its words, tables and rules, handed to core. Holds no state.
#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"
#include "inquiries/inquiries.h"
#include "rows/hooks.h"
#include "schema_sql.h"

namespace casebound::filters_seals {

std::vector<Inquiry> inquiries() {
    return together({stack_inquiries(), seal_count_inquiries(), left_behind_inquiries(), seal_size_inquiries(),
                     oring_inquiries(), press_fit_inquiries(), elastomer_inquiries(), gasket_inquiries(),
                     debris_inquiries(), fastener_inquiries()});
}

}  // namespace casebound::filters_seals

CASEBOUND_DOMAIN(filters_seals, "filters and seals", check, examine, may_stand_in, findings, tightening, holds,
                 inquiries)
