// Writes to memory that is not its own when it is asked what was found.
#include "wipers.h"

namespace {
volatile int* const nowhere = nullptr;

class Spoilt : public Wipers {
    Findings findings(const Services&) const override {
        *const_cast<volatile int*>(nowhere) = 1;
        return {};
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
