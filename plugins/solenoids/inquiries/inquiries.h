#pragma once
// The named computations about solenoids, in the order they are listed. Each file <topic>.cpp gives its part.

#include <optional>
#include <string>
#include <vector>

#include "core/contract/plugin.h"
#include "science/family.h"

namespace casebound::solenoids {

std::vector<Inquiry> fault_inquiries();
std::vector<Inquiry> gear_inquiries();
std::vector<Inquiry> coil_inquiries();
std::vector<Inquiry> code_inquiries();
std::vector<Inquiry> part_inquiries();
std::vector<Inquiry> position_inquiries();

std::vector<Inquiry> inquiries();  // all of them

// The family an inquiry is about: `apply` and `shared` by hand, `gearbox` by name, or the only one the vehicle can
// have. When there is none, `candidates` says which names were tried or are still possible.
struct FamilyFound {
    std::optional<GearboxFamily> family;
    std::vector<std::string> candidates;
};
FamilyFound family_for(const Given& given, const Services& services);

// What the input `codes` names, where nobody knows the family: elements and no gears. Nothing when it names none.
std::optional<GearboxFamily> family_from_codes(const Given& given);

// The answer when no family was found: which are possible, or that none is recorded.
Answer family_missing(const FamilyFound& found);

// `gearbox`, and, for what needs an apply table, `apply`, `shared` and `elements`.
Input gearbox_input();
std::vector<Input> family_inputs();

}  // namespace casebound::solenoids
