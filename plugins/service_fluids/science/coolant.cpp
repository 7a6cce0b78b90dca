#include "science/coolant.h"

#include <algorithm>

#include "core/contract/valid_range.h"

namespace casebound::service_fluids {
namespace {

double share(const char* what, double pct) { return in_range(what, pct, 0, 100, "%"); }

double litres(double total_l) { return in_range("coolant in the circuit", total_l, 0.5, 100, "L"); }

double between(double at, double from, double to, double value_from, double value_to) {
    return value_from + (value_to - value_from) * (at - from) / (to - from);
}

}  // namespace

std::vector<FreezePoint> falling(std::vector<FreezePoint> points) {
    std::sort(points.begin(), points.end(),
              [](const FreezePoint& a, const FreezePoint& b) { return a.glycol_pct < b.glycol_pct; });
    const auto turns = std::adjacent_find(points.begin(), points.end(), [](const FreezePoint& a, const FreezePoint& b) {
        return b.freeze_c >= a.freeze_c;
    });
    if (turns != points.end()) points.erase(turns + 1, points.end());
    return points;
}

std::optional<double> freeze_at(const std::vector<FreezePoint>& points, double glycol_pct) {
    share("share of concentrate", glycol_pct);
    for (std::size_t i = 1; i < points.size(); ++i) {
        const auto &a = points[i - 1], &b = points[i];
        if (glycol_pct >= a.glycol_pct && glycol_pct <= b.glycol_pct)
            return between(glycol_pct, a.glycol_pct, b.glycol_pct, a.freeze_c, b.freeze_c);
    }
    return std::nullopt;
}

std::optional<double> share_at(const std::vector<FreezePoint>& points, double freeze_c) {
    in_range("freezing point", freeze_c, -80, 0, "degC");
    for (std::size_t i = 1; i < points.size(); ++i) {
        const auto &a = points[i - 1], &b = points[i];
        if (freeze_c <= a.freeze_c && freeze_c >= b.freeze_c)
            return between(freeze_c, a.freeze_c, b.freeze_c, a.glycol_pct, b.glycol_pct);
    }
    return std::nullopt;
}

double draw_off_l(double total_l, double have_pct, double want_pct, double fill_pct) {
    litres(total_l), share("share that is in", have_pct), share("share that is wanted", want_pct);
    share("share of the fill", fill_pct);
    if (have_pct == want_pct) return 0;
    const bool beyond = want_pct > have_pct ? fill_pct >= want_pct : fill_pct <= want_pct;
    if (!beyond)
        refuse("share of the fill", with_unit(fill_pct, "%"),
               (want_pct > have_pct ? "at least " : "at most ") + with_unit(want_pct, "%"));
    return total_l * (want_pct - have_pct) / (fill_pct - have_pct);
}

double share_after_pct(double total_l, double have_pct, double drawn_l, double fill_pct) {
    in_range("drawn off", drawn_l, 0, litres(total_l), "L");
    return have_pct + (share("share of the fill", fill_pct) - share("share that is in", have_pct)) * drawn_l / total_l;
}

}  // namespace casebound::service_fluids
