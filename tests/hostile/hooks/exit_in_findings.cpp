// Ends the program as if all were well when it is asked what was found.
#include <cstdlib>

#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Findings findings(const Services&) const override { std::exit(0); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
