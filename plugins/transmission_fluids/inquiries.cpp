#include "inquiries/inquiries.h"

#include <iterator>

namespace casebound::transmission_fluids {

std::vector<Inquiry> inquiries() {
    std::vector<Inquiry> all;
    for (const auto group : {viscosity_inquiries, old_fluid_inquiries, quantity_inquiries, level_inquiries,
                             service_inquiries, claim_inquiries, grade_inquiries, finding_inquiries}) {
        auto some = group();
        all.insert(all.end(), std::make_move_iterator(some.begin()), std::make_move_iterator(some.end()));
    }
    return all;
}

}  // namespace casebound::transmission_fluids
