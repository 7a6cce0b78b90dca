// The lines of the parts list on the page, each once under its job. A line shows its sign, place, count and what to order,
// and opens to what is the same part, kits, cautions, reasons and sources. What is held, doubted, right only on a
// condition or stays behind stands outside of what opens.
#pragma once

#include <string>

#include "core/page/page_visit.h"
#include "core/session/situation.h"
#include "core/verdict/parts_list.h"

namespace casebound {

std::string why_address(const std::string& vehicle, const std::string& item);
void write_lines(Html& html, const Visit& visit, const PartsList& list, const Situation& situation);

}  // namespace casebound
