#pragma once
// What is on record of two mounts that are changed together, for `pair` and `shake` alike, and which places the vehicle
// has not. Concludes nothing about a mount that nobody has looked at.

#include <string_view>

#include "core/contract/plugin.h"
#include "science/pair_advice.h"

namespace casebound::mounts {

std::string_view word(PairAction action);  // "replace"

struct RecordedRule {
    PairRule rule = PairRule::not_recorded;
    SourceNote source{};
};

// Of several rules that apply the strictest is advised, and each is shown in `answer`. One that may or may not apply is
// at most a recommendation until that is found out.
RecordedRule recorded_rule(const Services& services, Position broken, Position other, Answer& answer);

// False where a source says that the vehicle has no mount there, and none says that it has.
bool may_have(const Services& services, Position position);

}  // namespace casebound::mounts
