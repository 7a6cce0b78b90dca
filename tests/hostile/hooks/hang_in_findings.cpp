// Does not come back when it is asked what was found.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Findings findings(const Services&) const override {
        for (volatile int n = 0;;) n = n + 1;
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
