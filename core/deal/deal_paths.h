// A deal and the paths through it, and the cash of each at one set of figures: what deal adds up, and deal_draws
// draws.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct Estimate {
    double low{}, likely{}, high{};
    std::string origin;  // "own closed jobs", "offer on file", "typed in", "demo default"
    double mean() const { return (low + likely + high) / 3; }  // of a triangular distribution
};

Estimate exactly(double amount, std::string origin);

// Beta(alpha, beta) when both are given, else triangular in low, likely, high.
struct Chance {
    Estimate share;
    double alpha{}, beta{};
    double mean() const { return alpha > 0 ? alpha / (alpha + beta) : share.mean(); }
};

Chance chance_beta(double alpha, double beta, std::string origin);
Chance chance_from_jobs(double worked, double failed, std::string origin);  // Beta(worked + 1, failed + 1)

// Something to look at before deciding, such as what is in the pan.
struct Look {
    std::string what;
    double good_if_works{}, good_if_not{};  // chance of a good sign if the cheap fix would work, and if not
    Estimate cost;
    bool opens{};  // passing on afterwards brings sale_opened
};

struct Deal {
    Estimate purchase;                               // still to pay: purchase and transport
    Estimate diagnosis;                              // still to pay
    Estimate cheap_fix;                              // parts, fluid, paid hours
    Estimate unit;                                   // replacement unit, installed, net of the returned core
    Estimate sale_running;                           // the fault gone
    Estimate sale_as_is;                             // as it is, or in parts
    std::optional<Estimate> sale_opened;             // the same once it has been opened, if that is less
    Chance works;                                    // the cheap fix works
    double reusable_share{};                         // of the cheap fix, if a unit follows
    double spent{};                                  // gone already: purchase, diagnosis, failed fixes
    bool bought{};                                   // false: walking away is still possible
    bool fix_failed{};                               // the cheap fix was tried; its cost is in `spent`
    double fixed_sale_cost{}, sale_fee_rate{};       // between asking price and net sale
    double margin{};                                 // wanted, for the bid ceiling
    double fix_hours{}, unit_hours{}, hour_value{};  // own, not in the estimates; valued and shown apart
    std::optional<Look> look;
};

enum class Path : std::uint8_t { fix_first, unit_now, pass_on, look_first, walk_away };
std::string_view path_words(Path path);

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
