#include "science/brake_fluid.h"

#include <algorithm>
#include <array>

#include "core/contract/valid_range.h"

namespace casebound::service_fluids {

namespace {

constexpr auto none = std::nullopt;
constexpr auto amber = "colourless to amber";

// 49 CFR 571.116.
constexpr std::array<BrakeFluidGrade, 5> grades{{
    {"DOT 3", FluidBase::non_silicone, 205, 140, 1500, 1.5, 7.0, 11.5, amber},
    {"DOT 4", FluidBase::non_silicone, 230, 155, 1800, 1.5, 7.0, 11.5, amber},
    {"DOT 5", FluidBase::silicone, 260, 180, 900, 1.5, none, none, "purple"},
    {"DOT 5.1", FluidBase::non_silicone, 260, 180, 900, 1.5, 7.0, 11.5, amber},
    {"HSMO", FluidBase::mineral_oil, none, none, none, none, none, none, "green"},
}};

void at_least(std::vector<std::string>& reasons, std::string_view what, double offered, double wanted,
              std::string_view unit) {
    if (offered < wanted)
        reasons.push_back(std::string(what) + " only " + number_text(offered) + " against " + number_text(wanted) +
                          " " + std::string(unit));
}

void at_most(std::vector<std::string>& reasons, std::string_view what, double offered, double wanted,
             std::string_view unit) {
    if (offered > wanted)
        reasons.push_back(std::string(what) + " up to " + number_text(offered) + " against " + number_text(wanted) +
                          " " + std::string(unit));
}

// Both of one base and graded, so every limit is there.
std::vector<std::string> limits_not_kept(const BrakeFluidGrade& offered, const BrakeFluidGrade& wanted) {
    std::vector<std::string> reasons;
    at_least(reasons, "dry boiling point", *offered.dry_boiling_min_c, *wanted.dry_boiling_min_c, "°C");
    at_least(reasons, "wet boiling point", *offered.wet_boiling_min_c, *wanted.wet_boiling_min_c, "°C");
    at_most(reasons, "viscosity at -40 °C", *offered.kv_minus_40_max_mm2_s, *wanted.kv_minus_40_max_mm2_s, "mm2/s");
    at_least(reasons, "viscosity at 100 °C", *offered.kv_100_min_mm2_s, *wanted.kv_100_min_mm2_s, "mm2/s");
    return reasons;
}

}  // namespace

std::string_view base_name(FluidBase base) {
    constexpr std::array<std::string_view, 3> names{"non-silicone", "silicone", "mineral oil"};
    return names[static_cast<std::size_t>(base)];
}

std::span<const BrakeFluidGrade> brake_fluid_grades() { return grades; }

const BrakeFluidGrade& brake_fluid_grade(std::string_view name) {
    const auto found = std::find_if(grades.begin(), grades.end(),
                                    [&](const auto& grade) { return grade.name == name; });
    if (found != grades.end()) return *found;
    refuse("brake fluid grade", name, "DOT 3, DOT 4, DOT 5, DOT 5.1, HSMO");
}

BrakeFluidAnswer brake_fluid_may_replace(std::string_view offered_name, std::string_view wanted_name) {
    const BrakeFluidGrade& offered = brake_fluid_grade(offered_name);
    const BrakeFluidGrade& wanted = brake_fluid_grade(wanted_name);
    if (&offered == &wanted) return {BrakeFluidVerdict::same_grade, {}};
    if (offered.base != wanted.base)
        return {BrakeFluidVerdict::base_differs,
                {std::string(offered.name) + " is " + std::string(base_name(offered.base)) + ", " +
                 std::string(wanted.name) + " is " + std::string(base_name(wanted.base))}};
    auto reasons = limits_not_kept(offered, wanted);
    const auto verdict = reasons.empty() ? BrakeFluidVerdict::keeps_every_limit : BrakeFluidVerdict::falls_short;
    return {verdict, std::move(reasons)};
}

double boiling_point_change_max_c(double boiling_point_c) {
    in_range("boiling point", boiling_point_c, 100, 400, "°C");
    return 3.0 + 0.05 * std::max(0.0, boiling_point_c - 225);
}

}  // namespace casebound::service_fluids
