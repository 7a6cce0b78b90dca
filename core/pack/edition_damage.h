// What a spreadsheet does to a pack on the way, found by comparing it with the edition that is loaded, and, where there is
// none, by what no sound cell looks like. Nothing found is repaired; a person says which cells are meant.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/pack/pack_edition.h"
#include "core/pack/pack_report.h"
#include "core/reason/vocabulary.h"

namespace casebound {

// Do two cells differ only by zeros, the decimal sign, an exponent, or digits that were rounded away?
bool only_digits_lost(std::string_view before, std::string_view after);

// Faults: cells of `now` that differ so from the loaded edition, with old and new.
std::vector<PackFault> damage_since(const PackEdition& before, const PackEdition& now);

// Faults of cells by themselves: what a formula left, a long number that was rounded, what lies outside the usual range of
// its kind or attribute and is not so in the loaded edition.
std::vector<PackFault> damage_alone(const PackEdition& before, const PackEdition& now, const Vocabularies& words);

// Worth a look: columns of bare numbers that may all have lost their first zero.
std::vector<PackFault> zeros_lost(const PackEdition& now);

// Takes out what is meant: "items.csv:12:4" or "mine.xlsx:items:D12" each, as the fault names it. Throws Error(usage) for one that names no fault.
void leave_out_meant(std::vector<PackFault>& faults, const std::vector<std::string>& meant);

}  // namespace casebound
