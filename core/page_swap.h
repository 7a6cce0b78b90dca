// The answer to "may OFFERED stand in for WANTED?" as HTML.
#pragma once

#include "interchange.h"
#include "page_frame.h"

namespace casebound {

void write_swap(Html& html, const SwapAnswer& answer);

}  // namespace casebound
