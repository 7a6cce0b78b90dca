// Which rubber may meet which fluid, and how hot: ISO 1629 codes against fluid
// and temperature. Every cell has its source; a cell known only from memory
// answers "ask" whatever it says, and so does everything not recorded.
// Never ranks compounds within one code: a code is a family, not a recipe.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

enum class Elastomer { NBR, HNBR, FKM, ACM, VMQ, FVMQ, EPDM, CR, AEM, SBR, NR };

enum class Fluid {
    mineral_oil_atf,
    hydraulic_system_mineral_oil,
    glycol_brake_fluid,    // DOT 3, DOT 4, DOT 5.1
    silicone_brake_fluid,  // DOT 5: same limits as DOT 5.1, another base
    engine_coolant,
    gasoline,
};

std::string_view text(Elastomer elastomer);
std::string_view text(Fluid fluid);

// ISO 1629 code, case ignored; nullopt for anything else, trade names included.
std::optional<Elastomer> elastomer_from_code(std::string_view code);

enum class Rating { good, mostly_good, fair, mostly_poor, not_suitable, varies };

std::string_view text(Rating rating);

struct FluidCell {
    Elastomer elastomer;
    Fluid fluid;
    Rating rating;
    Source source;
};

// nullopt: not recorded.
std::optional<FluidCell> fluid_cell(Elastomer elastomer, Fluid fluid);

// `agreed`: every source allows it; `widest`: some source does, or for a short
// time. Each end has its own source.
struct TemperatureLimits {
    Elastomer elastomer;
    Range agreed_c;
    Range widest_c;
    Source low_source;
    Source high_source;
};

std::optional<TemperatureLimits> temperature_limits(Elastomer elastomer);

// `never`: law or the law's own wording stands against it.
enum class Suitability { fits, ask, does_not_fit, never };

std::string_view text(Suitability suitability);

struct ElastomerAnswer {
    Suitability verdict;
    std::vector<Finding> findings;  // fluid, then cold end, then hot end
    Source weakest;
};

// Coldest and hottest the seal will see.
struct ServiceTemperature {
    std::optional<double> min_c;
    std::optional<double> max_c;
};

// Anything unknown answers "ask", unless what is known is already a no that no
// further fact could lift. `recorded`: cells of packs, each with its source. One
// from memory is outranked by one that is not; two firm ones that contradict
// each other answer "ask" and name both.
// Throws std::domain_error for a temperature outside -80 to 350 C, or a hottest
// below the coldest.
ElastomerAnswer examine_elastomer(std::optional<Elastomer> elastomer, std::optional<Fluid> fluid,
                                  ServiceTemperature service_c, std::span<const FluidCell> recorded = {});

// The fluid alone, at no particular temperature.
Finding judge_fluid(std::optional<Elastomer> elastomer, std::optional<Fluid> fluid,
                    std::span<const FluidCell> recorded = {});

// 49 CFR 571.116, S4 names the rubber as one that mineral oil must not meet.
bool barred_by_law(Elastomer elastomer, Fluid fluid);

// Volume change of a seal in fluid, percent: within 5 either way is accepted by
// rule of thumb, over 25 swell is a failed seal, between is "check first".
// Throws std::domain_error outside -60 to 500 %.
Finding judge_volume_change(double percent);

// ASTM D2000 / SAE J200. Type letter: heat test temperature. Class letter: the
// most swell in IRM 903 oil, percent; nullopt inside for class A (no limit).
struct SwellClass {
    std::optional<double> max_percent;
};
std::optional<double> d2000_type_temp_c(char type);
std::optional<SwellClass> d2000_class_swell(char swell_class);

struct D2000Usual {
    std::string_view type_class;
    std::string_view codes;  // ISO 1629 codes, '/' between
};
std::span<const D2000Usual> d2000_usual_polymers();

// Lowest and highest heat type, and tightest and loosest swell limit, among the
// type-classes that usually name this rubber. nullopt: none does.
struct D2000Rank {
    Range heat_c;
    std::optional<Range> swell_percent;  // nullopt: class A only, no limit
    bool always_limited;                 // false: some type-class of it has no limit
};
std::optional<D2000Rank> d2000_rank(Elastomer elastomer);

}  // namespace casebound::filters_seals
