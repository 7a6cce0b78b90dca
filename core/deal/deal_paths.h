// The cash of each path through a deal at one set of figures: what economics adds up, and deal_draws draws.
#pragma once

#include <string>
#include <vector>

#include "core/deal/economics.h"

namespace casebound {

struct DealFigures {
    double purchase{}, diagnosis{}, cheap_fix{}, unit{}, running{}, as_is{}, opened{}, works{}, look{};
};

// A ranged input, and the figures it sets: sale_as_is sets `opened` too while nothing else is said.
struct DealInput {
    std::string name;
    const Estimate* estimate{};
    std::vector<double DealFigures::*> sets;
};

std::vector<DealInput> inputs_of(const Deal& deal);  // `works` is the last; points into `deal`
DealFigures likely_figures(const Deal& deal);
DealFigures mean_figures(const Deal& deal);
DealFigures bad_figures(const Deal& deal);  // costs high, sales low, the fix does not work

// What is done at each fork of a path.
struct Policy {
    Path after_failure{}, if_good{}, if_bad{};
};
Policy policy_at(const Deal& deal, const DealFigures& figures);

double good_sign_chance(const Look& look, double works);
double works_after(const Look& look, double works, bool good_sign);

// Cash from now on, purchase and diagnosis left out, when the chance that the cheap fix works is `works`.
// REQUIRES: path is fix_first, unit_now or pass_on.
double path_cash(const Deal& deal, const DealFigures& f, Path path, double works, Path after_failure, bool opened);
// The same after looking, its cost included.
double look_cash(const Deal& deal, const DealFigures& f, const Policy& policy, double works, bool good_sign);

}  // namespace casebound
