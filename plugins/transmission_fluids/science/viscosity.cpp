#include "science/viscosity.h"

#include <cmath>
#include <utility>

#include "core/contract/answer_words.h"
#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

constexpr double kelvin_at_0_c = 273.15;
constexpr double coldest_allowed_c = -60;
constexpr double hottest_allowed_c = 200;
constexpr double highest_kv_mm2_s = 2e7;

double log_kelvin(double temp_c) { return std::log10(temp_c + kelvin_at_0_c); }

void check_kv(double kv_mm2_s, D341Form form) {
    if (form == D341Form::full) in_range("viscosity", kv_mm2_s, 0.21, highest_kv_mm2_s, "mm2/s");
    else above("viscosity", kv_mm2_s, 0.3, highest_kv_mm2_s, "mm2/s");
}

void check_temp(double temp_c) { in_range("temperature", temp_c, coldest_allowed_c, hottest_allowed_c, "°C"); }

double double_log(double z) { return std::log10(std::log10(z)); }

double reached_at_c(const ViscosityLine& line, double kv_mm2_s) {
    const double w = double_log(d341_z(kv_mm2_s, line.form));
    return std::pow(10.0, (line.a - w) / line.b) - kelvin_at_0_c;
}

}  // namespace

double d341_z(double kv_mm2_s, D341Form form) {
    check_kv(kv_mm2_s, form);
    const double v = kv_mm2_s;
    const double simple = v + 0.7;
    return form == D341Form::simple ? simple : simple + std::exp(-1.47 - 1.84 * v - 0.51 * v * v);
}

// ASTM D341-20, Eq. 3. The 0.6119 term carries a square; copies without it are wrong.
double d341_kv(double z, D341Form form) {
    above("Z", z, 1, highest_kv_mm2_s + 1, "");
    const double w = z - 0.7;
    if (form == D341Form::simple) return w;
    return w - std::exp(-0.7487 - 3.295 * w + 0.6119 * w * w - 0.3193 * w * w * w);
}

ViscosityLine viscosity_line(MeasuredViscosity first, MeasuredViscosity second, D341Form form) {
    check_temp(first.temp_c);
    check_temp(second.temp_c);
    if (first.temp_c > second.temp_c) std::swap(first, second);
    above("viscosity at the hotter temperature", second.kv_mm2_s, 0, highest_kv_mm2_s, "mm2/s");
    above("viscosity at the colder temperature", first.kv_mm2_s, second.kv_mm2_s, highest_kv_mm2_s, "mm2/s");
    in_range("distance between the two temperatures", second.temp_c - first.temp_c, 1,
             hottest_allowed_c - coldest_allowed_c, "°C");
    const double w_cold = double_log(d341_z(first.kv_mm2_s, form));
    const double w_hot = double_log(d341_z(second.kv_mm2_s, form));
    const double b = (w_cold - w_hot) / (log_kelvin(second.temp_c) - log_kelvin(first.temp_c));
    return {w_cold + b * log_kelvin(first.temp_c), b, form, first.temp_c, second.temp_c};
}

ViscosityAt viscosity_at(const ViscosityLine& line, double temp_c) {
    check_temp(temp_c);
    const double w = line.a - line.b * log_kelvin(temp_c);
    const double z = std::pow(10.0, std::pow(10.0, w));
    if (!(z <= highest_kv_mm2_s))
        refuse("temperature", number_text(temp_c) + " °C",
               "where this fluid is thinner than 20000000 mm2/s, from " +
                   number_text(std::ceil(reached_at_c(line, highest_kv_mm2_s)) + 0.0) + " °C up");
    const double kv = d341_kv(z, line.form);
    return {kv, temp_c < line.coldest_c || temp_c > line.hottest_c, temp_c < 0,
            line.form == D341Form::simple && kv < simple_form_from_mm2_s};
}

double temperature_at_c(const ViscosityLine& line, double kv_mm2_s) {
    return in_range("temperature at which the fluid has this viscosity", reached_at_c(line, kv_mm2_s),
                    coldest_allowed_c, hottest_allowed_c, "°C");
}

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

}  // namespace casebound::transmission_fluids
