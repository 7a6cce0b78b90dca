// The section through case, neck seal, filter and pan with the measured lengths, for a page; and the same in words.
// Heights are to scale, widths are not. A length that is not known is left out, never drawn by guess.
#pragma once

#include "core/contract/plugin.h"
#include "stack.h"

namespace casebound::filters_seals {

// `seal_height_mm`: of the seal in its seat, when known.
Picture section_picture(const FilterStack& stack, const StackAnswer& answer, std::optional<double> seal_height_mm);

}  // namespace casebound::filters_seals
