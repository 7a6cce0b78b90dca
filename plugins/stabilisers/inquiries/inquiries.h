#pragma once
// The named computations about links and bushes, in the order they are listed; one file a topic.

#include "core/contract/answer.h"

namespace casebound::stabilisers {

Inquiry clunk_inquiry();
Inquiry compare_inquiry();
Inquiry bush_inquiry();
Inquiry torque_inquiry();
Inquiry proof_load_inquiry();
Inquiry twist_inquiry();

// What torque and proof-load share: thread, pitch and class, and the note that the area of a thread rests on.
Input thread_input();
Input pitch_input();
Input class_input();
SourceNote area_source();

}  // namespace casebound::stabilisers
