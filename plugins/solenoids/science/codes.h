#pragma once
// Generic transmission trouble codes by function and behaviour (pattern of SAE
// J2012 / ISO 15031-6, as published lists agree on it). A code names a circuit
// or a behaviour, never a part. Codes are matched by number, never by text.

#include "science/cause.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::solenoids {

struct Code {
    char system = 'P';         // P, C, B or U
    std::uint16_t number = 0;  // the four characters as hexadecimal: P0753 is 0x0753
    friend bool operator==(const Code&, const Code&) = default;
};

// Five characters, letters in either case, blanks around allowed. Nothing when
// the text is not a code.
std::optional<Code> read_code(std::string_view text);
std::string code_text(Code code);

// P1xxx and P30xx to P33xx are the maker's own: their meaning is per maker.
// From memory.
bool is_makers_own(Code code);

enum class Function {
    control_system,      // P0700 to P0702
    actuator_supply,     // P0657
    range_sensor,        // P0705 to P0709
    fluid_temperature,   // P0710 to P0714
    input_speed,         // P0715 to P0718
    output_speed,        // P0720 to P0723
    engine_speed,        // P0725 to P0728
    gear_ratio,          // P0729 to P0736
    converter_clutch,    // P0740 to P0744
    pressure_control,    // P0745, P0775, P0795 and four following each
    shift_solenoid,      // P0750 to P0774, P075A to P075E, P076A to P076E
    shift_quality,       // P0780 to P0784
    shift_timing,        // P0785 to P0789
    intermediate_speed,  // P0791 to P0794
};

enum class CodeClass {
    circuit,
    stuck_off,  // "performance or stuck off"
    stuck_on,
    electrical,
    intermittent,
    ratio,
    supply_open,
    request,  // P0700: look in the transmission controller
    range_performance,
    low,
    high,
    no_signal,
    shift,
};

enum class CodeEvidence { lists_agree, one_list, makers_text, from_memory };

std::string_view word(Function function);
std::string_view word(CodeClass kind);
std::string_view word(CodeEvidence evidence);

struct Meaning {
    Function function;
    std::string which;  // letter of the solenoid, gear, or shift; empty where there is one
    CodeClass kind;
    CodeEvidence evidence;
};

// Nothing = not recorded here; it never means that the code does not exist.
std::optional<Meaning> meaning(Code code);

// "shift solenoid A, electrical"
std::string in_words(const Meaning& meaning);

// "P0753: shift solenoid A, electrical", or "P0999: not recorded".
std::string described(Code code);

// The code for a shift solenoid A to E and one of the five behaviours
// (circuit, stuck off, stuck on, electrical, intermittent); nothing otherwise.
std::optional<Code> shift_solenoid_code(char letter, CodeClass kind);

// Where to look, most telling first. Empty for classes that do not point
// anywhere by themselves (request, shift quality).
std::vector<Cause> where_to_look(CodeClass kind);

// A circuit as the controller sees it.
struct Circuit {
    Function function;
    std::string which;
    friend bool operator==(const Circuit&, const Circuit&) = default;
};

// Distinct solenoid circuits with an electrical kind of code (circuit,
// electrical, intermittent), in the order first seen.
std::vector<Circuit> failed_circuits(const std::vector<Code>& codes);

enum class SharedSuspicion {
    none,              // at most one circuit
    several_circuits,  // two or more: what they share comes first
    supply_reported,   // P0657: every solenoid on that supply lost power
};
SharedSuspicion shared_suspicion(const std::vector<Code>& codes);

struct WiringNode {
    std::string name;  // "feed fuse", "case connector"
    std::vector<Circuit> circuits;
};

struct SuspectNode {
    std::string name;
    std::size_t failed_on;   // failed circuits that pass through it, at least 2
    std::size_t failed_off;  // failed circuits it cannot explain
    std::size_t silent_on;   // circuits on it that reported nothing
};

// Nodes that two or more failed circuits share: those that explain most first,
// then those with fewest silent circuits, then by name. Empty when no node is
// recorded: that is "not recorded", not "nothing shared".
std::vector<SuspectNode> suspect_nodes(const std::vector<Code>& codes, const std::vector<WiringNode>& nodes);

}  // namespace casebound::solenoids
