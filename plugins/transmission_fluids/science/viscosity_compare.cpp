#include "science/viscosity_compare.h"

#include <cmath>

#include "answer_parts.h"

namespace casebound::transmission_fluids {

ViscosityDifference viscosity_difference(double wanted_kv100_mm2_s, double offered_kv100_mm2_s) {
    above("viscosity of the wanted fluid at 100 °C", wanted_kv100_mm2_s, 0, 2e7, "mm2/s");
    above("viscosity of the offered fluid at 100 °C", offered_kv100_mm2_s, 0, 2e7, "mm2/s");
    const double share = offered_kv100_mm2_s / wanted_kv100_mm2_s - 1;
    std::string text = quantity_text(offered_kv100_mm2_s, "") + " against " +
                       quantity_text(wanted_kv100_mm2_s, "mm2/s") + " at 100 °C: ";
    if (share == 0) text += "the same";
    else text += quantity_text(100 * std::abs(share), "%", 1) + (share < 0 ? " thinner" : " thicker");
    return {share, std::abs(share) > largest_viscosity_difference + 1e-9, std::move(text)};
}

SourceNote viscosity_limit_source() {
    return from_memory("more than 15 % at 100 °C is worth a question, a default from memory");
}

}  // namespace casebound::transmission_fluids
