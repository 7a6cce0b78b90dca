#pragma once
// What was seen of a trouble, read: as given by hand or told of the vehicle, in the terms of science/seen.h, each with
// how it is known. It reads and converts; it draws no conclusion and never fills a gap.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"
#include "science/seen.h"

namespace casebound::solenoids {

// "P0753+P0758", "P0753, P0758" or "P0753 P0758". std::domain_error on a text that is no code.
std::vector<Code> codes_from(std::string_view text);

// What a code is about: rows of solenoids_codes for the family or for every one first, then the generic pattern of
// SAE J2012 / ISO 15031-6.
SeenCode about(Code code, const GearboxFamily* family, const Facts& facts);

// What was told of the coil of that attribute, infinity for an open circuit.
std::optional<double> told_ohm(const VehicleView* vehicle, std::string_view attribute);

// Something told that read_seen would read, and that may speak of trouble: the cheap question before the dear one.
bool may_show_trouble(const VehicleView& vehicle);

// The inputs of `fault`, or else what was told. std::domain_error on what the family cannot have.
Seen read_seen(const Given& given, const Services& services, const GearboxFamily& family);

}  // namespace casebound::solenoids
