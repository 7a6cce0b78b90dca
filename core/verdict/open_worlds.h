// What may be true of a vehicle while something told of it is in doubt.
#pragma once

#include "core/verdict/narrowing.h"

namespace casebound {

// What is left, and what open doubts allow beside it.
inline Bits may_be_true(const Narrowing& narrowing) {
    Bits open = narrowing.left;
    for (const auto& doubt : narrowing.doubts) open |= doubt.worlds;
    return open;
}

// And what would be, had nobody told what nobody here measured or read.
inline Bits may_be_true_by_what_is_firm(const Narrowing& narrowing) {
    std::vector<const ToldFact*> firm;
    bool hearsay = false;
    for (const auto& fact : narrowing.facts) {
        if (!fact.applies) continue;
        if (is_hearsay(fact.evidence)) hearsay = true;
        else firm.push_back(&fact);
    }
    return hearsay ? may_be_true(narrowing) | narrowing.left_by(firm) : may_be_true(narrowing);
}

}  // namespace casebound
