#pragma once
// Brake fluid grades of 49 CFR 571.116 (FMVSS 116), and whether a grade keeps
// every published limit of another. Base is never crossed: DOT 5 (silicone) and
// DOT 5.1 (not silicone) share their numbers and must never replace each other.
// Keeping the limits is necessary, not sufficient: brake lines default to the
// exact grade that the maker names.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::service_fluids {

enum class FluidBase { non_silicone, silicone, mineral_oil };

struct BrakeFluidGrade {
    std::string_view name;
    FluidBase base;
    std::optional<double> dry_boiling_min_c;      // S5.1.1
    std::optional<double> wet_boiling_min_c;      // S5.1.2
    std::optional<double> kv_minus_40_max_mm2_s;  // S5.1.3
    std::optional<double> kv_100_min_mm2_s;       // S5.1.3; DOT 5, DOT 5.1 from memory
    std::optional<double> ph_min, ph_max;         // S5.1.4; DOT 5.1 from memory
    std::string_view colour;                      // S5.1.14; DOT 5.1 from memory
};
std::string_view base_name(FluidBase base);

std::span<const BrakeFluidGrade> brake_fluid_grades();

// By exact name, "DOT 3" to "DOT 5.1" or "HSMO" (hydraulic system mineral oil).
const BrakeFluidGrade& brake_fluid_grade(std::string_view name);

enum class BrakeFluidVerdict {
    same_grade,
    keeps_every_limit,
    falls_short,
    base_differs,
};

struct BrakeFluidAnswer {
    BrakeFluidVerdict verdict;
    std::vector<std::string> reasons;  // each limit not kept, or both bases
};

BrakeFluidAnswer brake_fluid_may_replace(std::string_view offered, std::string_view wanted);

// High-temperature stability: the most a boiling point may change, 3.0 °C and
// 0.05 °C per degree above 225 °C.
double boiling_point_change_max_c(double boiling_point_c);

}  // namespace casebound::service_fluids
