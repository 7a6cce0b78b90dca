#include "rows/findings.h"

#include <algorithm>
#include <array>

#include "core/contract/answer_lines.h"
#include "core/contract/told_trouble.h"

namespace casebound::transmission_fluids {

namespace {

// Names in the order of the enumeration.
template <typename Value, std::size_t N>
std::optional<Value> value_named(const std::array<std::string_view, N>& names, std::string_view name) {
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) return std::nullopt;
    return static_cast<Value>(found - names.begin());
}

constexpr std::array<std::string_view, 5> colours{"red", "amber", "brown", "black", "milky"};
constexpr std::array<std::string_view, 3> smells{"none", "varnish", "burnt"};
constexpr std::array<std::string_view, 3> clarities{"clear", "cloudy", "metallic_sheen"};
constexpr std::array<std::string_view, 2> feels{"smooth", "gritty"};

template <typename Value, std::size_t N> void read_told(const VehicleView& vehicle, std::string_view attribute,
                                                        const std::array<std::string_view, N>& names,
                                                        std::optional<Value> FluidObserved::*part, ToldFluid& fluid) {
    const auto told = told_of(&vehicle, attribute);
    if (!told) return;
    fluid.as_told.*part = value_named<Value>(names, told->text);
    for (const auto& one : told->alternatives())
        fluid.at_worst.*part = std::max(fluid.at_worst.*part, value_named<Value>(names, one));
}

}  // namespace

FluidObserved observed_from(std::string_view colour, std::string_view smell, std::string_view clarity,
                            std::string_view feel) {
    return {value_named<FluidColour>(colours, colour), value_named<FluidSmell>(smells, smell),
            value_named<FluidClarity>(clarities, clarity), value_named<FluidFeel>(feels, feel)};
}

ToldFluid told_fluid(const VehicleView& vehicle) {
    ToldFluid fluid;
    read_told(vehicle, "fluid_colour", colours, &FluidObserved::colour, fluid);
    read_told(vehicle, "fluid_smell", smells, &FluidObserved::smell, fluid);
    read_told(vehicle, "fluid_clarity", clarities, &FluidObserved::clarity, fluid);
    read_told(vehicle, "fluid_feel", feels, &FluidObserved::feel, fluid);
    return fluid;
}

SourceNote practice_on(const VehicleView& vehicle, const std::vector<std::string_view>& attributes) {
    SourceNote source = practice();
    for (const auto attribute : attributes)
        if (const auto told = told_of(&vehicle, attribute)) source = fed_with(std::move(source), told->source());
    return source;
}

std::vector<std::string_view> fluid_looks() { return {"fluid_colour", "fluid_smell", "fluid_clarity", "fluid_feel"}; }

Findings findings(const Services& services) {
    return {told_trouble(services,
                         {
                             {"fluid_colour", {"black", "milky"}, "colour of the fluid"},
                             {"fluid_smell", {"varnish", "burnt"}, "smell of the fluid"},
                             {"fluid_clarity", {"cloudy", "metallic_sheen"}, "fluid against the light"},
                             {"fluid_feel", {"gritty"}, "feel of the fluid"},
                             {"fluid_level", {"low", "high"}, "level at temperature"},
                             {"cooler_test", {"leaks"}, "fluid cooler"},
                         }),
            {}};
}

}  // namespace casebound::transmission_fluids
