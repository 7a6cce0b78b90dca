#include "science/fluid_condition.h"

#include <algorithm>
#include <utility>

namespace casebound::transmission_fluids {

namespace {

bool dark(FluidColour colour) { return colour == FluidColour::brown || colour == FluidColour::black; }

std::optional<FluidFinding> from_water(const FluidObserved& o) {
    if (o.colour == FluidColour::milky)
        return FluidFinding{FluidSign::coolant, "milky: coolant or water is in the fluid",
                            "Do not drive. It attacks the bond of friction linings. Test the "
                            "cooler and the coolant."};
    if (o.clarity == FluidClarity::cloudy)
        return FluidFinding{FluidSign::water_or_air, "cloudy: air whipped in, or water",
                            "Let a sample stand. Clears from below: air, check the level. "
                            "Stays: water."};
    return std::nullopt;
}

std::optional<FluidFinding> from_heat(const FluidObserved& o) {
    const bool burnt = o.smell == FluidSmell::burnt;
    if (burnt && o.colour == FluidColour::black)
        return FluidFinding{FluidSign::friction_loss, "black and burnt: friction material is lost",
                            "Drop the pan and look at the debris before buying anything else."};
    if (burnt)
        return FluidFinding{FluidSign::heat_ageing, "burnt smell: it has been too hot",
                            "Look at the pan; find out why it ran hot."};
    if (o.smell == FluidSmell::varnish)
        return FluidFinding{FluidSign::heat_ageing, "varnish smell: aged by heat",
                            "Change it; look at the pan while it is off."};
    return std::nullopt;
}

std::optional<FluidFinding> from_particles(const FluidObserved& o) {
    if (o.feel == FluidFeel::gritty)
        return FluidFinding{FluidSign::particles, "gritty: hard particles", "Look at the pan and the magnet."};
    if (o.clarity == FluidClarity::metallic_sheen)
        return FluidFinding{FluidSign::particles, "metallic sheen: fine metal", "Look at the pan and the magnet."};
    return std::nullopt;
}

std::optional<FluidFinding> from_colour(const FluidObserved& o) {
    if (!o.colour || !dark(*o.colour) || o.smell == FluidSmell::burnt) return std::nullopt;
    return FluidFinding{FluidSign::normal_ageing, "dark: fluid darkens with use",
                        "Colour alone decides nothing; smell it and feel it."};
}

std::vector<std::string_view> gaps(const FluidObserved& o) {
    std::vector<std::string_view> names;
    for (const auto& [seen, name] :
         {std::pair{o.colour.has_value(), "colour"}, std::pair{o.smell.has_value(), "smell"},
          std::pair{o.clarity.has_value(), "clarity"}, std::pair{o.feel.has_value(), "feel"}})
        if (!seen) names.emplace_back(name);
    return names;
}

}  // namespace

FluidReading read_fluid_condition(const FluidObserved& observed) {
    FluidReading reading{{}, gaps(observed), observed.colour == FluidColour::milky};
    for (const auto rule : {from_water, from_heat, from_particles, from_colour})
        if (const auto finding = rule(observed)) reading.findings.push_back(*finding);
    std::stable_sort(reading.findings.begin(), reading.findings.end(),
                     [](const auto& a, const auto& b) { return a.sign > b.sign; });
    if (reading.findings.empty() && reading.not_observed.size() < 4)
        reading.findings.push_back({FluidSign::no_sign, "nothing observed speaks against it",
                                    "It does not prove the fluid right: colour is no identity."});
    return reading;
}

bool burnt_with_metal(const FluidObserved& o) {
    const bool metal = o.clarity == FluidClarity::metallic_sheen || o.feel == FluidFeel::gritty;
    return o.smell == FluidSmell::burnt && (metal || o.colour == FluidColour::black);
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
