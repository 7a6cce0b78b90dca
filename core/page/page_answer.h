// Any domain's answer as HTML: headline, lines with their sources, tables, pictures, assumptions, what to do next.
#pragma once

#include "core/contract/plugin.h"
#include "core/page/page_frame.h"

namespace casebound {

void write_answer(Html& html, const Answer& answer);
void write_answer_verdict(Html& html, const Answer& answer);  // nothing where it fits, or only computes
bool invented(const Answer& answer);                          // rests on invented demo data
void write_answer_lines(Html& html, const Answer& answer);
void write_grid(Html& html, const Grid& grid);

}  // namespace casebound
