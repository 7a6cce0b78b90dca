// Looks beyond the end of a list when a candidate is examined.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Examination examine(const Candidate&, const Services&) const override {
        throw std::out_of_range("vector::_M_range_check");
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
