// Cells of a seller's list: tidied, and as numbers by the list's own decimal sign. Knows no mapping.
#pragma once

#include <string>
#include <string_view>

#include "core/book/list_file.h"
#include "core/work/list_mapping.h"

namespace casebound {

std::string tidy(std::string_view text);  // on one line, without blanks at its ends, one blank for several

// The first rows, for a proposal.
ListSample sample_of(const ListFile& list);

// "1.234,50" is 1234.5 in a list that writes a decimal comma. "" when it is no number by that sign.
std::string number_by(std::string_view text, std::string_view decimal);

}  // namespace casebound
