// What lines of a list wait for before any question: what it is, who waits, and a field for what settles it.
#pragma once

#include "core/page/page_form.h"
#include "core/say/first_thing.h"
#include "core/session/situation.h"

namespace casebound {

void write_first_things(Html& html, const Visit& visit, const Situation& situation,
                        const std::vector<FirstThing>& things);

}  // namespace casebound
