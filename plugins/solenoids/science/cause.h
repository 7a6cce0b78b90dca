#pragma once
// The seven places a gearbox control fault can live, so that codes, readings
// and swap tests speak of the same things. A cause is where to look, never a
// part to order.

#include <array>
#include <cstddef>
#include <string_view>

namespace casebound::solenoids {

enum class Cause {
    coil,             // winding of one solenoid open, shorted, or off its resistance
    shared_feed,      // feed, fuse, ground or case connector that several share
    internal_plate,   // internal harness or plate between case connector and solenoid
    valve_or_debris,  // valve, plunger or orifice held mechanically
    clutch_or_seal,   // friction element, its seal or its supply
    controller,       // controller, its driver, or a sensor it believes
    fluid,            // level, condition, or a blocked filter
};

inline constexpr std::array<Cause, 7> all_causes{
    Cause::coil,           Cause::shared_feed, Cause::internal_plate, Cause::valve_or_debris,
    Cause::clutch_or_seal, Cause::controller,  Cause::fluid};

constexpr std::string_view word(Cause cause) {
    constexpr std::array<std::string_view, 7> words{
        "coil",           "shared feed or connector", "internal harness or plate", "valve or debris",
        "clutch or seal", "controller or sensor",     "fluid level or condition"};
    return words.at(static_cast<std::size_t>(cause));
}

}  // namespace casebound::solenoids
