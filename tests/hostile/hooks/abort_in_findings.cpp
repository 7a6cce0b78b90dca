// Gives up when it is asked what was found.
#include <cstdlib>

#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Findings findings(const Services&) const override { std::abort(); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
