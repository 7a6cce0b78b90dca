// Leaves by the system's own door when it is asked what was found.
#include <unistd.h>

#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Findings findings(const Services&) const override { ::_exit(0); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
