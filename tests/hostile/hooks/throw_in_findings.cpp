// Looks beyond the end of a list when it is asked what was found.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Findings findings(const Services&) const override { throw std::out_of_range("vector::_M_range_check"); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
