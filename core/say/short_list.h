// The parts list for somebody under the vehicle: ready or not and the one thing to do next, a line a part, what stays
// behind, what to look at. What is held, doubted, right only on a condition or stays behind always stands
// there; reasons, sources and the job's cautions are list_text's (--full). Renders only; decides nothing.
#pragma once

#include <string>

#include "core/session/situation.h"
#include "core/verdict/parts_list.h"

namespace casebound {

// "Q312-4131, the same part: LD-4230", or "41 mm: Q312-1141 | 61 mm: Q312-1161": what to order for a line, or by what it hangs.
std::string order_in_short(const ListLine& line, const Situation& situation);

std::string short_list_text(const PartsList& list, const Situation& situation);

}  // namespace casebound
