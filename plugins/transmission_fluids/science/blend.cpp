#include "science/blend.h"

#include <algorithm>
#include <cmath>

#include "core/contract/valid_range.h"
#include "science/viscosity.h"

namespace casebound::transmission_fluids {

namespace {

// Thirds typed with six digits add up to 0.999999.
constexpr double sum_slack = 2e-6;

}  // namespace

double blend_index(double kv_mm2_s, BlendMethod method) {
    in_range("viscosity", kv_mm2_s, 0.21, 2e7, "mm2/s");
    if (method == BlendMethod::refutas) return 14.534 * std::log(std::log(kv_mm2_s + 0.8)) + 10.975;
    return std::log10(std::log10(d341_z(kv_mm2_s, D341Form::full)));
}

double blend_index_to_kv(double index, BlendMethod method) {
    if (method == BlendMethod::refutas) return std::exp(std::exp((index - 10.975) / 14.534)) - 0.8;
    return d341_kv(std::pow(10.0, std::pow(10.0, index)), D341Form::full);
}

double blend_kv(const std::vector<BlendPart>& parts, BlendMethod method) {
    double total = 0;
    double index = 0;
    for (const BlendPart& part : parts) {
        total += in_range("blend fraction", part.fraction, 0, 1, "");
        index += part.fraction * blend_index(part.kv_mm2_s, method);
    }
    in_range("sum of the blend fractions", total, 1 - sum_slack, 1 + sum_slack, "");
    return blend_index_to_kv(index / total, method);
}

double blend_fraction(double base_kv_mm2_s, double added_kv_mm2_s, double wanted_kv_mm2_s, BlendMethod method) {
    const double base = blend_index(base_kv_mm2_s, method);
    const double added = blend_index(added_kv_mm2_s, method);
    if (base == added)
        refuse("viscosity of the added fluid", number_text(added_kv_mm2_s) + " mm2/s",
               "any but the base fluid's own " + number_text(base_kv_mm2_s) + " mm2/s");
    in_range("wanted viscosity of the blend", wanted_kv_mm2_s, std::min(base_kv_mm2_s, added_kv_mm2_s),
             std::max(base_kv_mm2_s, added_kv_mm2_s), "mm2/s");
    return (blend_index(wanted_kv_mm2_s, method) - base) / (added - base);
}

}  // namespace casebound::transmission_fluids
