// The answer to "may OFFERED stand in for WANTED?" as HTML.
#pragma once

#include "core/page/page_frame.h"
#include "core/verdict/interchange.h"

namespace casebound {

void write_swap(Html& html, const SwapAnswer& made, const Catalog& catalog);

}  // namespace casebound
