#include "rows/findings.h"

#include <algorithm>
#include <array>

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

}  // namespace

FluidObserved observed_from(std::string_view colour, std::string_view smell, std::string_view clarity,
                            std::string_view feel) {
    return {value_named<FluidColour>(colours, colour), value_named<FluidSmell>(smells, smell),
            value_named<FluidClarity>(clarities, clarity), value_named<FluidFeel>(feels, feel)};
}

std::string_view sign_words(FluidSign sign) {
    switch (sign) {
        case FluidSign::no_sign: return "no sign";
        case FluidSign::normal_ageing: return "normal ageing";
        case FluidSign::heat_ageing: return "aged by heat";
        case FluidSign::particles: return "particles";
        case FluidSign::friction_loss: return "friction material lost";
        case FluidSign::water_or_air: return "water or air";
        case FluidSign::coolant: return "coolant";
    }
    return "";
}

}  // namespace casebound::transmission_fluids
