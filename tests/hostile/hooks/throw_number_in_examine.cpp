// Throws a number when a candidate is examined.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Examination examine(const Candidate&, const Services&) const override { throw 42; }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
