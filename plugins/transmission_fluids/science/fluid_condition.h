#pragma once
// What drained or dipped fluid looks, smells and feels like, as evidence. Every
// rule is common practice, no source. It points at what to look at next; it
// never names a faulty part, and it never identifies a fluid: colour is not an
// identity.
#include <optional>
#include <string_view>
#include <vector>

namespace casebound::transmission_fluids {

// Each rising in weight.
enum class FluidColour { red, amber, brown, black, milky };
enum class FluidSmell { none, varnish, burnt };
enum class FluidClarity { clear, cloudy, metallic_sheen };
enum class FluidFeel { smooth, gritty };

// Anything not observed stays empty and says nothing.
struct FluidObserved {
    std::optional<FluidColour> colour;
    std::optional<FluidSmell> smell;
    std::optional<FluidClarity> clarity;
    std::optional<FluidFeel> feel;
};

// Rising in weight.
enum class FluidSign {
    no_sign,        // nothing observed speaks against it
    normal_ageing,  // darker with use
    heat_ageing,    // varnish smell, or burnt smell without the colour
    particles,      // sheen or grit: look at the pan
    friction_loss,  // black and burnt
    water_or_air,   // cloudy: settle it before driving far
    coolant,        // milky: do not drive
};
std::string_view sign_words(FluidSign sign);

struct FluidFinding {
    FluidSign sign;
    std::string_view because;
    std::string_view next;
};

struct FluidReading {
    std::vector<FluidFinding> findings;  // heaviest first; empty when nothing was observed
    std::vector<std::string_view> not_observed;
    bool do_not_drive;
};

FluidReading read_fluid_condition(const FluidObserved& observed);

// Burnt smell with metal in it or friction material lost: sheen, grit, or black.
bool burnt_with_metal(const FluidObserved& observed);

}  // namespace casebound::transmission_fluids
