#pragma once
// How the fasteners of links and clamps are tightened: the maker's figure as recorded, else computed from class and
// thread with the rows of stabilisers_classes and stabilisers_friction, said to be computed and never firmer than common practice.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/fastening.h"
#include "science/link.h"

namespace casebound::stabilisers {

// Rows that hold on the vehicle or may. Of the links when `clamp` is false, of the bar's clamps when it is true.
std::vector<HeldRow> fasteners_at(const Services& services, Axle axle, bool clamp);

struct Proof {
    double mpa;
    SourceNote source;
};
// The one row of that class that takes the thread; nothing when there is none, or several that differ.
std::optional<Proof> proof_of(const Facts& facts, std::string_view property_class, double thread_mm);

struct Friction {
    double nut_factor;
    SourceNote source;
};
std::optional<Friction> friction_of(const Facts& facts, std::string_view state);

// Of the proof load: under it even when a thread reckoned as received turns out to be oiled, 0.70 * 0.20 / 0.15 = 0.93.
inline constexpr double share_of_proof = 0.7;

// Where the row states no torque, and its thread and class give one.
bool is_computed(const Row& row, const Facts& facts);

// "3 x nut M10, link to bar": "45 N m; new each time; last turn at ride height".
Fastener fastener_of(const HeldRow& row, const Facts& facts);

Tightening tightening(std::string_view role, const Services& services);

}  // namespace casebound::stabilisers
