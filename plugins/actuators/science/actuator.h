#pragma once
// An actuator by what can be seen and counted in the hand, and one against another. Never says that one fits a vehicle,
// and takes nothing that is not stated for granted.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/difference.h"

namespace casebound::actuators {

enum class Function : std::uint8_t { unknown, temperature, air_distribution, defrost, recirculation, heater_valve };
// only: the vehicle has one. either: the same part left and right.
enum class Side : std::uint8_t { unknown, only, left, right, rear, either };

// As packs write them, in the order of the values; the first is none of them.
inline constexpr std::array<std::string_view, 6> function_words{"",        "temperature",   "air_distribution",
                                                                "defrost", "recirculation", "heater_valve"};
inline constexpr std::array<std::string_view, 6> side_words{"", "only", "left", "right", "rear", "either"};

struct Place {
    Function function = Function::unknown;
    Side side = Side::unknown;
    friend constexpr bool operator==(Place, Place) = default;
};

// Where vehicles have one.
inline constexpr std::array<Place, 9> places{{{Function::temperature, Side::only},
                                              {Function::temperature, Side::left},
                                              {Function::temperature, Side::right},
                                              {Function::temperature, Side::rear},
                                              {Function::air_distribution, Side::only},
                                              {Function::air_distribution, Side::rear},
                                              {Function::defrost, Side::only},
                                              {Function::recirculation, Side::only},
                                              {Function::heater_valve, Side::only}}};

struct Actuator {
    Place place{};
    std::optional<double> cavities{}, travel_deg{};
    std::string shaft{}, plug_code{}, drive{}, feedback{}, turns{};  // as packs write them; empty: not known
};

// Apart by more, the travel is another; apart by more than the second, no teaching makes up for it. From memory: a
// protractor on a shaft. A maker's figure replaces them.
struct Apart {
    double travel_deg = 5, other_travel_deg = 15;
};

// Every difference and every gap, in the order in which they are looked at. Empty: alike in all of it.
std::vector<Difference> differences(const Actuator& wanted, const Actuator& offered, Apart apart = {});

// "D-shaped shaft", "brushed motor, two wires": what packs write, in words.
std::string said(std::string_view word);

}  // namespace casebound::actuators
