#pragma once
// One mount is broken: which others to replace, consider or inspect, and when
// another one pays while the work is open. It advises with a reason; it never
// adds a line by itself, and a maker's own pair rule always wins.

#include "science/mount_kind.h"

#include <optional>
#include <string>
#include <vector>

namespace casebound::mounts {

// Money in one currency. All amounts 0 to 1e6, times 0 to 1000 h.
struct ExtraItem {
    double price;
    double labour_now;         // extra labour while the job is open
    double labour_later;       // labour if the job is opened again for it
    double consumables_later;  // fluid, gasket, washer
    double comeback_cost;      // customer, transport
};

double labour_cost(double hours, double hour_rate);

// Replace it now when the chance that it is needed within the holding or
// warranty time is above (price + labour now) / (price + labour later +
// consumables + comeback). Above 1 means never. Throws std::domain_error on a
// negative amount or when doing it later would cost nothing.
double break_even_chance(const ExtraItem& item);

enum class PairRule { not_recorded, required, recommended, no };
enum class PairAction { replace, consider, inspect };

struct OtherMount {
    Position position;
    PairRule pair_rule = PairRule::not_recorded;  // what the maker says of this pair
    std::optional<bool> same_age = {};            // as the broken one
    std::optional<double> chance = {};            // of being needed soon, 0 to 1
    std::optional<ExtraItem> cost = {};
};

struct PairAdvice {
    Position position;
    PairAction action;
    std::string reason;
};

bool is_opposite(Position a, Position b);

// Every other mount gets at least "inspect": one broken mount overstresses the
// others (a maker's workshop manual).
std::vector<PairAdvice> pair_advice(Position broken, const std::vector<OtherMount>& others);

}  // namespace casebound::mounts
