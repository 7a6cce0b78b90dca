// What stands in the way of an order, on its page: lines that may not be ordered yet, each with the links that leave it
// out or take its doubt for settled; and lines that nothing on file serves.
#pragma once

#include <string>

#include "core/buy/buying.h"
#include "core/page/page_visit.h"

namespace casebound {

void write_blocked(Html& html, const Visit& visit, const std::string& vehicle, const Buying& buying);

// With the parts that would serve each: a link begins an offer for one.
void write_not_offered(Html& html, const Buying& buying);

}  // namespace casebound
