// Part numbers as people type them: with blanks, dots, dashes, small letters, or without. Two that have the same letters
// and digits in the same order are the same number. Never guesses between two.
#pragma once

#include <string>
#include <string_view>

#include "core/verdict/catalog.h"

namespace casebound {

// As it is compared: small letters as capitals, without blanks and . - / _
std::string compared_number(std::string_view typed);

// As a key is written: as printed, each blank a dash.
std::string number_as_key(std::string_view typed);

// The item or group that is meant: itself, else the one whose number is compared as the same, else what was typed, which
// may be a part in words. Throws Error(usage) that names them when it may be several.
std::string item_meant(const Catalog& catalog, std::string_view typed);

}  // namespace casebound
