#include "science/viscosity_index.h"

#include <cmath>

#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

constexpr double highest_kv_mm2_s = 1e6;

ReferenceOils reference_for(double kv100_mm2_s) {
    return kv100_mm2_s <= table_to_mm2_s ? reference_from_table(kv100_mm2_s) : reference_above_table(kv100_mm2_s);
}

}  // namespace

long round_half_even(double value) {
    const double floor = std::floor(value);
    const double rest = value - floor;
    const auto down = static_cast<long>(floor);
    if (rest > 0.5 || (rest == 0.5 && down % 2 != 0)) return down + 1;
    return down;
}

ViscosityIndex viscosity_index_against(double kv40_mm2_s, double kv100_mm2_s, const ReferenceOils& reference) {
    ViscosityIndex index{0, 0, IndexProcedure::a, reference, std::nullopt};
    if (kv40_mm2_s >= reference.h_mm2_s) {
        index.exact = 100 * (reference.l_mm2_s - kv40_mm2_s) / (reference.l_mm2_s - reference.h_mm2_s);
    } else {
        index.procedure = IndexProcedure::b;
        const double n = std::log(reference.h_mm2_s / kv40_mm2_s) / std::log(kv100_mm2_s);
        index.n = n;
        index.exact = (std::pow(10.0, n) - 1) / 0.00715 + 100;
    }
    index.whole = round_half_even(index.exact);
    return index;
}

std::optional<ViscosityIndex> viscosity_index(double kv40_mm2_s, double kv100_mm2_s) {
    above("viscosity at 100 °C", kv100_mm2_s, 0, highest_kv_mm2_s, "mm2/s");
    above("viscosity at 40 °C", kv40_mm2_s, kv100_mm2_s, highest_kv_mm2_s, "mm2/s");
    if (kv100_mm2_s < table_from_mm2_s) return std::nullopt;
    return viscosity_index_against(kv40_mm2_s, kv100_mm2_s, reference_for(kv100_mm2_s));
}

}  // namespace casebound::transmission_fluids
