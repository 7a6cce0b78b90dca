#pragma once
// What was seen of a trouble: codes, gears, readings, as given by hand or told of the vehicle, in the terms of the
// computations. It reads and converts; it draws no conclusion and never fills a gap.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "science/codes.h"
#include "core/contract/plugin.h"
#include "rows/family.h"
#include "science/fault_patterns.h"
#include "science/resistance.h"

namespace casebound::solenoids {

// A code as stored, and what it is about in this family: by number, never by text.
struct SeenCode {
    Code code;
    std::optional<CodeClass> kind = {};
    std::string element;  // "" when it names none, or the family has no such element
    std::string words;
    SourceNote source{};
    bool electrical() const;
    bool stuck() const { return kind == CodeClass::stuck_off || kind == CodeClass::stuck_on; }
};

struct SeenCoil {
    std::string element;
    double ohm;  // infinity for "open"
    std::optional<double> temp_c = {};
    std::optional<double> at_part_ohm = {};
    std::optional<OhmLimits> ohm_20 = {};
    SourceNote source{}, limits_source{};
    bool open() const;
    std::optional<CoilAnswer> answer() const;  // nothing without temperature or limits, which an open circuit needs not
};

struct Seen {
    std::vector<SeenCode> codes;
    bool no_codes{};  // read, and none was stored
    std::optional<bool> read_before_clearing = {};
    std::vector<std::string> commanded, obtained;  // gear names, "slips", "binds" or "?"
    Phase phase = Phase::not_told;
    std::string lever;
    std::vector<std::string> slipping,
        holding;  // told by `slips`: those that do, and the forward ones that then do not
    std::vector<SeenCoil> coils;
    std::optional<double> feed_v = {}, battery_v = {};
    std::optional<std::string> fuse = {}, connector = {}, fluid_level = {}, swap = {};
    std::optional<bool> gears_back = {};

    bool anything() const;
    std::vector<Observation> observations() const;  // one per gear that is told
    Situation situation() const;
    std::vector<std::string> failed_circuits() const;  // elements, or circuit names, with an electrical kind of code
    bool supply_reported() const;
    bool connector_bad() const;                            // looked at, and not clean
    const SeenCoil* coil(std::string_view element) const;  // nullptr when it was not measured
    bool fails_at_part(std::string_view element) const;    // out of limits at its own pins too: no connector in between
};

// The value of an input, or else what was told of the attribute; nothing when "a|b" was told.
std::optional<std::string> given_or_told(const Given& given, const Services& services, std::string_view input,
                                         std::string_view attribute);

// "P0753+P0758", "P0753, P0758" or "P0753 P0758". std::domain_error on a text that is no code.
std::vector<Code> codes_from(std::string_view text);

// "2-2-3-3" or "2 2 3 3". "slip", "bind" and "?" may stand for a gear. std::domain_error on a gear the table has not.
std::vector<std::string> gears_from(std::string_view text, const ApplyTable& table);

// "A=18.4 B=open": element and ohm. std::domain_error with an example when it cannot be read.
std::vector<std::pair<std::string, double>> coils_from(std::string_view text, const char* input);

// What a code is about: rows of solenoids_codes for the family or for every one first, then the generic pattern of
// SAE J2012 / ISO 15031-6.
SeenCode about(Code code, const GearboxFamily* family, const Facts& facts);

// Which element of the family a generic circuit is, by its role; "" when none is.
std::string element_of(const GearboxFamily& family, const Circuit& circuit);

// The vocabulary's attribute for the coil of an element, by its role; "" when there is none.
std::string coil_attribute(const GearboxFamily& family, std::string_view element);

// What was told of the coil of that attribute, infinity for an open circuit.
std::optional<double> told_ohm(const VehicleView* vehicle, std::string_view attribute);

std::vector<std::string> forward_gears(const ApplyTable& table);

Seen read_seen(const Given& given, const Services& services, const GearboxFamily& family);

// The elements that the codes name, when nobody knows the family: no gears, only circuits.
GearboxFamily family_of_codes(const std::vector<Code>& codes);

}  // namespace casebound::solenoids
