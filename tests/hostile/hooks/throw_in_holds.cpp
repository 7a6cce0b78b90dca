// Throws a number when it is asked what holds an order.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    std::vector<Hold> holds(const Services&) const override { throw 42; }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
