// The parts list for somebody under the vehicle: ready or not and the one thing to do next, a line a part, what stays
// in the case, what to look at. What is held, doubted, right only on a condition or stays in the case always stands
// there; reasons, sources and the job's cautions are list_text's (--full). Renders only; decides nothing.
#pragma once

#include <string>

#include "core/session/situation.h"
#include "core/verdict/parts_list.h"

namespace casebound {

std::string short_list_text(const PartsList& list, const Situation& situation);

}  // namespace casebound
