#pragma once
// Glycol and water: freezing point by share, and how much to draw off for another share. Shares in per cent of
// concentrate by volume, temperatures in degC. Reads between given points and never beyond them.

#include <optional>
#include <vector>

namespace casebound::service_fluids {

struct FreezePoint {
    double glycol_pct, freeze_c;
};

// Sorted by share; each colder than the one before. What more glycol would no longer make colder is left out.
std::vector<FreezePoint> falling(std::vector<FreezePoint> points);

// On the straight line between the two points around it. Nothing: outside them, or fewer than two. Requires: falling.
std::optional<double> freeze_at(const std::vector<FreezePoint>& points, double glycol_pct);
std::optional<double> share_at(const std::vector<FreezePoint>& points, double freeze_c);

// Litres of the mixture to draw off and to replace with a fill of `fill_pct`, so that `total_l` of `have_pct` becomes
// `want_pct`: V (want - have) / (fill - have). Refuses a fill that does not lie beyond what is wanted.
double draw_off_l(double total_l, double have_pct, double want_pct, double fill_pct);

// The share after `drawn_l` of `total_l` was replaced.
double share_after_pct(double total_l, double have_pct, double drawn_l, double fill_pct);

}  // namespace casebound::service_fluids
