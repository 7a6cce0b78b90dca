#pragma once
// A gearbox family out of the rows of packs, each with its origin. A cell that is not stated stays unknown, and nothing
// is judged (rows/check.h does).

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"
#include "science/family.h"

namespace casebound::solenoids {

// Nothing when no pack records the family.
std::optional<GearboxFamily> read_family(const Facts& facts, std::string_view gearbox);

// Only what is ordered by: its elements and how each is serviced; no gears, nodes, failures or sensor.
std::optional<GearboxFamily> read_what_is_ordered(const Facts& facts, std::string_view gearbox);

// Words of the tables.
std::optional<FaultKind> fault_kind_from(std::string_view text);
std::optional<CodeClass> code_class_from(std::string_view text);

// "A=off;B=on" of a fail-safe row; nothing when it is not such a list.
std::optional<std::vector<std::pair<std::string, bool>>> read_commands(std::string_view text);

// Which element of the family a generic circuit is, by its role; "" when none is.
std::string element_of(const GearboxFamily& family, const Circuit& circuit);

// The elements that the codes name, when nobody knows the family: no gears, only circuits.
GearboxFamily family_of_codes(const std::vector<Code>& codes);

}  // namespace casebound::solenoids
