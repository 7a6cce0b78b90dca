// The next thing to find out, with how to find it out and a field to answer it.
#pragma once

#include "core/page/page_form.h"
#include "core/reason/question.h"
#include "core/session/situation.h"

namespace casebound {

// The first thing on a page. `?ask=ATTRIBUTE` asks another that would settle something.
void write_question(Html& html, const Visit& visit, const Situation& situation, const std::vector<OpenLine>& lines);

// A field that takes a value of the attribute: what is still possible in sight when it is little.
Field value_field(const Attribute& attribute, const std::vector<std::string>& possible);

}  // namespace casebound
