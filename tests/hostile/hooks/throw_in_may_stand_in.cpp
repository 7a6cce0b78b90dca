// Throws when it is asked whether one group may stand in for another.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Opinion may_stand_in(const Substitution&, const Services&) const override { throw 42; }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
